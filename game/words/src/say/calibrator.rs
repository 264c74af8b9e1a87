//! The calibrator and the tube.

use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::RigPart;
use sim_core::session::view::{OrificeEdge, View};

use super::mounting::lies;
use super::scale::twentieth;
use crate::printable::printable;
use crate::prose::sentences;

/// The calibrator: serial number, knob or plate, openings, edge.
pub(super) fn calibrator(view: &View) -> String {
    let seen = &view.calibrator;
    let mut said =
        vec![format!("the calibrator {}", lies(view.mounting.place(RigPart::Calibrator)))];
    if let Some(serial) = &seen.serial {
        said.push(format!("the serial number on its plate is {}", printable(serial)));
    }
    match seen.plates {
        Some(plates) => said.push(plate(plates.inserted)),
        None => said.push(knob(seen.knob)),
    }
    if seen.blocked {
        said.push("its openings are covered".to_owned());
    }
    if let Some(edge) = seen.edge {
        let looks = match edge {
            OrificeEdge::Sharp => "clean and sharp",
            OrificeEdge::Nicked => "nicked",
            OrificeEdge::Dirty => "dirty",
        };
        said.push(format!("the edge of its orifice is {looks}"));
    }
    sentences(&said)
}

/// How far the knob is open.
pub(super) fn knob(opening: f64) -> String {
    format!("the knob is {}", twentieth(opening))
}

/// Which plate is in the calibrator.
pub(super) fn plate(inserted: Option<Plate>) -> String {
    match inserted {
        Some(plate) => format!("the plate with {} holes is in it", plate.holes()),
        None => "no plate is in it".to_owned(),
    }
}

/// The tube.
pub(super) fn tube(view: &View) -> String {
    let seen = &view.tube;
    let mut said = vec![on_tap(seen.on_tap).to_owned()];
    if seen.kinked {
        said.push("it is kinked".to_owned());
    }
    if seen.drops {
        said.push("there are drops of water in it".to_owned());
    }
    if seen.ice {
        said.push("the water in it is frozen and blocks it".to_owned());
    }
    if seen.loose == Some(true) {
        said.push("it is only half on the pressure tap".to_owned());
    }
    match seen.crack {
        Some(true) => said.push("it has a crack".to_owned()),
        Some(false) => said.push("no crack is visible".to_owned()),
        None => {}
    }
    sentences(&said)
}

/// Where its free end is.
pub(super) const fn on_tap(on_tap: bool) -> &'static str {
    if on_tap {
        "the tube is on the calibrator's pressure tap"
    } else {
        "the tube is not connected"
    }
}
