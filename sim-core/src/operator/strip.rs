//! Phase B, first half: the power is cut, the lid opened, hold-down frame and filter taken off.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::running::stands_still;
use super::{Checking, Observation, repairs};
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::{Action, Sight};

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum StripPhase {
    /// The sampler may still have power.
    #[default]
    Alive,
    /// The power is off; the rotor may still turn.
    Coasting,
    /// The hands are in the shelter.
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
            Self::Coasting if stands_still(observed) => {
                repairs::around_the_shelter(observed, memory);
                memory.thinks(
                    "The power is off and the rotor is no longer heard: the hands can go in.",
                );
                *self = Self::Open;
            }
            Self::Coasting => memory.waits(5.0),
            Self::Open => return open(observed, memory),
        }
        PhaseProgress::More
    }
}

/// Takes the parts off the holder, looking each time at what is left.
fn open(observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
    let mounting = &observed.view.mounting;
    if !mounting.lid_open {
        memory.does(Action::OpenLid);
        memory.glances(Sight::Holder);
    } else if repairs::inlet(observed, memory) {
        // Once it is cleared, the work goes on.
    } else if mounting.place(RigPart::Frame) == PartPlace::Holder {
        take_nuts_off(observed, memory);
        memory.moves(RigPart::Frame, PartPlace::Ground);
    } else if mounting.place(RigPart::Filter) == PartPlace::Holder && !stays(observed, memory) {
        memory.thinks(
            "The calibrator is flanged on without a filter: the filter goes into its case.",
        );
        memory.moves(RigPart::Filter, PartPlace::Case);
    } else {
        return PhaseProgress::Finished;
    }
    PhaseProgress::More
}

/// Whether the filter stays under the calibrator: it does if only the flow is checked.
fn stays(observed: &Observation<'_>, memory: &Memory) -> bool {
    observed.papers.work_order.is_check_alone() && memory.habits.checking == Checking::AsItRuns
}

/// Takes off every nut that is on.
pub(super) fn take_nuts_off(observed: &Observation<'_>, memory: &mut Memory) {
    if observed.view.mounting.nuts.iter().any(|nut| nut.quarter_turns > 0) {
        memory.turns_nuts(-12);
    }
}
