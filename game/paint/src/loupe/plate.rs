//! The plate of a calibrator with fixed plates, from above: its holes can be counted, and their number
//! is stamped on its rim.

use sim_core::rig::flow::plates::Plate;

use super::field_of_view::{Subject, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, on_circle};
use crate::palette;
use crate::text::FontStyle;

/// The plate's middle, and the radius of its seat, of the plate and of a hole.
const MIDDLE: Point = (98.0, 110.0);
const SEAT: f32 = 69.0;
const RIM: f32 = 63.0;
const HOLE: f32 = 7.0;

/// The plate in its seat, or the empty seat.
pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, inserted: Option<Plate>) {
    let ink = palette::INK.color();
    canvas.disc(MIDDLE, SEAT, palette::STEEL_DARK.color(), Some((ink, LineWeight::MEDIUM)));
    let Some(plate) = inserted else {
        canvas.ring(MIDDLE, RIM - 8.0, ink, LineWeight::THIN);
        return;
    };
    canvas.disc(MIDDLE, RIM, palette::CHART_PAPER.color(), Some((ink, LineWeight::MEDIUM)));
    for hole in holes(plate.holes()) {
        canvas.disc(hole, HOLE, palette::RUBBER.color(), Some((ink, LineWeight::THIN)));
    }
    let set = Lettering::new(FontStyle::SemiBold, subject.size(11.0, 1.2), palette::INK);
    label(canvas, (MIDDLE.0, MIDDLE.1 + RIM - 7.0), &plate.holes().to_string(), set);
}

/// Where the holes are: on two rings about the middle, and one in it where that leaves an even ring.
fn holes(count: u8) -> Vec<Point> {
    let (middle, inner) = match count {
        0..=6 => (0, 0),
        7..=8 => (1, 0),
        9..=12 => (0, 3),
        13..=16 => (1, 4),
        _ => (0, 7),
    };
    let outer = count.saturating_sub(middle + inner);
    let ring = |count: u8, radius: f32| {
        (0..count).map(move |hole| {
            on_circle(MIDDLE, radius, -90.0 + 360.0 * f32::from(hole) / f32::from(count.max(1)))
        })
    };
    let at_middle = std::iter::repeat_n(MIDDLE, usize::from(middle));
    at_middle.chain(ring(inner, 19.0)).chain(ring(outer, 40.0)).collect()
}

#[cfg(test)]
mod tests {
    use super::{HOLE, holes};
    use sim_core::rig::flow::plates::Plate;

    #[test]
    fn a_plate_has_its_holes_and_none_lies_on_another() {
        for plate in Plate::ALL {
            let holes = holes(plate.holes());
            assert_eq!(holes.len(), usize::from(plate.holes()));
            for (at, one) in holes.iter().enumerate() {
                for other in holes.iter().skip(at + 1) {
                    let apart = (one.0 - other.0).hypot(one.1 - other.1);
                    assert!(apart > 2.0 * HOLE + 1.0, "{} holes: {apart}", plate.holes());
                }
            }
        }
    }
}
