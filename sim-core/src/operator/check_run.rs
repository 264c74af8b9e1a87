//! After everything stands as it was found: the sampler runs on its controller for a moment, and
//! what it holds is held against its trim screw, by the own line.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::tapping::Tapping;
use super::{Legs, Observation, Practice, arithmetic};
use crate::rig::parts::TimerSwitch;
use crate::session::action::{Action, FaultPlace, Response, Sight};

/// Time in which the controller has brought the flow to where it holds it, s.
const RUN_S: f64 = 40.0;
/// Time that must be left for it, s.
const LEFT_S: f64 = 150.0;
/// Flow with the trim screw at its lower stop, and what a turn adds, m3/min at standard conditions
/// (the bench's own design).
const LOWEST_STD_M3_MIN: f64 = 0.8;
const TURN_STD_M3_MIN: f64 = 0.05;
/// How far the flow may be from what the screw is set to, as a part of it: screw, own line and a
/// blower that is not yet warm each take their share.
const OFF: f64 = 0.07;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum CheckRunPhase {
    /// The sampler is off.
    #[default]
    Off,
    /// It runs, the pen in focus.
    Running(Tapping),
    /// It is off again.
    Over,
}

impl OperatorPhase for CheckRunPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        match self {
            // Where a run is ordered, the controller is held against its screw as it is trimmed.
            Self::Off if observed.view.run.is_some() || !sure_of_the_line(observed, memory) => {
                return PhaseProgress::Finished;
            }
            Self::Off => {
                memory.glances(Sight::Controller);
                memory.does(Action::OpenDoor);
                memory.does(Action::UncapPen);
                memory.does(Action::SwitchTimer { to: TimerSwitch::On });
                memory.waits(RUN_S);
                memory.looks(Sight::Pen);
                *self = Self::Running(Tapping::default());
            }
            Self::Running(tapping) => {
                if tapping.rests(observed, memory) {
                    compare(observed, memory);
                    memory.does(Action::SwitchTimer { to: TimerSwitch::Auto });
                    memory.does(Action::CapPen);
                    memory.does(Action::CloseDoor);
                    *self = Self::Over;
                }
            }
            Self::Over => return PhaseProgress::Finished,
        }
        PhaseProgress::More
    }
}

/// Whether there is an own line to go by, made as it should be, and time for the run.
fn sure_of_the_line(observed: &Observation<'_>, memory: &Memory) -> bool {
    let habits = &memory.habits;
    let kept = [habits.settling, habits.tapping, habits.warm_up, habits.zeroing, habits.comparing];
    memory.refusal.is_none()
        && memory.line.is_some()
        && kept.iter().all(|practice| *practice == Practice::Kept)
        && habits.legs == Legs::Both
        && habits.eye_mm.abs() < 1.0
        && observed.view.seconds_left.is_none_or(|left| left > LEFT_S)
}

/// The same while the controller is trimmed for a run, the tapped pen at rest.
pub(super) fn while_trimming(observed: &Observation<'_>, memory: &mut Memory) {
    if sure_of_the_line(observed, memory) {
        compare(observed, memory);
    }
}

/// What of a line and a controller is to be suspected where line and standard tell different flows:
/// the recorder, where the standard's flow is nearer to what the trim screw is set to.
pub(super) fn further_from_its_screw(
    standard: f64,
    line: f64,
    observed: &Observation<'_>,
) -> FaultPlace {
    let set = LOWEST_STD_M3_MIN + TURN_STD_M3_MIN * observed.view.power.trim_turns;
    if (standard - set).abs() <= (line - set).abs() {
        FaultPlace::Recorder
    } else {
        FaultPlace::FlowController
    }
}

/// Holds the flow against what the trim screw is set to.
fn compare(observed: &Observation<'_>, memory: &mut Memory) {
    let (Some(line), Some(air), Some(pen)) =
        (memory.line, memory.air(), observed.view.recorder.pen)
    else {
        return;
    };
    let set = LOWEST_STD_M3_MIN + TURN_STD_M3_MIN * observed.view.power.trim_turns;
    let held = (arithmetic::term(memory.expression, pen, air) - line.intercept) / line.slope;
    if (held / set - 1.0).abs() > OFF {
        memory.reports(
            FaultPlace::FlowController,
            Response::Noted,
            "on the controller another flow is held than its trim screw is set to",
        );
    }
}
