//! The picture under the loupe: whichever instrument has the focus draws itself.

use resvg::tiny_skia::{Pixmap, Transform};
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
    paint_through(Lens { size_px, text_scale, zoom: 1.0 }, gaze, view, papers)
}

/// What the loupe is like.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lens {
    /// Pixels a side.
    pub size_px: u32,
    /// The person's text size: 1 is usual, 2 is twice as large.
    pub text_scale: f32,
    /// How many times as large everything is as in the usual glass, 1 to 4.
    pub zoom: f32,
}

/// The picture of what has the focus through a lens, held where `gaze` says.
pub fn paint_through(lens: Lens, gaze: Gaze, view: &View, papers: &SitePapers) -> Pixmap {
    let within = |value: f32, least, most| {
        if value.is_finite() { value.clamp(least, most) } else { 1.0 }
    };
    let (text_scale, zoom) = (within(lens.text_scale, 0.5, 2.0), within(lens.zoom, 1.0, 4.0));
    let size_px = lens.size_px.clamp(16, 4096);
    let mut canvas = Canvas::new(size_px, size_px, size_px as f32 / SHEET);
    canvas.wash(palette::PAGE.color());
    let subject = Subject { view, papers, gaze, text_scale, zoom };
    let nearer = Transform::from_translate(CENTRE.0, CENTRE.1)
        .pre_scale(zoom, zoom)
        .pre_translate(-CENTRE.0, -CENTRE.1);
    canvas.within(nearer, |canvas| draw(canvas, &subject));
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
