//! The list of everything on the stage: groups that change together, and each thing with its depth.

use resvg::tiny_skia::Transform;
use sim_core::session::view::View;

use super::super::canvas::{Canvas, Point};
use super::super::scene::piece;

/// What changes together, and so is one picture of its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Group {
    /// What only changes when somebody does something.
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

impl Group {
    /// The groups that move, from back to front.
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

/// One thing on the stage.
#[derive(Debug, Clone, Copy)]
pub struct Act {
    pub(super) z: f32,
    pub(super) group: Group,
    pub(super) by: Transform,
    pub(super) what: What,
}

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub(super) enum What {
    /// One of the drawings.
    Drawing(&'static str),
    /// Something inked from the view; the number is the phase of what runs, 0 to 1.
    Inked(fn(&mut Canvas, &View, f32)),
}

/// The list while it is written.
pub(super) struct Stage {
    pub(super) acts: Vec<Act>,
}

impl Stage {
    /// A drawing where it was drawn.
    pub(super) fn piece(&mut self, group: Group, name: &'static str) {
        self.moved(group, name, Transform::identity());
    }

    /// A drawing moved or turned.
    pub(super) fn moved(&mut self, group: Group, name: &'static str, by: Transform) {
        let z = piece(name).map_or(0.0, |piece| piece.z);
        self.acts.push(Act { z, group, by, what: What::Drawing(name) });
    }

    /// A drawing moved or turned, at another depth than its own.
    pub(super) fn moved_at(&mut self, group: Group, name: &'static str, by: Transform, z: f32) {
        self.acts.push(Act { z, group, by, what: What::Drawing(name) });
    }

    /// Something inked from the view.
    pub(super) fn inked(
        &mut self,
        group: Group,
        z: f32,
        by: Transform,
        ink: fn(&mut Canvas, &View, f32),
    ) {
        self.acts.push(Act { z, group, by, what: What::Inked(ink) });
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
