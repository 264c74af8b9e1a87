//! The thermometer: red column in its stem, a line for each degree and a short one for each half.

use sim_core::session::action::Exposure;

use super::beside::{self, Legible, Runs};
use super::field_of_view::{CENTRE, SHEET, Subject, label};
use super::sticker;
use crate::canvas::{Canvas, Lettering, LineWeight, round_rect_path};
use crate::palette;
use crate::text::FontStyle;

/// Magnification: units to a degree.
const PER_C: f64 = 22.0;
/// Half the bore.
const BORE: f32 = 6.0;
/// Half the stem.
const STEM: f32 = 19.0;
/// The stem's axis.
const AXIS: f32 = 112.0;
/// Where the numbers stand.
const NUMBERS: f32 = AXIS + 92.0;
/// First and last mark, degrees Celsius.
const ENDS_C: (i32, i32) = (-30, 50);

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let centre = subject.gaze.centre();
    let y = |celsius: f64| (f64::from(CENTRE.1) - (celsius - centre) * PER_C) as f32;
    ground(canvas, subject.view.thermometer.exposure);
    let mut legible = Legible::default();
    for half in ((centre - 7.0) * 2.0).floor() as i32..=((centre + 7.0) * 2.0).ceil() as i32 {
        if half < 2 * ENDS_C.0 || half > 2 * ENDS_C.1 {
            continue;
        }
        let at = y(f64::from(half) / 2.0);
        let (length, line) = match half.rem_euclid(20) {
            0 => (44.0, LineWeight(2.2)),
            10 => (36.0, LineWeight(1.8)),
            even if even % 2 == 0 => (26.0, LineWeight(1.4)),
            _ => (13.0, LineWeight(1.0)),
        };
        canvas.mark((AXIS + 24.0, at), (AXIS + 24.0 + length, at), palette::INK.color(), line);
        if half % 10 == 0 {
            let set = Lettering::new(FontStyle::SemiBold, subject.size(22.0, 1.3), palette::INK);
            let shown = label(canvas, (NUMBERS, at), &number(half / 2), set);
            legible.note(half / 2, shown);
        }
    }
    let column_c = subject.view.thermometer.column_c;
    stem(canvas, y(column_c));
    let set = Lettering::new(FontStyle::Regular, subject.size(14.0, 1.3), palette::INK);
    label(canvas, (AXIS - 38.0, CENTRE.1), "°C", set);
    sticker::draw(canvas, subject, (AXIS - 57.0, 192.0), subject.view.thermometer.certified);
    let runs = Runs { up: (0.0, -1.0), off: NUMBERS - CENTRE.0 };
    beside::show(canvas, subject, runs, legible.missing(column_c, 5, ENDS_C));
}

/// A number with a true minus sign.
fn number(celsius: i32) -> String {
    if celsius < 0 { format!("−{}", celsius.unsigned_abs()) } else { celsius.to_string() }
}

fn ground(canvas: &mut Canvas, exposure: Exposure) {
    let (ground, edge) = match exposure {
        Exposure::Shade => (palette::WOOD, palette::WOOD_SHADE),
        Exposure::Sun => (palette::SKY, palette::STEEL_SHADE),
    };
    canvas.wash(ground.color());
    for slat in 0..8_u8 {
        let y = 36.0 * f32::from(slat);
        canvas.line((0.0, y), (SHEET, y + 3.0), edge.color(), LineWeight::THIN);
    }
    if let Some(plate) = round_rect_path((54.0, -20.0), (186.0, SHEET + 40.0), 10.0) {
        canvas.fill(&plate, palette::CHART_PAPER.color());
        canvas.stroke(&plate, palette::INK.color(), LineWeight::MEDIUM);
    }
}

fn stem(canvas: &mut Canvas, top: f32) {
    let (ink, from, to) = (palette::INK.color(), -10.0, SHEET + 10.0);
    canvas.rect((AXIS - STEM, from), (2.0 * STEM, to - from), palette::GLASS.color(), None);
    canvas.rect((AXIS - BORE, from), (2.0 * BORE, to - from), palette::PAGE.color(), None);
    column(canvas, top);
    for wall in [-STEM, STEM] {
        canvas.line((AXIS + wall, from), (AXIS + wall, to), ink, LineWeight::MEDIUM);
    }
    for wall in [-BORE, BORE] {
        canvas.line(
            (AXIS + wall, from),
            (AXIS + wall, to),
            palette::INK_SOFT.color(),
            LineWeight::FINE,
        );
    }
    let light = palette::FILTER.faded(0.85);
    canvas.rect((AXIS - STEM + 3.5, from), (4.0, to - from), light, None);
    let shade = palette::STEEL_SHADE.faded(0.7);
    canvas.rect((AXIS + STEM - 6.0, from), (4.0, to - from), shade, None);
}

/// The column: a flat top within a pixel's blur, so that its end is exactly where it is read.
fn column(canvas: &mut Canvas, top: f32) {
    let foot = SHEET + 10.0;
    if top < foot {
        let top = top.max(-20.0);
        canvas.rect((AXIS - BORE, top), (2.0 * BORE, foot - top), palette::COPPER.color(), None);
        let light = palette::COPPER_WASH.faded(0.6);
        canvas.rect(
            (AXIS - BORE + 2.0, top + 2.0),
            (2.0, (foot - top - 2.0).max(0.01)),
            light,
            None,
        );
    }
}
