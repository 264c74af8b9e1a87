//! Work order and certificates, typeset. A page longer than the loupe moves up as the eye goes down.

use resvg::tiny_skia::Pixmap;
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;

use super::field_of_view::{CENTRE, SHEET, Subject};
use super::paper_rows::rows;
use super::typeset::set;
use crate::canvas::{Canvas, LineWeight};
use crate::palette;

/// Width of the type within the loupe.
const MEASURE: f32 = 180.0;
/// The part of the loupe's height in which a line of full measure is not cut.
const FROM: f32 = 42.0;
const TO: f32 = 238.0;
/// Lowering the eye so far moves a long page to its end, mm.
const EYE_TRAVEL_MM: f64 = 150.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::PAGE.color());
    let weather = subject.view.run.as_deref().map_or(&[][..], |run| &run.weather[..]);
    let rows = rows(subject.view.focus, subject.papers, weather);
    let size = subject.size(11.2, 1.6);
    let height = set(None, &rows, size, MEASURE, (0.0, 0.0));
    let room = TO - FROM;
    let share = (-subject.view.eye_mm / EYE_TRAVEL_MM).clamp(0.0, 1.0) as f32;
    let top =
        if height <= room { FROM + 0.5 * (room - height) } else { FROM - share * (height - room) };
    edge(canvas);
    set(Some((canvas, in_loupe)), &rows, size, MEASURE, (CENTRE.0 - 0.5 * MEASURE, top));
    for (more, y, way) in [(top < FROM, 29.0, -1.0), (top + height > TO, 253.0, 1.0)] {
        if more {
            let (x, ink) = (CENTRE.0, palette::INK_SOFT.color());
            canvas.polygon(&[(x - 6.0, y), (x + 6.0, y), (x, y + way * 7.0)], ink, None);
        }
    }
}

fn in_loupe(top: f32, foot: f32) -> f32 {
    ((top - FROM + 8.0).min(TO + 8.0 - foot) / 8.0).clamp(0.0, 1.0)
}

/// A whole page, `width_px` pixels wide and as long as it takes, for reading outside the loupe.
pub fn page(sight: Sight, papers: &SitePapers, width_px: u32, text_scale: f32) -> Pixmap {
    let margin = 24.0;
    let measure = 320.0;
    let width = measure + 2.0 * margin;
    let size = 15.0 * text_scale.clamp(0.5, 2.0);
    let rows = rows(sight, papers, &[]);
    let height = set(None, &rows, size, measure, (0.0, 0.0)) + 2.0 * margin;
    let px = width_px.clamp(16, 4096) as f32 / width;
    let mut canvas = Canvas::new(width_px.clamp(16, 4096), (height * px).ceil() as u32, px);
    canvas.wash(palette::PAGE.color());
    canvas.rect(
        (1.0, 1.0),
        (width - 2.0, height - 2.0),
        palette::PAGE.color(),
        Some((palette::INK.color(), LineWeight::MEDIUM)),
    );
    set(Some((&mut canvas, |_, _| 1.0)), &rows, size, measure, (margin, margin));
    canvas.finish()
}

/// The sheet's margin line at the left, as on the field book.
fn edge(canvas: &mut Canvas) {
    let x = CENTRE.0 - 0.5 * MEASURE - 9.0;
    canvas.line((x, 0.0), (x, SHEET), palette::COPPER.faded(0.4), LineWeight::FINE);
}
