//! Everything of the station in one list: layers that change together, and each drawing with its depth.

use resvg::tiny_skia::Transform;
use sim_core::session::view::View;

use super::super::canvas::{Canvas, Point};
use super::super::scene::piece;

/// What changes together and is a picture of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// What changes only when somebody does something.
    Still,
    /// The blower's rotor.
    Rotor,
    /// Arrows of the air.
    Air,
    /// The calibrator's shutter, knob and cover.
    Calibrator,
    /// The chart with trace, pen and door.
    Recorder,
    /// The timer's dial.
    Timer,
    /// The barometer's pointer and index.
    Barometer,
    /// The thermometer with its column.
    Thermometer,
    /// The manometer's board.
    Manometer,
    /// The water in it.
    Water,
    /// What lies over the water: scale, valves, glass and plumb.
    ManometerFront,
    /// Cords and plugs.
    Cords,
    /// The tube.
    Tube,
}

impl Layer {
    /// The layers that move, from back to front.
    pub const MOVING: [Self; 12] = [
        Self::Rotor,
        Self::Air,
        Self::Calibrator,
        Self::Recorder,
        Self::Timer,
        Self::Barometer,
        Self::Thermometer,
        Self::Manometer,
        Self::Water,
        Self::ManometerFront,
        Self::Cords,
        Self::Tube,
    ];
}

/// A drawing with its place, depth and layer.
#[derive(Debug, Clone, Copy)]
pub struct PlacedDrawing {
    /// Its name: that of the drawing, or of what the program draws.
    pub(crate) name: &'static str,
    /// Which of several that are alike: the corner of a nut, the leg of a valve, from 0.
    pub(crate) which: usize,
    pub(super) z: f32,
    pub(super) layer: Layer,
    pub(crate) by: Transform,
    pub(crate) content: Content,
}

/// What is drawn there.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Content {
    /// One of the drawings.
    Drawing(&'static str),
    /// Something that the program draws from the view; the number is the phase of what runs, 0 to 1.
    Live(fn(&mut Canvas, &View, f32)),
}

/// The list while it is made.
pub(super) struct SceneList {
    pub(super) placed: Vec<PlacedDrawing>,
    /// Which of several alike is added now.
    pub(super) which: usize,
}

impl SceneList {
    /// A drawing where it was drawn.
    pub(super) fn piece(&mut self, layer: Layer, name: &'static str) {
        self.moved(layer, name, Transform::identity());
    }

    /// A drawing moved or turned.
    pub(super) fn moved(&mut self, layer: Layer, name: &'static str, by: Transform) {
        let z = piece(name).map_or(0.0, |piece| piece.z);
        self.moved_at(layer, name, by, z);
    }

    /// A drawing moved or turned, at another depth than its own.
    pub(super) fn moved_at(&mut self, layer: Layer, name: &'static str, by: Transform, z: f32) {
        let (which, content) = (self.which, Content::Drawing(name));
        self.placed.push(PlacedDrawing { name, which, z, layer, by, content });
    }

    /// Something that the program draws from the view.
    pub(super) fn live(
        &mut self,
        layer: Layer,
        (name, z): (&'static str, f32),
        by: Transform,
        ink: fn(&mut Canvas, &View, f32),
    ) {
        let (which, content) = (self.which, Content::Live(ink));
        self.placed.push(PlacedDrawing { name, which, z, layer, by, content });
    }
}

/// A turn about a point, degrees clockwise.
pub(super) fn about(point: Point, deg: f32) -> Transform {
    Transform::from_rotate_at(deg, point.0, point.1)
}

/// A shift that brings one point onto another.
pub(super) fn bring(from: Point, to: Point) -> Transform {
    Transform::from_translate(to.0 - from.0, to.1 - from.1)
}
