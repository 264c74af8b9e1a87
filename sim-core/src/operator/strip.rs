//! Phase B, first half: the sampler dead, the lid open, frame and filter off.

use super::mind::{Mind, Phase, Progress, stands_still};
use super::{Checking, Scene};
use crate::rig::parts::{Part, Place};
use crate::session::action::{Action, Sight};

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Strip {
    /// The sampler may be alive.
    #[default]
    Alive,
    /// It is dead; the rotor may still turn.
    Coasting,
    /// Hands are in the shelter.
    Open,
}

impl Phase for Strip {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() {
            return Progress::Finished;
        }
        match self {
            Self::Alive => {
                mind.glances(Sight::Plugs);
                mind.stops_blower(scene);
                *self = Self::Coasting;
            }
            Self::Coasting if stands_still(scene) => *self = Self::Open,
            Self::Coasting => mind.waits(5.0),
            Self::Open => return open(scene, mind),
        }
        Progress::More
    }
}

/// Takes off what lies on the holder, seeing each time what is left.
fn open(scene: &Scene<'_>, mind: &mut Mind) -> Progress {
    let mounting = &scene.view.mounting;
    if !mounting.lid_open {
        mind.does(Action::OpenLid);
        mind.glances(Sight::Holder);
    } else if mounting.place(Part::Frame) == Place::Holder {
        take_nuts_off(scene, mind);
        mind.moves(Part::Frame, Place::Ground);
    } else if mounting.place(Part::Filter) == Place::Holder && !stays(scene, mind) {
        mind.moves(Part::Filter, Place::Case);
    } else {
        return Progress::Finished;
    }
    Progress::More
}

/// Whether the filter stays under the calibrator: where only the flow is checked.
fn stays(scene: &Scene<'_>, mind: &Mind) -> bool {
    scene.papers.work_order.is_check_alone() && mind.habits.checking == Checking::AsItRuns
}

/// Turns every nut off that is on.
pub(super) fn take_nuts_off(scene: &Scene<'_>, mind: &mut Mind) {
    if scene.view.mounting.nuts.iter().any(|nut| nut.quarter_turns > 0) {
        mind.turns_nuts(-12);
    }
}
