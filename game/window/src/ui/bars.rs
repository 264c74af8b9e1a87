//! Bars at the sides of pages that are larger than their room: they say that there is more, and how
//! much, and move the page.

use bevy::prelude::*;
use bevy::ui_widgets::{ControlOrientation, Scrollbar, ScrollbarThumb};

use crate::ui::order::Frame;
use crate::ui::tone::{Surface, Tone};

/// Width of a bar.
pub const BAR_PX: f32 = 8.0;
/// Least length of a bar's thumb.
const THUMB_PX: f32 = 24.0;

/// A bar at a side of a page.
#[derive(Component)]
struct Bar;

pub struct BarsPlugin;

impl Plugin for BarsPlugin {
    fn build(&self, app: &mut App) {
        app.add_systems(Update, show.in_set(Frame::Show));
    }
}

/// Puts a bar for a page at a side of what the page lies in.
pub fn spawn(around: &mut ChildSpawnerCommands, page: Entity, orientation: ControlOrientation) {
    let mut node = Node {
        position_type: PositionType::Absolute,
        display: Display::None,
        right: px(0),
        bottom: px(0),
        ..default()
    };
    match orientation {
        ControlOrientation::Horizontal => {
            (node.left, node.right, node.height) = (px(0), px(BAR_PX), px(BAR_PX));
        }
        ControlOrientation::Vertical => (node.top, node.width) = (px(0), px(BAR_PX)),
    }
    let bar = Scrollbar::new(page, orientation, THUMB_PX);
    around.spawn((Bar, bar, node, Surface(Tone::PaperShade))).with_child((
        ScrollbarThumb { border_radius: BorderRadius::all(px(3)), ..default() },
        Surface(Tone::InkSoft),
    ));
}

/// How far a page is larger than its room, logical pixels.
pub fn excess(page: &ComputedNode) -> Vec2 {
    let excess = (page.content_size() - page.size()) * page.inverse_scale_factor();
    // Half a pixel is a matter of rounding.
    Vec2::select(excess.cmpgt(Vec2::splat(0.5)), excess, Vec2::ZERO)
}

/// Shows the bars only where there is something to move.
fn show(mut bars: Query<(&Scrollbar, &mut Node), With<Bar>>, pages: Query<&ComputedNode>) {
    for (bar, mut node) in &mut bars {
        let Ok(page) = pages.get(bar.target) else { continue };
        let excess = match bar.orientation {
            ControlOrientation::Horizontal => excess(page).x,
            ControlOrientation::Vertical => excess(page).y,
        };
        let display = if excess > 0.0 { Display::Flex } else { Display::None };
        if node.display != display {
            node.display = display;
        }
    }
}
