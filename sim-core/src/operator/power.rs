//! Phase D, first half: chart and pen, the motor off its controller and onto the line. And the end
//! of the points: power off.

use super::mind::{Mind, Phase, Progress};
use super::tapping::Tapping;
use super::{Practice, Scene};
use crate::session::action::{Action, FaultPlace, Response, Sight};

/// A pen's zero that is good enough, divisions.
const ZEROED: f64 = 0.3;
/// A pen's zero that is looked at twice is set at most so often.
const MOST_SET: u8 = 3;

/// Where the phase stands.
#[derive(Debug, Default)]
pub(super) enum Power {
    /// The recorder as found.
    #[default]
    Recorder,
    /// The pen's zero is looked at.
    Zero(u8, Tapping),
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
            Self::Start => {
                mind.starts_blower(scene);
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
    if seen.capped {
        mind.does(Action::UncapPen);
    }
    mind.does(Action::LowerPen);
    mind.looks(Sight::Pen);
}

/// Sets the pen's zero, the blower off.
fn zero(set: u8, scene: &Scene<'_>, mind: &mut Mind) -> Power {
    let pen = scene.view.recorder.pen.unwrap_or_default();
    // Who does not tap does not look at the zero either.
    if pen.abs() < ZEROED || set >= MOST_SET || mind.habits.tapping == Practice::Skipped {
        return Power::Start;
    }
    mind.does(Action::SetPenZero { by: (-pen).clamp(-5.0, 5.0) });
    if set == 0 {
        mind.reports(
            FaultPlace::Recorder,
            Response::Repaired,
            "the pen did not stand at zero with the blower off; set",
        );
    }
    Power::Zero(set + 1, Tapping::default())
}

/// Power off after the last point, so that the rotor runs down while the sums are done.
#[derive(Debug)]
pub(super) struct Stop;

impl Phase for Stop {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.started.is_some() {
            mind.stops_blower(scene);
        }
        Progress::Finished
    }
}
