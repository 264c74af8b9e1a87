//! After everything has been restored, the sampler runs on its controller for a moment, and the
//! flow that it holds, by the operator's line, is compared with the setting of the trim screw.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::tapping::Tapping;
use super::{Legs, Observation, Practice, arithmetic};
use crate::rig::parts::TimerSwitch;
use crate::session::action::{Action, FaultKind, FaultPlace, Response, Sight};

/// Time after which the controller holds the flow steady, s.
const RUN_S: f64 = 40.0;
/// Time that must be left for it, s.
const LEFT_S: f64 = 150.0;
/// Flow with the trim screw at its lower stop, and how much each turn adds, m3/min at standard
/// conditions (the bench's own design).
const LOWEST_STD_M3_MIN: f64 = 0.8;
const TURN_STD_M3_MIN: f64 = 0.05;
/// By what part the flow by the line usually differs from the setting of the screw: behind the
/// controller the exhaust is cooler than it was at the points (the bench's own design, the mean of
/// sound benches).
const USUAL: f64 = -0.017;
/// By how much more it may differ. The bias of the certificate, the line, the screw and a blower that is
/// not yet warm all contribute, together about a percent (standard deviation).
const OFF: f64 = 0.04;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum CheckRunPhase {
    /// The sampler is off.
    #[default]
    Off,
    /// The sampler runs; the pen is in focus.
    Running(Tapping),
    /// The sampler is off again.
    Over,
}

impl OperatorPhase for CheckRunPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        match self {
            // If a run is ordered, the controller is compared with its screw while it is trimmed.
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

/// Whether the operator has a line that was made properly, and enough time for the run.
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

/// The same comparison while the controller is trimmed for a run, with the tapped pen at rest.
pub(super) fn while_trimming(observed: &Observation<'_>, memory: &mut Memory) {
    if sure_of_the_line(observed, memory) {
        compare(observed, memory);
    }
}

/// What to suspect if the line and the standard give different flows: the recorder if the flow by
/// the standard is nearer to the setting of the trim screw.
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

/// Compares the flow with the setting of the trim screw.
fn compare(observed: &Observation<'_>, memory: &mut Memory) {
    let (Some(line), Some(air), Some(pen)) =
        (memory.line, memory.air(), observed.view.recorder.pen)
    else {
        return;
    };
    let set = LOWEST_STD_M3_MIN + TURN_STD_M3_MIN * observed.view.power.trim_turns;
    let held = (arithmetic::term(memory.expression, pen, air) - line.intercept) / line.slope;
    let off = held / set - 1.0;
    memory.thinks(format!(
        "The screw is set to {set:.3} m3/min; by the line {held:.3} m3/min flow, {:+.1} % ({:+.1} % is usual, and at \
         most {:.0} % more or less).",
        100.0 * off,
        100.0 * USUAL,
        100.0 * OFF
    ));
    // On low mains it cannot hold its flow, which is no fault of its own.
    if (off - USUAL).abs() > OFF && !memory.has_reported(FaultKind::LowVoltage) {
        memory.reports(
            FaultKind::ControllerDrifts,
            Response::Noted,
            "on the controller another flow is held than its trim screw is set to",
        );
    }
}
