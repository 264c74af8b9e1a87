//! A window that is smaller than the bench: the bench lies under it at its least size, and is moved
//! by the wheel, by the bars at its sides, by keys, and by what gets the focus. A narrow window has the
//! bench in one column, which is moved up and down only.

use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use bevy::ui_widgets::{ControlOrientation, ScrollArea};
use bevy::window::RequestRedraw;

use crate::ui::bars::{self, BAR_PX, excess};
use crate::ui::order::Frame;
use crate::ui::room::{ByRoom, Columns};

/// Least height of two columns at text of 100 %, logical pixels.
const LEAST_HEIGHT_PX: f32 = 640.0;
/// What text of 200 % adds to it.
const LARGER_PX: f32 = 80.0;
/// Least width of one column at text of 100 %, logical pixels; it grows with the text.
const ONE_COLUMN_PX: f32 = 320.0;
/// Room about the bench, in which the bars lie.
const EDGE_PX: f32 = BAR_PX;
/// Frames in which what got the focus may still move: a page is scrolled to it first.
const FRAMES: u8 = 3;

/// What is moved under the window.
#[derive(Component)]
pub struct Pan;

pub struct PanPlugin;

impl Plugin for PanPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, (hold, follow_focus).chain().in_set(Frame::Show));
    }
}

/// Puts what fills the window into its root.
pub fn spawn(root: &mut ChildSpawnerCommands, fill: impl FnOnce(&mut ChildSpawnerCommands)) {
    let whole = Node {
        width: percent(100),
        height: percent(100),
        overflow: Overflow::scroll(),
        ..default()
    };
    let mut pan = root.spawn((Pan, ScrollArea, whole));
    pan.with_children(|pan| {
        pan.spawn((
            Node {
                width: percent(100),
                height: percent(100),
                flex_shrink: 0.0,
                padding: UiRect::all(px(EDGE_PX)),
                column_gap: px(8),
                row_gap: px(8),
                // The space at the end of a wrapped line hangs over the edge: it is nothing to scroll to.
                overflow: Overflow::clip(),
                ..default()
            },
            ByRoom::new(|node, room| match room.columns() {
                Columns::Two => {
                    node.flex_direction = FlexDirection::Row;
                    (node.height, node.align_self) = (percent(100), AlignSelf::Auto);
                    node.min_width = px(room.two_columns_px());
                    node.min_height = px(LEAST_HEIGHT_PX + LARGER_PX * (room.scale - 1.0));
                }
                Columns::One => {
                    node.flex_direction = FlexDirection::Column;
                    // As high as all of it together, not as the window.
                    (node.height, node.align_self) = (Val::Auto, AlignSelf::Start);
                    node.min_width = px(ONE_COLUMN_PX * room.scale);
                    node.min_height = percent(100);
                }
            }),
        ))
        .with_children(fill);
    });
    let pan = pan.id();
    for orientation in [ControlOrientation::Horizontal, ControlOrientation::Vertical] {
        bars::spawn(root, pan, orientation);
    }
}

/// A window that was made larger shows nothing beyond the bench.
fn hold(mut pans: Query<(&ComputedNode, &mut ScrollPosition), With<Pan>>) {
    for (pan, mut position) in &mut pans {
        let held = position.0.clamp(Vec2::ZERO, excess(pan));
        if pan.size().x > 0.0 && position.0 != held {
            position.0 = held;
        }
    }
}

/// Moves the bench so that what got the focus is seen.
fn follow_focus(
    focus: Res<InputFocus>,
    parents: Query<&ChildOf>,
    nodes: Query<(&ComputedNode, &UiGlobalTransform)>,
    mut pans: Query<&mut ScrollPosition, With<Pan>>,
    mut left: Local<u8>,
    mut redraw: MessageWriter<RequestRedraw>,
) {
    if focus.is_changed() {
        *left = FRAMES;
    }
    let Some(entity) = focus.get().filter(|_| *left > 0) else { return };
    *left -= 1;
    let Some(pan) = parents.iter_ancestors(entity).find(|above| pans.contains(*above)) else {
        return;
    };
    let rect = |(node, place): (&ComputedNode, &UiGlobalTransform)| {
        let scale = node.inverse_scale_factor();
        Rect::from_center_size(place.translation * scale, node.size() * scale)
    };
    let (Ok(thing), Ok(around)) = (nodes.get(entity), nodes.get(pan)) else { return };
    let excess = excess(around.0);
    if excess == Vec2::ZERO {
        return;
    }
    let (thing, around) = (rect(thing), rect(around).inflate(-EDGE_PX));
    // What is too large is seen from its beginning.
    let beyond = (thing.max - around.max).max(Vec2::ZERO);
    let by = beyond.min((thing.min - around.min).max(Vec2::ZERO))
        + (thing.min - around.min).min(Vec2::ZERO);
    if let Ok(mut position) = pans.get_mut(pan) {
        let wanted = (position.0 + by).clamp(Vec2::ZERO, excess);
        if position.0 != wanted {
            position.0 = wanted;
        }
    }
    redraw.write(RequestRedraw);
}
