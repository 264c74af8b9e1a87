//! The loupe: a round, magnified, live picture of what the eyes are on.
//!
//! Each instrument draws itself in a file of its own, on a sheet of 280 units a side whose middle is
//! (140, 140). Nothing here writes a reading down: it is seen against its scale or not at all.

mod barometer;
mod calibrator;
mod filter;
mod gaze;
mod holder;
mod kept;
mod leg;
mod manometer;
mod papers;
mod pen;
mod place;
mod sky;
mod thermometer;
pub mod timer;
mod tube;

use resvg::tiny_skia::Pixmap;
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;
use sim_core::session::view::View;
use sim_core::session::view::run::RunStanding;

use super::canvas::{Canvas, Line, Point, Type};
use super::palette;
use super::text::Style;

pub use gaze::{Gaze, KeptChart};
pub use papers::page;

/// Side of the sheet, units.
pub const SHEET: f32 = 280.0;
/// Middle of the sheet.
const CENTRE: Point = (140.0, 140.0);
/// Radius of what is seen.
const RADIUS: f32 = 137.0;

/// What an instrument draws itself from.
#[derive(Debug, Clone, Copy)]
struct Subject<'a> {
    view: &'a View,
    papers: &'a SitePapers<'a>,
    gaze: Gaze,
    text_scale: f32,
}

impl Subject<'_> {
    /// A size of type at the person's text size, where the loupe has room for `most` times its own.
    fn size(&self, usual: f32, most: f32) -> f32 {
        usual * self.text_scale.min(most)
    }
}

/// The picture of what has the focus, `size_px` pixels a side, looked at straight.
///
/// `text_scale` is the person's text size: 1 is usual, 2 is twice as large.
pub fn paint(view: &View, papers: &SitePapers, size_px: u32, text_scale: f32) -> Pixmap {
    paint_from(Gaze::on(view), view, papers, size_px, text_scale)
}

/// The picture of what has the focus, with the loupe held where `gaze` says.
pub fn paint_from(
    gaze: Gaze,
    view: &View,
    papers: &SitePapers,
    size_px: u32,
    text_scale: f32,
) -> Pixmap {
    let size_px = size_px.clamp(16, 4096);
    let mut canvas = Canvas::new(size_px, size_px, size_px as f32 / SHEET);
    canvas.wash(palette::PAGE.color());
    let text_scale = if text_scale.is_finite() { text_scale.clamp(0.5, 2.0) } else { 1.0 };
    let subject = Subject { view, papers, gaze, text_scale };
    draw(&mut canvas, &subject);
    canvas.keep_circle(CENTRE, RADIUS);
    canvas.ring(CENTRE, RADIUS, palette::INK.color(), Line::HEAVY);
    canvas.finish()
}

fn draw(canvas: &mut Canvas, subject: &Subject) {
    let (view, run) = (subject.view, subject.view.run.as_deref());
    let focus = match (run, view.focus) {
        // Nobody is at the instruments: what they show is not seen.
        (Some(run), focus) if run.standing == RunStanding::Away && !is_paper(focus) => Sight::Watch,
        (_, focus) => focus,
    };
    match (focus, run) {
        (Sight::Timer, Some(run)) => return timer::draw(canvas, subject, &run.timer),
        (Sight::Filter, Some(run)) => return filter::draw(canvas, subject, run),
        (Sight::Recorder, Some(run)) => {
            if let (Some(held), Some(trace)) = (subject.gaze.kept(), &run.kept_chart) {
                return kept::draw(canvas, subject, trace, held);
            }
        }
        _ => {}
    }
    match focus {
        Sight::LeftLeg | Sight::RightLeg => leg::draw(canvas, subject),
        Sight::Manometer => manometer::draw(canvas, subject),
        Sight::Pen => pen::draw(canvas, subject),
        Sight::Barometer => barometer::draw(canvas, subject),
        Sight::Thermometer => thermometer::draw(canvas, subject),
        Sight::Calibrator => calibrator::draw(canvas, subject),
        Sight::Holder => holder::draw(canvas, subject),
        Sight::Tube => tube::draw(canvas, subject),
        Sight::WorkOrder | Sight::Certificate(_) | Sight::WeatherSheet => {
            papers::draw(canvas, subject);
        }
        Sight::Sky => sky::draw(canvas, subject),
        Sight::Station
        | Sight::RoofEdge
        | Sight::Filter
        | Sight::Recorder
        | Sight::Controller
        | Sight::Timer
        | Sight::Plugs
        | Sight::Blower
        | Sight::Watch => place::draw(canvas, subject, focus),
    }
}

/// Whether a sight is a paper, which is carried along.
const fn is_paper(sight: Sight) -> bool {
    matches!(sight, Sight::WorkOrder | Sight::Certificate(_))
}

/// How much of a string at `at` is shown, 0 to 1, so that the loupe's rim fades it and never cuts it.
fn fade(at: Point, half: Point) -> f32 {
    let corner = ((at.0 - CENTRE.0).abs() + half.0).hypot((at.1 - CENTRE.1).abs() + half.1);
    ((RADIUS - 3.0 - corner) / 6.0).clamp(0.0, 1.0)
}

/// Draws a string centred on a point, fading it where the rim would cut it.
fn label(canvas: &mut Canvas, at: Point, text: &str, set: Type) {
    let half = (0.5 * super::text::width(set.style, set.size, text), 0.36 * set.size);
    let shown = fade(at, half);
    if shown > 0.0 {
        let mut color = set.color;
        color.apply_opacity(shown);
        let baseline = (at.0, at.1 + half.1);
        let set = set.align(super::canvas::Align::Middle).color(color);
        canvas.text(baseline, text, set);
    }
}

/// A quiet caption at the foot of the loupe.
fn caption(canvas: &mut Canvas, subject: &Subject, text: &str) {
    let set = Type::new(Style::Italic, subject.size(11.0, 1.4), palette::INK_SOFT);
    label(canvas, (CENTRE.0, 248.0), text, set);
}
