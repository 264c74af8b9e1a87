//! The barometer's dial round its pointer: a line for each mmHg, numbers each ten.

use resvg::tiny_skia::Transform;
use sim_core::session::action::BarometerReference;

use super::beside::{self, Legible, Runs};
use super::field_of_view::{CENTRE, Subject, fade};
use super::sticker;
use crate::canvas::{Canvas, Lettering, LineWeight, Point, TextAlign, arc_path, on_circle};
use crate::palette;
use crate::text::{self, FontStyle};

/// Turn of the pointer for one mmHg under the loupe, degrees. The dial is seen so near that its
/// circle is almost straight.
const DEG_PER_MMHG: f64 = 1.153_846;
/// Radius of the marks' outer ends under the loupe.
const DIAL: f32 = 620.0;
/// Where the marks' outer ends cross the middle of the loupe.
const TOP: f32 = 92.0;
/// How far outside the marks the numbers stand.
const NUMBERS: f32 = 16.0;
/// The dial's first and last mark, mmHg.
const ENDS_MMHG: (i32, i32) = (540, 800);

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let centre = subject.gaze.centre();
    canvas.wash(palette::CHART_PAPER.color());
    let pivot = (CENTRE.0, TOP + DIAL);
    if let Some(rim) = arc_path(pivot, DIAL + 52.0, -110.0, -70.0) {
        canvas.stroke(&rim, palette::BRASS.color(), LineWeight(34.0));
        canvas.stroke(&rim, palette::INK.color(), LineWeight::THIN);
    }
    if let Some(rim) = arc_path(pivot, DIAL + 35.0, -110.0, -70.0) {
        canvas.stroke(&rim, palette::INK.color(), LineWeight::MEDIUM);
    }
    let legible = marks(canvas, subject, pivot, centre);
    window(canvas, subject);
    sticker::draw(canvas, subject, (86.0, 216.0), subject.view.barometer.certified);
    let shown = subject.view.barometer.pointer_mmhg;
    pointer(canvas, pivot, angle(shown, centre));
    let runs = Runs { up: (1.0, 0.0), off: TOP - NUMBERS - CENTRE.1 };
    beside::show(canvas, subject, runs, legible.missing(shown, 10, ENDS_MMHG));
}

/// Angle on the sheet of a pressure, the loupe resting on `centre`.
fn angle(mmhg: f64, centre: f64) -> f32 {
    ((mmhg - centre) * DEG_PER_MMHG - 90.0) as f32
}

fn marks(canvas: &mut Canvas, subject: &Subject, pivot: Point, centre: f64) -> Legible {
    let mut legible = Legible::default();
    let ink = palette::INK.color();
    for mmhg in (centre - 14.0).floor() as i32..=(centre + 14.0).ceil() as i32 {
        if !(ENDS_MMHG.0..=ENDS_MMHG.1).contains(&mmhg) {
            continue;
        }
        let deg = angle(f64::from(mmhg), centre);
        let (length, line) = match mmhg % 10 {
            0 => (38.0, LineWeight(2.2)),
            5 => (27.0, LineWeight(1.6)),
            _ => (17.0, LineWeight(1.2)),
        };
        let (outer, inner) = (on_circle(pivot, DIAL, deg), on_circle(pivot, DIAL - length, deg));
        canvas.mark(outer, inner, ink, line);
        if mmhg % 10 == 0 {
            let at = on_circle(pivot, DIAL + NUMBERS, deg);
            legible.note(mmhg, number(canvas, subject, at, deg + 90.0, mmhg));
        }
    }
    if let Some(line) = arc_path(pivot, DIAL, -112.0, -68.0) {
        canvas.stroke(&line, ink, LineWeight::THIN);
    }
    legible
}

/// A number of the dial; how much of it is shown, 0 to 1.
fn number(canvas: &mut Canvas, subject: &Subject, at: Point, turned: f32, mmhg: i32) -> f32 {
    let size = subject.size(22.0, 1.15);
    let name = mmhg.to_string();
    let half = 0.5 * text::width(FontStyle::SemiBold, size, &name);
    let shown = fade(canvas, at, (half, 0.4 * size));
    let set = Lettering::new(FontStyle::SemiBold, size, palette::INK)
        .align(TextAlign::Middle)
        .color(palette::INK.faded(shown));
    let place = Transform::from_translate(at.0, at.1).pre_rotate(turned);
    canvas.within(place, |canvas| canvas.text((0.0, 0.36 * size), &name, set));
    shown
}

/// The needle: its edge is fine, its tip just short of the marks' outer ends.
fn pointer(canvas: &mut Canvas, pivot: Point, deg: f32) {
    let place = Transform::from_translate(pivot.0, pivot.1).pre_rotate(deg + 90.0);
    canvas.within(place, |canvas| {
        let blade = [(0.0, 4.0 - DIAL), (1.2, 22.0 - DIAL), (4.6, 160.0 - DIAL), (9.0, 0.0)];
        let mut outline: Vec<Point> = blade.to_vec();
        outline.extend(blade.iter().rev().map(|&(x, y)| (-x, y)));
        canvas.polygon(&outline, palette::COPPER.color(), None);
        canvas.line((0.0, 60.0 - DIAL), (0.0, 0.0), palette::COPPER_WASH.color(), LineWeight::FINE);
    });
}

/// The plate that says what the dial shows, with its index at one of the two words, and the unit.
fn window(canvas: &mut Canvas, subject: &Subject) {
    let size = subject.size(13.0, 1.25);
    let quiet = Lettering::new(FontStyle::Regular, size, palette::INK).align(TextAlign::Middle);
    canvas.text((84.0, 190.0), "mmHg", quiet);
    let set_to = subject.view.barometer.set_to;
    let rows = [
        (BarometerReference::Station, "station", 190.0),
        (BarometerReference::SeaLevel, "sea level", 190.0 + 1.5 * size),
    ];
    for (reference, words, y) in rows {
        let chosen = set_to == Some(reference);
        let style = if chosen { FontStyle::SemiBold } else { FontStyle::Regular };
        let hue = if chosen { palette::INK } else { palette::INK_SOFT };
        canvas.text((180.0, y), words, Lettering::new(style, size, hue));
        if chosen {
            let y = y - 0.35 * size;
            let tip = [(175.0, y), (166.0, y - 5.0), (166.0, y + 5.0)];
            canvas.polygon(
                &tip,
                palette::COPPER.color(),
                Some((palette::INK.color(), LineWeight::FINE)),
            );
        }
    }
}
