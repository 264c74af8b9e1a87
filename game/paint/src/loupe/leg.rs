//! A leg of the manometer: glass, water with its curved edge, and the scale beside it.
//!
//! The picture is exact: a height of h inches lies at y = 140 - (h - centre) * 180 units, for marks,
//! rim and lowest edge alike.

use resvg::tiny_skia::{Path, PathBuilder};
use sim_core::rig::parts::Leg;
use sim_core::session::action::Sight;

use super::beside::{self, Legible, Runs};
use super::field_of_view::{CENTRE, SHEET, Subject, label};
use super::filling;
use crate::canvas::{Canvas, Lettering, LineWeight, ellipse_path, rect_path};
use crate::palette;
use crate::text::FontStyle;

/// Magnification: units to an inch.
const PER_IN: f64 = 180.0;
/// Half the bore: 6.5 mm at this magnification.
const BORE: f32 = 23.0;
/// Half the glass.
const GLASS: f32 = 33.0;
/// Distance of the tube's axis from the middle of the sheet.
const AXIS: f32 = 44.0;
/// Distance of the scale's numbers from the middle of the sheet.
const NUMBERS: f32 = 57.0;
/// The scale reaches so far both ways, inches.
const SCALE_ENDS_IN: f64 = 8.0;
/// Distance from the eye to the column, mm.
const EYE_DISTANCE_MM: f64 = 350.0;
/// Steepness of the water at the glass: square of the sine of its angle there (20 degrees from the
/// wall).
const WALL_SINE_SQUARED: f32 = 0.883;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let leg = if subject.view.focus == Sight::RightLeg { Leg::Right } else { Leg::Left };
    // The scale hangs between the legs: right of the left one, left of the right one.
    let side = if leg == Leg::Left { 1.0 } else { -1.0 };
    let sheet =
        LegUnderLoupe { side, tube_x: CENTRE.0 - side * AXIS, centre_in: subject.gaze.centre() };
    canvas.wash(palette::WOOD.color());
    grain(canvas);
    let legible = scale(canvas, subject, &sheet);
    let seen = subject.view.manometer.leg(leg);
    let off = (subject.view.eye_mm / EYE_DISTANCE_MM) as f32;
    let (low, rim) = (sheet.y(seen.meniscus_in), sheet.y(seen.rim_in));
    tube(canvas, &sheet, low, rim, off);
    filling::draw(canvas, subject.view, sheet.tube_x, BORE, (low, rim));
    let ends = SCALE_ENDS_IN as i32;
    let missing = legible.missing(seen.meniscus_in, 1, (-ends, ends));
    beside::show(canvas, subject, Runs { up: (0.0, -1.0), off: side * NUMBERS }, missing);
}

/// How this leg lies on the sheet.
struct LegUnderLoupe {
    /// 1 with the scale on the right, -1 with it on the left.
    side: f32,
    tube_x: f32,
    centre_in: f64,
}

impl LegUnderLoupe {
    fn y(&self, height_in: f64) -> f32 {
        let y = f64::from(CENTRE.1) - (height_in - self.centre_in) * PER_IN;
        y.clamp(-2000.0, 2000.0) as f32
    }

    /// A distance from the tube's axis towards the scale.
    fn x(&self, from_axis: f32) -> f32 {
        self.tube_x + self.side * from_axis
    }
}

/// The board behind the glass.
fn grain(canvas: &mut Canvas) {
    for (index, x) in [12.0_f32, 31.0, 52.0, 231.0, 247.0, 263.0].into_iter().enumerate() {
        let lean = if index % 2 == 0 { 3.0 } else { -2.0 };
        let color = palette::WOOD_SHADE.color();
        canvas.polyline(&[(x, 0.0), (x + lean, 120.0), (x, SHEET)], color, LineWeight::FINE);
    }
}

/// The scale: tenths, halves and inches by the length of their marks; numbers at the inches.
fn scale(canvas: &mut Canvas, subject: &Subject, sheet: &LegUnderLoupe) -> Legible {
    let mut legible = Legible::default();
    let (near, far) = (sheet.x(GLASS + 4.0), sheet.x(SHEET));
    let (left, width) = (near.min(far), (far - near).abs());
    let (top, foot) = (sheet.y(SCALE_ENDS_IN + 0.15), sheet.y(-SCALE_ENDS_IN - 0.15));
    let (top, foot) = (top.max(-20.0), foot.min(SHEET + 20.0));
    let outline = Some((palette::INK.color(), LineWeight::THIN));
    canvas.rect((left, top), (width, foot - top), palette::CHART_PAPER.color(), outline);
    let first = ((sheet.centre_in - 0.8) * 10.0).floor() as i64;
    for tenth in first..first + 18 {
        let height_in = tenth as f64 / 10.0;
        if height_in.abs() > SCALE_ENDS_IN {
            continue;
        }
        let (length, line) = match tenth.rem_euclid(10) {
            0 => (44.0, LineWeight(2.0)),
            5 => (30.0, LineWeight(1.5)),
            _ => (18.0, LineWeight(1.2)),
        };
        let y = sheet.y(height_in);
        let (from, to) = (sheet.x(GLASS + 6.0), sheet.x(GLASS + 6.0 + length));
        // The zero is copper, as on the whole scale.
        let hue = if tenth == 0 { palette::COPPER } else { palette::INK };
        canvas.mark((from, y), (to, y), hue.color(), line);
        if tenth.rem_euclid(10) == 0 {
            let size = subject.size(25.0, 1.35);
            let set = Lettering::new(FontStyle::SemiBold, size, hue);
            let number = (tenth / 10).unsigned_abs().to_string();
            let shown = label(canvas, (sheet.x(AXIS + NUMBERS), y), &number, set);
            legible.note((tenth / 10) as i32, shown);
        }
    }
    legible
}

/// Glass and water. `low` and `rim` are where the lowest edge and the rim of the meniscus are seen;
/// `off` is the slope of the look, positive from above.
fn tube(canvas: &mut Canvas, sheet: &LegUnderLoupe, low: f32, rim: f32, off: f32) {
    let x = sheet.tube_x;
    let (top, foot) = (-10.0, SHEET + 10.0);
    canvas.rect((x - GLASS, top), (2.0 * GLASS, foot - top), palette::GLASS.color(), None);
    canvas.rect((x - BORE, top), (2.0 * BORE, foot - top), palette::PAGE.color(), None);
    if let Some(film) = rect_path((x - BORE, rim), (2.0 * BORE, (low - rim).max(0.01))) {
        canvas.fill(&film, palette::GLASS.towards(palette::WATER, 0.22).color());
    }
    ring(canvas, x, rim, off);
    if let Some(body) = body(x, low, rim, foot) {
        canvas.fill(&body, palette::WATER.color());
    }
    if let Some(edge) = edge(x, low, rim) {
        canvas.stroke_square(&edge, palette::WATER_DEEP.color(), LineWeight(2.0));
    }
    shine(canvas, x, low);
    for wall in [-GLASS, -BORE, BORE, GLASS] {
        let line = if wall.abs() > BORE { LineWeight::MEDIUM } else { LineWeight::THIN };
        canvas.line((x + wall, top), (x + wall, foot), palette::INK.color(), line);
    }
}

/// The rim of the meniscus round the glass. Level with the eye it is one line; from above its near
/// half sinks below its far half, from below it rises: the sign that the eye is off.
fn ring(canvas: &mut Canvas, x: f32, rim: f32, off: f32) {
    let half_open = BORE * off;
    if half_open.abs() < 0.3 {
        canvas.line((x - BORE, rim), (x + BORE, rim), palette::WATER.color(), LineWeight::FINE);
        return;
    }
    if let Some(opening) = ellipse_path((x, rim), (BORE, half_open)) {
        let inside =
            if off > 0.0 { palette::PAGE } else { palette::WATER.towards(palette::GLASS, 0.45) };
        canvas.fill(&opening, inside.color());
    }
    let half = |sign: f32| -> Vec<(f32, f32)> {
        (0..=24)
            .map(|step| {
                let across = step as f32 / 12.0 - 1.0;
                (
                    x + BORE * across,
                    rim + sign * half_open * (1.0 - across * across).max(0.0).sqrt(),
                )
            })
            .collect()
    };
    // Seen from above the near half is the lower one.
    canvas.polyline(&half(-1.0), palette::WATER.color(), LineWeight::FINE);
    canvas.polyline(&half(1.0), palette::WATER_DEEP.color(), LineWeight(1.6));
}

/// Height of the water's surface above its lowest edge, as a share of the whole, at a distance from
/// the axis of `across` bores: a conic that meets the glass at the angle of water.
fn sag(across: f32) -> f32 {
    let conic = |square: f32| 1.0 - (1.0 - WALL_SINE_SQUARED * square).max(0.0).sqrt();
    conic(across * across) / conic(1.0)
}

fn surface(x: f32, low: f32, rim: f32) -> impl Iterator<Item = (f32, f32)> {
    (-20..=20_i16).map(move |step| {
        let across = f32::from(step) / 20.0;
        (x + BORE * across, low + (rim - low) * sag(across))
    })
}

fn edge(x: f32, low: f32, rim: f32) -> Option<Path> {
    let points: Vec<_> = surface(x, low, rim).collect();
    crate::canvas::polyline_path(&points)
}

fn body(x: f32, low: f32, rim: f32, foot: f32) -> Option<Path> {
    let mut builder = PathBuilder::new();
    builder.move_to(x - BORE, foot.max(low));
    for point in surface(x, low, rim) {
        builder.line_to(point.0, point.1);
    }
    builder.line_to(x + BORE, foot.max(low));
    builder.close();
    builder.finish()
}

/// Light on the glass, and its deeper tone along the wall away from the light.
fn shine(canvas: &mut Canvas, x: f32, low: f32) {
    let deep = palette::WATER_DEEP.faded(0.35);
    canvas.rect((x + BORE - 5.0, low), (5.0, (SHEET - low).max(0.01)), deep, None);
    let light = palette::FILTER.faded(0.75);
    canvas.rect((x - GLASS + 3.0, -10.0), (3.0, SHEET + 20.0), light, None);
    let light = palette::FILTER.faded(0.35);
    canvas.rect((x - BORE + 5.0, -10.0), (5.0, SHEET + 20.0), light, None);
    canvas.rect(
        (x + BORE + 3.0, -10.0),
        (3.0, SHEET + 20.0),
        palette::STEEL_SHADE.faded(0.8),
        None,
    );
}
