//! The bench's screen: scene, watch and hand card on the left, field book on the right; in a narrow
//! window one below another.

use bevy::input_focus::tab_navigation::TabGroup;
use bevy::prelude::*;

use super::regions::Region;
use crate::panels::{field_book, hand_card, lapse, loupe, showing, watch};
use crate::scene::{carry, lit, panel, pictures, spots, word};
use crate::ui::page_keys::Turns;
use crate::ui::pan;
use crate::ui::room::{ByRoom, Columns, Room};
use crate::ui::screen::{Screen, clear};
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
            ByRoom::new(|node, room| {
                let one = room.columns() == Columns::One;
                node.flex_basis = if one { Val::Auto } else { px(0) };
                node.flex_grow = if one { 0.0 } else { 1.0 };
                node.flex_shrink = if one { 0.0 } else { 1.0 };
            }),
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
                    (TabGroup::new(2), Turns),
                    Node { column_gap: px(8), row_gap: px(8), flex_shrink: 0.0, ..default() },
                    ByRoom::new(lay_foot),
                ))
                .with_children(|foot| {
                    watch::spawn(foot);
                    hand_card::spawn(foot);
                });
        });
    let book = field_book::spawn(bench);
    bench.commands_mut().entity(book).insert((
        Region::Book,
        ByRoom::new(|node, room| match room.columns() {
            Columns::Two => {
                node.width = percent(100.0 * field_book::share(room.scale));
                node.height = Val::Auto;
            }
            Columns::One => {
                node.width = percent(100);
                node.height = px((room.window.y - 16.0).max(BOOK_PX * room.scale));
            }
        }),
    ));
}

/// Least height of the book in one column at text of 100 %, logical pixels.
const BOOK_PX: f32 = 520.0;
/// Height of watch and hand card in one column, side by side, at text of 100 %.
const BESIDE_PX: f32 = 200.0;
/// The same, one below the other.
const BELOW_PX: f32 = 330.0;
/// From this size of text on, one column has no room for them side by side.
const BELOW_FROM: f32 = 1.4;

/// Watch and hand card: side by side, or one below the other where large text meets a narrow window.
fn lay_foot(node: &mut Node, room: Room) {
    let below = room.columns() == Columns::One && room.scale > BELOW_FROM;
    node.flex_direction = if below { FlexDirection::Column } else { FlexDirection::Row };
    node.height = match room.columns() {
        Columns::Two => percent(12.0 + 13.0 * room.scale),
        Columns::One if below => px(BELOW_PX * room.scale),
        Columns::One => px(BESIDE_PX * room.scale),
    };
}
