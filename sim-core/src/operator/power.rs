//! Phase D, first half: chart and pen; the blower is taken off its controller and run on mains.
//! Also the end of the points: power off.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::running::stands_still;
use super::tapping::Tapping;
use super::{Observation, Practice, Supply, TermsUsed, arithmetic, repairs, suspect};
use crate::session::action::{Action, FaultKind, Response, Sight};
use crate::time::Tick;

/// A pen's zero within this is good enough, divisions.
const ZEROED: f64 = 0.3;
/// How often the pen's zero is set at most.
const MOST_SET: u8 = 3;
/// A pen below this rests on its stop, divisions.
const ON_STOP: f64 = 0.05;
/// A pen above this has lifted off its stop, divisions.
const LIFTED: f64 = 0.2;
/// For how long the operator waits for the rotor to stop, s.
const LONGEST_RUN_DOWN_S: f64 = 120.0;
/// By how many divisions a pen is raised at most.
const MOST_RAISED: u8 = 8;

/// How far the phase has come.
#[derive(Debug, Default)]
pub(super) enum PowerPhase {
    /// The recorder as found.
    #[default]
    Recorder,
    /// The pen's zero is being checked.
    Zero(u8, Tapping),
    /// A pen that rested on its stop was raised by this many divisions.
    Raised(u8),
    /// The blower is about to be started.
    Start,
    /// The blower runs.
    Running,
}

impl OperatorPhase for PowerPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        match self {
            Self::Recorder => {
                recorder(observed, memory);
                *self = Self::Zero(0, Tapping::default());
            }
            Self::Zero(set, tapping) => {
                if tapping.rests(observed, memory) {
                    let set = *set;
                    *self = zero(set, observed, memory);
                }
            }
            Self::Raised(by) => {
                let by = *by;
                *self = raised(by, observed, memory);
            }
            Self::Start => {
                // A sampler that is only checked is checked on its controller.
                if observed.papers.work_order.is_check_alone() {
                    memory.thinks("Only a check is ordered: the blower runs from its controller.");
                    memory.starts_blower_by(Supply::Controller, observed);
                } else {
                    memory.thinks("The recorder is ready: the blower is started.");
                    memory.starts_blower(observed);
                }
                *self = Self::Running;
            }
            Self::Running => return PhaseProgress::Finished,
        }
        PhaseProgress::More
    }
}

/// Fits a fresh chart, uncaps the pen and puts it on the chart.
fn recorder(observed: &Observation<'_>, memory: &mut Memory) {
    let seen = &observed.view.recorder;
    memory.glances(Sight::Recorder);
    repairs::recorder(observed, memory);
    if !seen.door_open {
        memory.does(Action::OpenDoor);
    }
    if seen.on_paper {
        memory.does(Action::LiftPen);
    }
    memory.does(Action::FitChart);
    memory.chart_fitted = None;
    suspect::chart(observed, memory);
    if memory.habits.terms == TermsUsed::ByThePlate {
        memory.expression = arithmetic::expression(seen.scale);
    }
    if seen.capped {
        memory.does(Action::UncapPen);
    }
    memory.does(Action::LowerPen);
    memory.looks(Sight::Pen);
}

/// Sets the pen's zero, with the blower off.
fn zero(set: u8, observed: &Observation<'_>, memory: &mut Memory) -> PowerPhase {
    let pen = observed.view.recorder.pen.unwrap_or_default();
    memory.chart_fitted.get_or_insert((observed.view.tick, observed.view.recorder.chart_hour));
    memory.thinks(format!(
        "With the blower off the tapped pen stands at {pen:.1} divisions; its zero may be off by {ZEROED:.1}."
    ));
    if memory.habits.pen_zero == Practice::Skipped {
        return PowerPhase::Start;
    }
    // The zero of a pen that rests on its stop may be below the chart: only raising it can show
    // that.
    if pen < ON_STOP && set == 0 && memory.habits.tapping == Practice::Kept {
        memory.does(Action::SetPenZero { by: 1.0 });
        return PowerPhase::Raised(1);
    }
    // An operator who does not tap does not check the zero either.
    if pen.abs() < ZEROED || set >= MOST_SET || memory.habits.tapping == Practice::Skipped {
        return PowerPhase::Start;
    }
    memory.does(Action::SetPenZero { by: (-pen).clamp(-5.0, 5.0) });
    if set == 0 {
        report(memory);
    }
    PowerPhase::Zero(set + 1, Tapping::default())
}

/// Raises a pen off its stop until it moves, then brings it to zero.
fn raised(by: u8, observed: &Observation<'_>, memory: &mut Memory) -> PowerPhase {
    let pen = observed.view.recorder.pen.unwrap_or_default();
    if pen < LIFTED && by < MOST_RAISED {
        memory.does(Action::SetPenZero { by: 1.0 });
        return PowerPhase::Raised(by + 1);
    }
    memory.thinks(format!(
        "The pen left its stop after {by} divisions and stands at {pen:.1}: its zero was {:.1} below the chart's (at \
         most {ZEROED:.1}).",
        (f64::from(by) - pen).max(0.0)
    ));
    memory.does(Action::SetPenZero { by: (-pen).clamp(-5.0, 5.0) });
    if f64::from(by) - pen > ZEROED {
        report(memory);
    }
    PowerPhase::Zero(1, Tapping::default())
}

fn report(memory: &mut Memory) {
    memory.reports(
        FaultKind::PenZeroOff,
        Response::Repaired,
        "the pen did not stand at zero with the blower off; set",
    );
}

/// Switches the power off after the last point and listens to the rotor as it runs down.
#[derive(Debug, Default)]
pub(super) struct StopPhase {
    since: Option<Tick>,
}

impl OperatorPhase for StopPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(since) = self.since else {
            let stopped = memory.started.is_some() && memory.stops_blower(observed);
            self.since = Some(observed.view.tick);
            // An operator who compares nothing with the usual values does not time it either.
            let listens = memory.refusal.is_none() && memory.habits.comparing == Practice::Kept;
            return if stopped && listens { PhaseProgress::More } else { PhaseProgress::Finished };
        };
        let seconds = observed.view.tick.seconds_since(since);
        if !stands_still(observed) && seconds < LONGEST_RUN_DOWN_S {
            memory.waits(1.0);
            return PhaseProgress::More;
        }
        suspect::run_down(seconds, memory);
        PhaseProgress::Finished
    }
}
