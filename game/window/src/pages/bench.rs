//! The bench's screen: scene, watch and hand card on the left, field book on the right.

use bevy::input_focus::tab_navigation::TabGroup;
use bevy::prelude::*;

use super::regions::Region;
use crate::panels::{field_book, hand_card, lapse, loupe, showing, watch};
use crate::scene::{carry, panel, pictures, spots};
use crate::ui::pan;
use crate::ui::screen::{Screen, clear};
use crate::ui::settings::Settings;
use crate::ui::theme::Theme;

/// The part of the window under which the bench lies.
#[derive(Component)]
struct BenchRoot;

pub struct BenchPagePlugin;

impl Plugin for BenchPagePlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(OnEnter(Screen::Bench), spawn)
            .add_systems(OnExit(Screen::Bench), clear::<BenchRoot>)
            .add_systems(
                PreUpdate,
                // Two conditions, so that the second is asked even while the first is not met, and a
                // change made before the screen was entered does not count.
                (clear::<BenchRoot>, spawn)
                    .chain()
                    .run_if(in_state(Screen::Bench))
                    .run_if(resource_changed::<Settings>),
            );
    }
}

/// Puts the bench's screen together. Larger text takes more of the window for what is written.
fn spawn(settings: Res<Settings>, mut commands: Commands) {
    let theme = Theme::of(settings.contrast);
    let larger = settings.text_scale() - 1.0;
    commands
        .spawn((
            BenchRoot,
            Node { width: percent(100), height: percent(100), ..default() },
            BackgroundColor(theme.paper),
        ))
        .with_children(|root| {
            pan::spawn(root, &theme, larger, |bench| fill(bench, &theme, larger))
        });
}

/// Scene, watch and hand card on the left, field book on the right.
fn fill(bench: &mut ChildSpawnerCommands, theme: &Theme, larger: f32) {
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
            panel::spawn(column, theme, |panel| {
                pictures::spawn(panel);
                spots::spawn(panel, theme);
                carry::spawn(panel, theme);
                loupe::spawn(panel, theme);
                lapse::spawn(panel, theme);
                showing::spawn(panel, theme);
            });
            column
                .spawn((
                    Region::Watch,
                    TabGroup::new(2),
                    Node {
                        column_gap: px(8),
                        height: percent(21.0 + 17.0 * larger),
                        flex_shrink: 0.0,
                        ..default()
                    },
                ))
                .with_children(|foot| {
                    watch::spawn(foot, theme);
                    hand_card::spawn(foot, theme);
                });
        });
    let book = field_book::spawn(bench, theme, 31.0 + 9.0 * larger);
    bench.commands_mut().entity(book).insert(Region::Book);
}
