//! Phase B, first half: the sampler dead, the lid open, frame and filter off.

use super::memory::{Memory, OperatorPhase, PhaseProgress, stands_still};
use super::{Checking, Observation};
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::{Action, Sight};

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum StripPhase {
    /// The sampler may be alive.
    #[default]
    Alive,
    /// It is dead; the rotor may still turn.
    Coasting,
    /// Hands are in the shelter.
    Open,
}

impl OperatorPhase for StripPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        match self {
            Self::Alive => {
                memory.glances(Sight::Plugs);
                memory.stops_blower(observed);
                *self = Self::Coasting;
            }
            Self::Coasting if stands_still(observed) => *self = Self::Open,
            Self::Coasting => memory.waits(5.0),
            Self::Open => return open(observed, memory),
        }
        PhaseProgress::More
    }
}

/// Takes off what lies on the holder, seeing each time what is left.
fn open(observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
    let mounting = &observed.view.mounting;
    if !mounting.lid_open {
        memory.does(Action::OpenLid);
        memory.glances(Sight::Holder);
    } else if mounting.place(RigPart::Frame) == PartPlace::Holder {
        take_nuts_off(observed, memory);
        memory.moves(RigPart::Frame, PartPlace::Ground);
    } else if mounting.place(RigPart::Filter) == PartPlace::Holder && !stays(observed, memory) {
        memory.moves(RigPart::Filter, PartPlace::Case);
    } else {
        return PhaseProgress::Finished;
    }
    PhaseProgress::More
}

/// Whether the filter stays under the calibrator: where only the flow is checked.
fn stays(observed: &Observation<'_>, memory: &Memory) -> bool {
    observed.papers.work_order.is_check_alone() && memory.habits.checking == Checking::AsItRuns
}

/// Turns every nut off that is on.
pub(super) fn take_nuts_off(observed: &Observation<'_>, memory: &mut Memory) {
    if observed.view.mounting.nuts.iter().any(|nut| nut.quarter_turns > 0) {
        memory.turns_nuts(-12);
    }
}
