//! The field of view of the loupe: its sheet, what an instrument draws itself from, and lettering that
//! the rim fades and never cuts.

use sim_core::session::SitePapers;
use sim_core::session::view::View;

use super::super::canvas::{Canvas, Lettering, Point, TextAlign};
use super::super::palette;
use super::super::text::{self, FontStyle};
use super::gaze::Gaze;

/// Side of the sheet, units.
pub const SHEET: f32 = 280.0;
/// Middle of the sheet.
pub(super) const CENTRE: Point = (140.0, 140.0);
/// Radius of what is seen.
pub(super) const RADIUS: f32 = 137.0;

/// What an instrument draws itself from.
#[derive(Debug, Clone, Copy)]
pub(super) struct Subject<'a> {
    pub(super) view: &'a View,
    pub(super) papers: &'a SitePapers<'a>,
    pub(super) gaze: Gaze,
    pub(super) text_scale: f32,
    /// How many times as large everything is as the loupe usually shows it.
    pub(super) zoom: f32,
}

impl Subject<'_> {
    /// A size of type at the person's text size, where the loupe has room for `most` times its own.
    pub(super) fn size(&self, usual: f32, most: f32) -> f32 {
        // Nearer by, letters need not grow as much as what they stand beside.
        usual * self.text_scale.min(most) / self.zoom.sqrt()
    }
}

/// Radius of what is seen on a canvas, sheet units: nearer by, less of the sheet is seen.
pub(super) fn reach(canvas: &Canvas) -> f32 {
    RADIUS / zoom(canvas)
}

/// How many times as large the sheet is drawn as it usually is.
fn zoom(canvas: &Canvas) -> f32 {
    canvas.px_per_unit() * SHEET / canvas.width_px() as f32
}

/// How much of a string at `at` is shown, 0 to 1, so that the loupe's rim fades it and never cuts it.
pub(super) fn fade(canvas: &Canvas, at: Point, half: Point) -> f32 {
    let corner = ((at.0 - CENTRE.0).abs() + half.0).hypot((at.1 - CENTRE.1).abs() + half.1);
    let zoom = zoom(canvas);
    ((RADIUS - 3.0 - corner * zoom) / 6.0).clamp(0.0, 1.0)
}

/// Draws a string centred on a point, fading it where the rim would cut it. Says how much of it is
/// shown, 0 to 1.
pub(super) fn label(canvas: &mut Canvas, at: Point, words: &str, set: Lettering) -> f32 {
    let half = (0.5 * text::width(set.style, set.size, words), 0.36 * set.size);
    let shown = fade(canvas, at, half);
    if shown > 0.0 {
        let mut color = set.color;
        color.apply_opacity(shown);
        let baseline = (at.0, at.1 + half.1);
        let set = set.align(TextAlign::Middle).color(color);
        canvas.text(baseline, words, set);
    }
    shown
}

/// A quiet caption at the foot of the loupe.
pub(super) fn caption(canvas: &mut Canvas, subject: &Subject, words: &str) {
    let set = Lettering::new(FontStyle::Italic, subject.size(11.0, 1.4), palette::INK_SOFT);
    label(canvas, (CENTRE.0, 248.0), words, set);
}
