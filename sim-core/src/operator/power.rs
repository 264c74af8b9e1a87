//! Phase D, first half: chart and pen, the motor off its controller and onto the line. And the end
//! of the points: power off.

use super::mind::{Mind, Phase, Progress, stands_still};
use super::tapping::Tapping;
use super::{Practice, Scene, Supply, Terms, reckon, suspect};
use crate::session::action::{Action, FaultPlace, Response, Sight};
use crate::time::Tick;

/// A pen's zero that is good enough, divisions.
const ZEROED: f64 = 0.3;
/// A pen's zero that is looked at twice is set at most so often.
const MOST_SET: u8 = 3;
/// A pen below this lies on its stop, divisions.
const ON_STOP: f64 = 0.05;
/// A pen above this was lifted off its stop, divisions.
const LIFTED: f64 = 0.2;
/// A rotor that is not still by then is not waited for, s.
const LONGEST_RUN_DOWN_S: f64 = 120.0;
/// So many divisions a pen is raised at most.
const MOST_RAISED: u8 = 8;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Power {
    /// The recorder as found.
    #[default]
    Recorder,
    /// The pen's zero is looked at.
    Zero(u8, Tapping),
    /// A pen that lies on its stop was raised by so many divisions.
    Raised(u8),
    /// The blower is started.
    Start,
    /// It runs.
    Running,
}

impl Phase for Power {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() {
            return Progress::Finished;
        }
        match self {
            Self::Recorder => {
                recorder(scene, mind);
                *self = Self::Zero(0, Tapping::default());
            }
            Self::Zero(set, tapping) => {
                if tapping.rests(scene, mind) {
                    let set = *set;
                    *self = zero(set, scene, mind);
                }
            }
            Self::Raised(by) => {
                let by = *by;
                *self = raised(by, scene, mind);
            }
            Self::Start => {
                // What is only checked is checked on its controller.
                if scene.papers.work_order.is_check_alone() {
                    mind.starts_blower_by(Supply::Controller, scene);
                } else {
                    mind.starts_blower(scene);
                }
                *self = Self::Running;
            }
            Self::Running => return Progress::Finished,
        }
        Progress::More
    }
}

/// A fresh chart, the pen uncapped and on it.
fn recorder(scene: &Scene<'_>, mind: &mut Mind) {
    let seen = &scene.view.recorder;
    mind.glances(Sight::Recorder);
    if !seen.door_open {
        mind.does(Action::OpenDoor);
    }
    if seen.on_paper {
        mind.does(Action::LiftPen);
    }
    mind.does(Action::FitChart);
    mind.chart_fitted = None;
    suspect::chart(scene, mind);
    if mind.habits.terms == Terms::ByThePlate {
        mind.expression = reckon::expression(seen.scale);
    }
    if seen.capped {
        mind.does(Action::UncapPen);
    }
    mind.does(Action::LowerPen);
    mind.looks(Sight::Pen);
}

/// Sets the pen's zero, the blower off.
fn zero(set: u8, scene: &Scene<'_>, mind: &mut Mind) -> Power {
    let pen = scene.view.recorder.pen.unwrap_or_default();
    mind.chart_fitted.get_or_insert((scene.view.tick, scene.view.recorder.chart_hour));
    if mind.habits.pen_zero == Practice::Skipped {
        return Power::Start;
    }
    // On its stop the pen may have its zero below the chart: only raising it tells.
    if pen < ON_STOP && set == 0 && mind.habits.tapping == Practice::Kept {
        mind.does(Action::SetPenZero { by: 1.0 });
        return Power::Raised(1);
    }
    // Who does not tap does not look at the zero either.
    if pen.abs() < ZEROED || set >= MOST_SET || mind.habits.tapping == Practice::Skipped {
        return Power::Start;
    }
    mind.does(Action::SetPenZero { by: (-pen).clamp(-5.0, 5.0) });
    if set == 0 {
        report(mind);
    }
    Power::Zero(set + 1, Tapping::default())
}

/// Raises a pen off its stop until it moves, then brings it to zero.
fn raised(by: u8, scene: &Scene<'_>, mind: &mut Mind) -> Power {
    let pen = scene.view.recorder.pen.unwrap_or_default();
    if pen < LIFTED && by < MOST_RAISED {
        mind.does(Action::SetPenZero { by: 1.0 });
        return Power::Raised(by + 1);
    }
    mind.does(Action::SetPenZero { by: (-pen).clamp(-5.0, 5.0) });
    if f64::from(by) - pen > ZEROED {
        report(mind);
    }
    Power::Zero(1, Tapping::default())
}

fn report(mind: &mut Mind) {
    mind.reports(
        FaultPlace::Recorder,
        Response::Repaired,
        "the pen did not stand at zero with the blower off; set",
    );
}

/// Power off after the last point; the rotor is listened to as it runs down.
#[derive(Debug, Default)]
pub(super) struct Stop {
    since: Option<Tick>,
}

impl Phase for Stop {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        let Some(since) = self.since else {
            let stopped = mind.started.is_some() && mind.stops_blower(scene);
            self.since = Some(scene.view.tick);
            // Who compares nothing with what is usual does not time it either.
            let listens = mind.refusal.is_none() && mind.habits.comparing == Practice::Kept;
            return if stopped && listens { Progress::More } else { Progress::Finished };
        };
        let seconds = scene.view.tick.seconds_since(since);
        if !stands_still(scene) && seconds < LONGEST_RUN_DOWN_S {
            mind.waits(1.0);
            return Progress::More;
        }
        suspect::run_down(seconds, mind);
        Progress::Finished
    }
}
