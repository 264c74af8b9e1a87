//! Parts of drawings that a hand takes hold of by themselves, from the named points of the drawings.

use resvg::tiny_skia::{Path, PathBuilder};

use super::super::canvas::{circle_path, rect_path};
use super::super::scene::{anchor, number, piece};

/// A part of a drawing.
pub(super) struct Part {
    /// Its name.
    pub name: &'static str,
    /// The drawing of which it is a part.
    pub of: &'static str,
    /// Its outline, where the drawing was drawn.
    pub outline: fn() -> Option<Path>,
    /// Whether only what has ink inside the outline belongs to it.
    pub inked: bool,
}

const fn part(name: &'static str, of: &'static str, outline: fn() -> Option<Path>) -> Part {
    Part { name, of, outline, inked: false }
}

/// Every part. It lies on its drawing and under what is nearer.
pub(super) const PARTS: &[Part] = &[
    part("sky", "backdrop", sky),
    part("roof", "backdrop", roof),
    part("openings", "calibrator", openings),
    part("openings", "calibrator_plates", openings),
    part("zero screw", "recorder", zero_screw),
    part("left leg", "manometer_glass", || leg("zero_left", 0.0)),
    part("right leg", "manometer_glass", || leg("zero_right", 1.0)),
    part("display", "electronic_manometer", display),
    Part {
        name: "case behind the door",
        of: "recorder_door_closed",
        outline: case_behind_the_door,
        inked: true,
    },
];

/// Above the highest of the hills.
const SKYLINE: f32 = 470.0;
/// The deck of the roof begins at the foot of the parapet.
const DECK: f32 = 655.0;

fn sky() -> Option<Path> {
    let whole = piece("backdrop")?;
    rect_path((whole.x, whole.y), (whole.w, SKYLINE - whole.y))
}

fn roof() -> Option<Path> {
    let whole = piece("backdrop")?;
    rect_path((whole.x, DECK), (whole.w, whole.y + whole.h - DECK))
}

/// The row of holes and the ledge in which they are cut.
fn openings() -> Option<Path> {
    let (first, last) = (anchor("calibrator", "opening_1"), anchor("calibrator", "opening_4"));
    let wide = number("calibrator", "opening_width");
    let (left, right) = (first.0 - 2.0 * wide, last.0 + 4.0 * wide);
    rect_path((left, first.1 - 6.0), (right - left, 20.0))
}

fn zero_screw() -> Option<Path> {
    circle_path(anchor("recorder", "zero_screw"), 11.0)
}

fn display() -> Option<Path> {
    let (left, top) = anchor("electronic_manometer", "display_top_left");
    let (right, foot) = anchor("electronic_manometer", "display_bottom_right");
    rect_path((left, top), (right - left, foot - top))
}

/// A limb of the glass with its half of the bend.
fn leg(zero: &str, side: f32) -> Option<Path> {
    let (x, _) = anchor("manometer", zero);
    let half = number("manometer", "glass_radius");
    let top = anchor("manometer", "column_top_left").1 - 4.0;
    let (bend, radius) = (number("manometer", "bend_y"), number("manometer", "bend_radius"));
    let middle = anchor("manometer", "bend_centre").0;
    let out = if side > 0.5 { 1.0 } else { -1.0 };
    let mut path = PathBuilder::new();
    path.move_to(x + out * half, top);
    path.line_to(x + out * half, bend);
    // The outer quarter of the bend to its lowest point, and the inner one back.
    for step in 0..=12_u8 {
        let turned = (f32::from(step) * 7.5).to_radians();
        let reach = radius + half;
        path.line_to(middle + out * reach * turned.cos(), bend + reach * turned.sin());
    }
    for step in (0..=12_u8).rev() {
        let turned = (f32::from(step) * 7.5).to_radians();
        let reach = radius - half;
        path.line_to(middle + out * reach * turned.cos(), bend + reach * turned.sin());
    }
    path.line_to(x - out * half, top);
    path.close();
    path.finish()
}

/// The case shows as the upper edge of its closed door.
fn case_behind_the_door() -> Option<Path> {
    let door = piece("recorder_door_closed")?;
    rect_path((door.x, door.y), (door.w, 22.0))
}
