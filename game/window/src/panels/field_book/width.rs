//! How wide the book is, and how much has room on its pages.

use crate::ui::room::{Columns, Room};
use crate::ui::text_size::BODY_PX;

/// Room at the sides of a page, logical pixels.
pub const PADDING_PX: f32 = 12.0;
/// Room about the bench on both sides together, and the book's own lines, logical pixels.
const EDGES_PX: f32 = 16.0 + 4.0;

/// The share of the window's width that the book takes beside the scene. Larger text takes more of it.
pub fn share(scale: f32) -> f32 {
    0.32 + 0.04 * scale
}

/// Width of what is written on a page, in heights of running text.
pub fn page_width(room: Room) -> f32 {
    let window = room.window.x - EDGES_PX;
    let book = match room.columns() {
        Columns::Two => window * share(room.scale),
        Columns::One => window,
    };
    (book - 2.0 * PADDING_PX) / (BODY_PX * room.scale)
}
