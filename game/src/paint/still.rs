//! The station without its moving parts: one picture, for as long as nobody changes anything.

use resvg::tiny_skia::Pixmap;
use sim_core::session::view::View;

use super::canvas::Canvas;
use super::scene::{Area, scene};
use super::stage::{self, Group};

/// The scene with everything that stands still, `scale` pixels to a scene unit.
pub fn still(view: &View, scale: f32) -> Pixmap {
    let scene = scene();
    let whole = Area { x: 0.0, y: 0.0, w: scene.width, h: scene.height };
    region(view, whole, scale, |group| group == Group::Still, 0.0)
}

/// The scene with everything in it, as it stands at this moment.
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
    wanted: impl Fn(Group) -> bool,
    phase: f32,
) -> Pixmap {
    let (width, height) = ((area.w * scale).ceil() as u32, (area.h * scale).ceil() as u32);
    let mut canvas = Canvas::new(width, height, scale);
    let shift = resvg::tiny_skia::Transform::from_translate(-area.x, -area.y);
    canvas.within(shift, |canvas| stage::draw(canvas, view, phase, area, wanted));
    canvas.finish()
}

/// What the still picture depends on: while it stays the same, so does the picture.
pub fn key(view: &View) -> impl PartialEq + Clone + use<> {
    let power = view.power;
    let sky = (view.sky.sunny, view.sky.thunder_since_s.is_some());
    (view.mounting.clone(), power, sky, view.tube.on_tap)
}
