//! The picture under the loupe: whichever instrument has the focus draws itself.

use resvg::tiny_skia::Pixmap;
use sim_core::session::SitePapers;
use sim_core::session::action::Sight;
use sim_core::session::view::View;
use sim_core::session::view::run::RunStanding;

use super::super::canvas::{Canvas, LineWeight};
use super::super::palette;
use super::field_of_view::{CENTRE, RADIUS, SHEET, Subject};
use super::gaze::Gaze;
use super::{
    barometer, calibrator, display, filter, holder, kept_chart, leg, manometer, papers, pen,
    scene_crop, sky, thermometer, timer, tube,
};

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
    canvas.ring(CENTRE, RADIUS, palette::INK.color(), LineWeight::HEAVY);
    canvas.finish()
}

fn draw(canvas: &mut Canvas, subject: &Subject) {
    let (view, run) = (subject.view, subject.view.run.as_deref());
    let focus = match (run, view.focus) {
        // Nobody is at the instruments: what they show is not visible.
        (Some(run), focus) if run.standing == RunStanding::Away && !is_paper(focus) => Sight::Watch,
        (_, focus) => focus,
    };
    match (focus, run) {
        (Sight::Timer, Some(run)) => return timer::draw(canvas, subject, &run.timer),
        (Sight::Filter, Some(run)) => return filter::draw(canvas, subject, run),
        (Sight::Recorder, Some(run)) => {
            if let (Some(held), Some(trace)) = (subject.gaze.kept(), &run.kept_chart) {
                return kept_chart::draw(canvas, subject, trace, held);
            }
        }
        _ => {}
    }
    match focus {
        Sight::LeftLeg | Sight::RightLeg => leg::draw(canvas, subject),
        Sight::Manometer => manometer::draw(canvas, subject),
        Sight::Display => display::draw(canvas, subject),
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
        | Sight::Watch => scene_crop::draw(canvas, subject, focus),
    }
}

/// Whether a sight is a paper, which is carried along.
const fn is_paper(sight: Sight) -> bool {
    matches!(sight, Sight::WorkOrder | Sight::Certificate(_))
}
