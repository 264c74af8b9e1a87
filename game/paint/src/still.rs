//! The station without its moving parts: one picture, for as long as nobody changes anything.

use std::sync::{Arc, Mutex, PoisonError};

use resvg::tiny_skia::{Pixmap, Transform};
use sim_core::session::view::View;

use super::canvas::Canvas;
use super::layers::{self, Layer};
use super::scene::{Area, scene};

/// The scene without its moving parts, `scale` pixels to a scene unit.
pub fn still(view: &View, scale: f32) -> Pixmap {
    let scene = scene();
    let whole = Area { x: 0.0, y: 0.0, w: scene.width, h: scene.height };
    region(view, whole, scale, |layer| layer == Layer::Still, 0.0)
}

/// The scene with everything in it, at this moment.
pub fn whole(view: &View, scale: f32, phase: f32) -> Pixmap {
    let scene = scene();
    let whole = Area { x: 0.0, y: 0.0, w: scene.width, h: scene.height };
    region(view, whole, scale, |_| true, phase)
}

/// Part of the scene.
pub fn region(
    view: &View,
    area: Area,
    scale: f32,
    wanted: impl Fn(Layer) -> bool,
    phase: f32,
) -> Pixmap {
    let (width, height) = ((area.w * scale).ceil() as u32, (area.h * scale).ceil() as u32);
    let mut canvas = Canvas::new(width, height, scale);
    let shift = Transform::from_translate(-area.x, -area.y);
    canvas.within(shift, |canvas| layers::draw(canvas, view, phase, area, wanted));
    canvas.finish()
}

/// Part of the scene with everything in it, its still part kept from one call to the next.
pub fn seen(view: &View, area: Area, scale: f32, phase: f32) -> Pixmap {
    static KEPT: Mutex<Vec<(String, Arc<Pixmap>)>> = Mutex::new(Vec::new());
    let key = format!("{:?} {area:?} {scale}", shown_by(view));
    let kept = || KEPT.lock().unwrap_or_else(PoisonError::into_inner);
    let found = kept().iter().find(|(of, _)| *of == key).map(|(_, picture)| Arc::clone(picture));
    let back = found.unwrap_or_else(|| {
        let picture = Arc::new(region(view, area, scale, |layer| layer == Layer::Still, 0.0));
        let mut kept = kept();
        kept.truncate(MOST_KEPT - 1);
        kept.insert(0, (key, Arc::clone(&picture)));
        picture
    });
    let mut canvas = Canvas::new(back.width(), back.height(), scale);
    *canvas.pixmap_mut() = back.as_ref().clone();
    let shift = Transform::from_translate(-area.x, -area.y);
    canvas.within(shift, |canvas| {
        layers::draw(canvas, view, phase, area, |layer| layer != Layer::Still);
    });
    canvas.finish()
}

/// So many pictures are kept.
const MOST_KEPT: usize = 8;

/// Everything that the still picture shows.
fn shown_by(view: &View) -> impl std::fmt::Debug + PartialEq + Clone + use<> {
    let sky = (view.sky.sunny, view.sky.thunder_since_s.is_some());
    let run = view.run.as_ref().map(|run| {
        let papers = (run.weather.is_empty(), run.kept_chart.is_some());
        (papers, run.fresh_filters > 0, run.added_filters)
    });
    let line = (view.recorder.line_off, view.recorder.line_kinked, view.recorder.line_drops);
    (view.mounting.clone(), view.power, sky, run, line)
}

/// What the still picture depends on: while it stays the same, so does the picture.
pub fn key(view: &View) -> String {
    format!("{:?}", shown_by(view))
}
