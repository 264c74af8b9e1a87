//! The moving parts of the station, each a picture of its own with its place in the scene.

use resvg::tiny_skia::Pixmap;
use sim_core::session::view::View;

use super::layers::{self, Layer};
use super::live_parts;
use super::scene::{Area, anchor, number, piece, scene};
use super::still;

/// A picture with the scene point of its upper left corner.
#[derive(Debug, Clone)]
pub struct LayerPicture {
    /// What it shows.
    pub layer: Layer,
    /// The picture.
    pub picture: Pixmap,
    /// Left edge, scene units.
    pub x: f32,
    /// Top edge, scene units.
    pub y: f32,
}

/// One moving layer, `scale` pixels to a scene unit. `phase`, 0 to 1, is that of what runs: one turn
/// of it moves the air by one arrow.
pub fn paint(layer: Layer, view: &View, scale: f32, phase: f32) -> LayerPicture {
    let area = in_whole_pixels(area(layer, view), scale);
    let picture = still::region(view, area, scale, |drawn| drawn == layer, phase);
    LayerPicture { layer, picture, x: area.x, y: area.y }
}

/// Every moving layer, from back to front.
pub fn all(view: &View, scale: f32, phase: f32) -> Vec<LayerPicture> {
    Layer::MOVING.into_iter().map(|layer| paint(layer, view, scale, phase)).collect()
}

/// The water in the manometer.
pub fn manometer_water(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Water, view, scale, 0.0)
}

/// The recorder's chart with trace, pen and door.
pub fn recorder_face(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Recorder, view, scale, 0.0)
}

/// The calibrator's shutter, knob and cover.
pub fn calibrator_holes(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Calibrator, view, scale, 0.0)
}

/// The barometer's pointer, index and glass.
pub fn barometer_pointer(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Barometer, view, scale, 0.0)
}

/// The thermometer with its column.
pub fn thermometer_column(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Thermometer, view, scale, 0.0)
}

/// The tube.
pub fn tube_curve(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Tube, view, scale, 0.0)
}

/// Cords and plugs.
pub fn cords(view: &View, scale: f32) -> LayerPicture {
    paint(Layer::Cords, view, scale, 0.0)
}

/// Arrows of the air.
pub fn air_flow(view: &View, scale: f32, phase: f32) -> LayerPicture {
    paint(Layer::Air, view, scale, phase)
}

/// The least area about another whose edges lie between pixels: what is painted apart then fits
/// together to the pixel.
fn in_whole_pixels(area: Area, scale: f32) -> Area {
    let (left, top) = ((area.x * scale).floor(), (area.y * scale).floor());
    let (right, foot) = ((area.x + area.w) * scale, (area.y + area.h) * scale);
    // A little less, so that no rounding adds an empty pixel.
    let side = |from: f32, to: f32| ((to.ceil() - from).max(1.0) - 1e-3) / scale;
    Area { x: left / scale, y: top / scale, w: side(left, right), h: side(top, foot) }
}

/// The part of the scene that a layer can touch.
fn area(layer: Layer, view: &View) -> Area {
    let scene = scene();
    match layer {
        Layer::Still => Area { x: 0.0, y: 0.0, w: scene.width, h: scene.height },
        Layer::Rotor => around("blower_rotor_a", 2.0),
        Layer::Air => Area { x: 250.0, y: 90.0, w: 340.0, h: 640.0 },
        Layer::Calibrator => Area { x: 150.0, y: 130.0, w: 380.0, h: 660.0 },
        Layer::Recorder => Area { x: 500.0, y: 316.0, w: 320.0, h: 310.0 },
        Layer::Timer => around("timer_dial", 12.0),
        Layer::Barometer => around("barometer", 2.0),
        Layer::Thermometer => Area { x: 78.0, y: 308.0, w: 140.0, h: 190.0 },
        Layer::Manometer | Layer::ManometerFront => {
            layers::bounds(view, layer).map_or(NOTHING, |area| widened(area, 2.0))
        }
        Layer::Water => water(view),
        Layer::Cords => Area { x: 500.0, y: 540.0, w: 640.0, h: 250.0 },
        Layer::Tube => Area { x: 180.0, y: 40.0, w: 860.0, h: 760.0 },
    }
}

/// An area without anything in it.
const NOTHING: Area = Area { x: 0.0, y: 0.0, w: 1.0, h: 1.0 };

/// Both bores and the bend, at any level of the water; or the display.
fn water(view: &View) -> Area {
    if view.manometer.display.is_some() {
        let (left, top) = anchor("electronic_manometer", "display_top_left");
        let (right, foot) = anchor("electronic_manometer", "display_bottom_right");
        let area = Area { x: left, y: top, w: right - left, h: foot - top };
        return layers::boxed(live_parts::manometer_at(view), area);
    }
    let (left, right) = (anchor("manometer", "zero_left"), anchor("manometer", "zero_right"));
    let wide = number("manometer", "bore_radius") + 2.0;
    let top = anchor("manometer", "column_top_left").1 - 2.0;
    let foot = number("manometer", "bend_y") + number("manometer", "bend_radius") + wide;
    let (x, w) = (left.0 - wide, right.0 - left.0 + 2.0 * wide);
    layers::boxed(live_parts::manometer_at(view), Area { x, y: top, w, h: foot - top })
}

fn around(name: &str, margin: f32) -> Area {
    piece(name).map_or(NOTHING, |piece| widened(piece.area(), margin))
}

fn widened(area: Area, by: f32) -> Area {
    Area { x: area.x - by, y: area.y - by, w: area.w + 2.0 * by, h: area.h + 2.0 * by }
}
