//! The plate of a calibrator with fixed plates, cut through.

use sim_core::session::view::View;

use super::super::canvas::{Canvas, LineWeight};
use super::super::palette;

/// The plate's left and right edge and its upper face in the calibrator, scene units.
const LEFT: f32 = 413.0;
const RIGHT: f32 = 480.0;
const TOP: f32 = 236.0;
/// Its thickness, and the width of a hole.
const THICK: f32 = 4.4;
const HOLE: f32 = 6.0;

/// The cut through the plate: the more holes it has, the more of them the cut meets.
pub fn plate(canvas: &mut Canvas, view: &View, _: f32) {
    let Some(plate) = view.calibrator.plates.and_then(|plates| plates.inserted) else { return };
    let met = match plate.holes() {
        0..=5 => 1_u8,
        6..=8 => 2,
        9..=11 => 3,
        12..=15 => 4,
        _ => 5,
    };
    let outline = Some((palette::INK.color(), LineWeight::THIN));
    let metal = (RIGHT - LEFT - HOLE * f32::from(met)) / f32::from(met + 1);
    for piece in 0..=met {
        let x = LEFT + f32::from(piece) * (metal + HOLE);
        canvas.rect((x, TOP), (metal, THICK), palette::COPPER_WASH.color(), outline);
    }
}
