//! The digits on the electronic manometer.

use sim_core::session::view::View;

use super::super::canvas::Canvas;
use super::super::digits;
use super::super::scene::anchor;

/// What the display shows. Drawn in the manometer's own frame.
pub fn display(canvas: &mut Canvas, view: &View, _: f32) {
    let Some(display) = view.manometer.display else { return };
    let (left, top) = anchor("electronic_manometer", "display_top_left");
    let (right, foot) = anchor("electronic_manometer", "display_bottom_right");
    let height = 17.0;
    let at = (0.5 * (left + right - digits::width(height)), foot - 6.0 - height);
    digits::draw(canvas, at, height, display.shows);
    if display.battery_low {
        digits::low_battery(canvas, (left + 4.0, top + 3.0), 12.0);
    }
}
