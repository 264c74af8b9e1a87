//! The numbers on either side of what is read: where the rim hides the next one, it stands at the rim
//! with a wedge that points to it, so that nobody has to guess which way a scale counts.

use super::field_of_view::{CENTRE, Subject, reach};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, TextAlign};
use crate::palette;
use crate::text::{self, FontStyle};

/// A number of the scale with more opacity than this is legible.
const LEGIBLE: f32 = 0.8;
/// Farthest that a number at the rim stands across the scale, as a share of what is seen.
const FARTHEST: f32 = 0.55;

/// The numbers of a scale that can be read.
#[derive(Debug, Clone, Default)]
pub(super) struct Legible(Vec<i32>);

impl Legible {
    /// Notes how much of a number is shown.
    pub(super) fn note(&mut self, number: i32, shown: f32) {
        if shown >= LEGIBLE {
            self.0.push(number);
        }
    }

    /// The numbers that are missing on either side of a reading: the last one at or below it and the
    /// first one above it, a number each `step` from `ends.0` to `ends.1`.
    pub(super) fn missing(&self, reading: f64, step: i32, ends: (i32, i32)) -> [Option<i32>; 2] {
        let below = (reading / f64::from(step)).floor() as i32 * step;
        let is_there = |number: &i32| (ends.0..=ends.1).contains(number);
        let seen_below = self.0.iter().any(|number| f64::from(*number) <= reading);
        let seen_above = self.0.iter().any(|number| f64::from(*number) > reading);
        [
            Some(below).filter(|number| !seen_below && is_there(number)),
            Some(below + step).filter(|number| !seen_above && is_there(number)),
        ]
    }
}

/// Which way a scale runs under the loupe, as steps on the sheet.
#[derive(Debug, Clone, Copy)]
pub(super) struct Runs {
    /// A step towards larger numbers, one unit long.
    pub(super) up: Point,
    /// How far from the middle its numbers stand, to the right of that step as one looks along it.
    pub(super) off: f32,
}

/// Shows the numbers that the rim hides.
pub(super) fn show(canvas: &mut Canvas, subject: &Subject, runs: Runs, missing: [Option<i32>; 2]) {
    for (number, sign) in missing.into_iter().zip([-1.0, 1.0]) {
        if let Some(number) = number {
            at_rim(canvas, subject, (runs, sign), &number.unsigned_abs().to_string());
        }
    }
}

fn at_rim(canvas: &mut Canvas, subject: &Subject, (runs, sign): (Runs, f32), words: &str) {
    let size = subject.size(17.0, 1.3);
    let edge = 4.0 / subject.zoom;
    let half =
        (0.5 * text::width(FontStyle::SemiBold, size, words) + edge, 0.5 * size + 0.5 * edge);
    let seen = reach(canvas) - half.0.hypot(half.1) - 2.0 * edge;
    let off = runs.off.clamp(-FARTHEST * seen, FARTHEST * seen);
    let along = sign * (seen * seen - off * off).max(0.0).sqrt();
    // To the right of a step up on a sheet whose y runs down.
    let across = (-runs.up.1, runs.up.0);
    let at = (
        CENTRE.0 + along * runs.up.0 + off * across.0,
        CENTRE.1 + along * runs.up.1 + off * across.1,
    );
    let ink = palette::INK.color();
    let outline = Some((ink, LineWeight(1.0 / subject.zoom)));
    let corner = (at.0 - half.0, at.1 - half.1);
    canvas.rect(corner, (2.0 * half.0, 2.0 * half.1), palette::PAGE.color(), outline);
    let set = Lettering::new(FontStyle::SemiBold, size, palette::INK).align(TextAlign::Middle);
    canvas.text((at.0, at.1 + 0.36 * size), words, set);
    // From the edge of its patch outwards, along the scale.
    let step = (sign * runs.up.0, sign * runs.up.1);
    let out = (half.0 * step.0.abs()).max(half.1 * step.1.abs()) + 0.3 * edge;
    let point = |on: f32, beside: f32| {
        (
            at.0 + step.0 * (out + on) + across.0 * beside,
            at.1 + step.1 * (out + on) + across.1 * beside,
        )
    };
    let wedge = [point(0.0, -edge), point(1.8 * edge, 0.0), point(0.0, edge)];
    canvas.polygon(&wedge, palette::COPPER.color(), None);
}

#[cfg(test)]
mod tests {
    use super::Legible;

    #[test]
    fn a_number_is_missing_where_none_is_legible_on_that_side() {
        let mut legible = Legible::default();
        legible.note(3, 1.0);
        legible.note(2, 0.4);
        assert_eq!(legible.missing(3.02, 1, (-8, 8)), [None, Some(4)]);
        assert_eq!(legible.missing(2.98, 1, (-8, 8)), [Some(2), None]);
        legible.note(2, 0.9);
        assert_eq!(legible.missing(2.98, 1, (-8, 8)), [None, None]);
    }

    #[test]
    fn beyond_the_ends_of_a_scale_there_is_no_number() {
        let legible = Legible::default();
        assert_eq!(legible.missing(7.9, 1, (-8, 7)), [Some(7), None]);
        assert_eq!(legible.missing(-0.5, 5, (0, 50)), [None, Some(0)]);
    }
}
