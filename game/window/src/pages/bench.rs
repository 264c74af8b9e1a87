//! The bench's screen: scene, watch and hand card on the left, field book on the right.

use bevy::input_focus::tab_navigation::TabGroup;
use bevy::prelude::*;

use super::regions::Region;
use crate::panels::{field_book, hand_card, lapse, loupe, showing, watch};
use crate::scene::{carry, lit, panel, pictures, spots, word};
use crate::ui::pan;
use crate::ui::screen::{Screen, clear};
use crate::ui::text_size::ByTextSize;
use crate::ui::tone::{Surface, Tone};

/// The part of the window under which the bench lies.
#[derive(Component)]
struct BenchRoot;

pub struct BenchPagePlugin;

impl Plugin for BenchPagePlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(OnEnter(Screen::Bench), spawn)
            .add_systems(OnExit(Screen::Bench), clear::<BenchRoot>);
    }
}

/// Puts the bench's screen together.
fn spawn(mut commands: Commands) {
    commands
        .spawn((
            BenchRoot,
            Node { width: percent(100), height: percent(100), ..default() },
            Surface(Tone::Paper),
        ))
        .with_children(|root| pan::spawn(root, fill));
}

/// Scene, watch and hand card on the left, field book on the right. Larger text takes more of the
/// window for what is written.
fn fill(bench: &mut ChildSpawnerCommands) {
    bench
        .spawn((
            Region::Scene,
            Node {
                flex_direction: FlexDirection::Column,
                flex_grow: 1.0,
                flex_basis: px(0),
                min_width: px(0),
                min_height: px(0),
                row_gap: px(8),
                ..default()
            },
        ))
        .with_children(|column| {
            panel::spawn(column, |panel| {
                pictures::spawn(panel);
                lit::spawn(panel);
                spots::spawn(panel);
                word::spawn(panel);
                carry::spawn(panel);
                loupe::spawn(panel);
                lapse::spawn(panel);
                showing::spawn(panel);
            });
            column
                .spawn((
                    Region::Watch,
                    TabGroup::new(2),
                    Node { column_gap: px(8), flex_shrink: 0.0, ..default() },
                    ByTextSize::new(|node, scale| node.height = percent(4.0 + 17.0 * scale)),
                ))
                .with_children(|foot| {
                    watch::spawn(foot);
                    hand_card::spawn(foot);
                });
        });
    let book = field_book::spawn(bench);
    bench.commands_mut().entity(book).insert((
        Region::Book,
        ByTextSize::new(|node, scale| node.width = percent(22.0 + 9.0 * scale)),
    ));
}
