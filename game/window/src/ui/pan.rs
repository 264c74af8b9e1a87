//! A window that is smaller than the bench: the bench lies under it at its least size, and is moved
//! by the wheel, by the bars at its sides, and by what gets the focus.

use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use bevy::ui_widgets::{ControlOrientation, ScrollArea, Scrollbar, ScrollbarThumb};
use bevy::window::RequestRedraw;

use crate::ui::order::Frame;
use crate::ui::text_size::ByTextSize;
use crate::ui::tone::{Surface, Tone};

/// Least size of the bench at text of 100 %, logical pixels.
const LEAST: Vec2 = Vec2::new(960.0, 640.0);
/// What text of 200 % adds to it.
const LARGER: Vec2 = Vec2::new(320.0, 80.0);
/// Room about the bench, in which the bars lie.
const EDGE_PX: f32 = 8.0;
/// Least length of a bar's thumb.
const THUMB_PX: f32 = 24.0;
/// Frames in which what got the focus may still move: a page is scrolled to it first.
const FRAMES: u8 = 3;

/// What is moved under the window.
#[derive(Component)]
pub struct Pan;

/// A bar at a side of the window.
#[derive(Component)]
struct Bar;

pub struct PanPlugin;

impl Plugin for PanPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, (show_bars, hold, follow_focus).chain().in_set(Frame::Show));
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
                // The space at the end of a wrapped line hangs over the edge: it is nothing to scroll to.
                overflow: Overflow::clip(),
                ..default()
            },
            ByTextSize::new(|node, scale| {
                let least = LEAST + LARGER * (scale - 1.0);
                (node.min_width, node.min_height) = (px(least.x), px(least.y));
            }),
        ))
        .with_children(fill);
    });
    let pan = pan.id();
    for orientation in [ControlOrientation::Horizontal, ControlOrientation::Vertical] {
        root.spawn(bar(pan, orientation)).with_child((
            ScrollbarThumb { border_radius: BorderRadius::all(px(3)), ..default() },
            Surface(Tone::InkSoft),
        ));
    }
}

fn bar(pan: Entity, orientation: ControlOrientation) -> impl Bundle {
    let mut node = Node {
        position_type: PositionType::Absolute,
        display: Display::None,
        right: px(0),
        bottom: px(0),
        ..default()
    };
    match orientation {
        ControlOrientation::Horizontal => {
            (node.left, node.right, node.height) = (px(0), px(EDGE_PX), px(EDGE_PX));
        }
        ControlOrientation::Vertical => {
            (node.top, node.bottom, node.width) = (px(0), px(EDGE_PX), px(EDGE_PX));
        }
    }
    (Bar, Scrollbar::new(pan, orientation, THUMB_PX), node, Surface(Tone::PaperShade))
}

/// How far the bench is larger than the window, logical pixels.
fn excess(pan: &ComputedNode) -> Vec2 {
    let excess = (pan.content_size() - pan.size()) * pan.inverse_scale_factor();
    // Half a pixel is a matter of rounding.
    Vec2::select(excess.cmpgt(Vec2::splat(0.5)), excess, Vec2::ZERO)
}

/// Shows the bars only where there is something to move.
fn show_bars(mut bars: Query<(&Scrollbar, &mut Node), With<Bar>>, pans: Query<&ComputedNode>) {
    for (bar, mut node) in &mut bars {
        let Ok(pan) = pans.get(bar.target) else { continue };
        let excess = match bar.orientation {
            ControlOrientation::Horizontal => excess(pan).x,
            ControlOrientation::Vertical => excess(pan).y,
        };
        let display = if excess > 0.0 { Display::Flex } else { Display::None };
        if node.display != display {
            node.display = display;
        }
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
