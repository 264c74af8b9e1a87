//! Phase D, leak check: openings covered, ears and pen; and the mending of what is heard.

use super::mind::{Mind, Phase, Progress, stands_still};
use super::mount::{Mount, TIGHT_QUARTERS};
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::{Practice, Scene};
use crate::rig::parts::{Nut, Part, Place};
use crate::session::action::{Action, FaultPlace, Response, Sight};
use crate::session::view::Hiss;

/// Time for the blower to come up to speed, s.
const RUN_UP_S: f64 = 15.0;
/// A pen above this with the openings covered tells of a leak, divisions above its zero.
const LEAK_DIVISIONS: f64 = 3.0;
/// Mendings after which the mounting is given up.
const MOST_MENDINGS: u8 = 3;

/// A leak check, repeated until it is passed.
#[derive(Debug, Default)]
pub(super) struct LeakCheck {
    stage: Stage,
    mendings: u8,
}

#[derive(Debug, Default)]
enum Stage {
    /// The blower comes up to speed.
    #[default]
    RunUp,
    /// The openings are covered.
    Cover,
    /// They are covered; the pen falls.
    Falling(Tapping),
    /// A hiss was heard; hands off until the rotor stands.
    Stopping(Hiss),
    /// Hands go in; what covers the place of the hiss is taken off.
    Opening(Hiss),
    /// What was taken off is put back.
    Closing(Mount),
    /// The tube goes back on, and the power.
    Restarting,
    /// Passed, or left out.
    Passed,
}

impl Phase for LeakCheck {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() || !mind.minds_leaks() {
            return Progress::Finished;
        }
        let stage = std::mem::take(&mut self.stage);
        self.stage = match stage {
            Stage::RunUp => {
                mind.waits(Mind::left_of(RUN_UP_S, mind.started, scene));
                Stage::Cover
            }
            Stage::Cover => {
                mind.does(Action::BlockOpenings);
                mind.does(Action::Listen);
                mind.glances(Sight::Holder);
                mind.looks(Sight::Pen);
                Stage::Falling(Tapping::default())
            }
            Stage::Falling(mut tapping) => {
                if tapping.rests(scene, mind) {
                    self.judge(scene, mind)
                } else {
                    Stage::Falling(tapping)
                }
            }
            Stage::Stopping(hiss) if stands_still(scene) => Stage::Opening(hiss),
            Stage::Stopping(hiss) => {
                mind.waits(5.0);
                Stage::Stopping(hiss)
            }
            Stage::Opening(hiss) => opening(hiss, scene, mind),
            Stage::Closing(mut mount) => match mount.go_on(scene, mind) {
                Progress::More => Stage::Closing(mount),
                Progress::Finished => Stage::Restarting,
            },
            Stage::Restarting => {
                if !scene.view.tube.on_tap {
                    mind.does(Action::ConnectTube);
                }
                mind.starts_blower(scene);
                Stage::RunUp
            }
            Stage::Passed => return Progress::Finished,
        };
        Progress::More
    }
}

impl LeakCheck {
    /// A check that begins with a hiss heard during the points.
    pub fn after_a_hiss() -> Self {
        Self { stage: Stage::Cover, mendings: 0 }
    }

    /// Frees the openings and decides what is to be mended.
    fn judge(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Stage {
        mind.does(Action::FreeOpenings);
        mind.flow_changed = Some(scene.view.tick);
        let pen = scene.view.recorder.pen.unwrap_or_default() * mind.chart_scale;
        let Some(hiss) = scene.view.blower.hiss else {
            // Before it is tapped, a good pen too hangs some divisions above its zero.
            if pen > LEAK_DIVISIONS && mind.habits.tapping == Practice::Kept {
                mind.reports(
                    FaultPlace::Recorder,
                    Response::Noted,
                    "the pen does not fall to its zero with the openings covered, and no hiss is heard",
                );
            }
            return Stage::Passed;
        };
        self.mendings += 1;
        if self.mendings > MOST_MENDINGS {
            mind.rejects(FaultPlace::Mounting, "a leak at the holder could not be closed");
            return Stage::Passed;
        }
        if mind.habits.hands_off == Practice::Skipped {
            return Stage::Opening(hiss);
        }
        // A nut too is turned by a hand beside the fan: never while it runs.
        mind.stops_blower(scene);
        Stage::Stopping(hiss)
    }
}

/// Turns one nut, which looked tight or did not.
fn tighten(number: u8, scene: &Scene<'_>, mind: &mut Mind) {
    let Ok(nut) = Nut::try_from(number) else { return };
    let seen = scene.view.mounting.nuts.get(nut.index()).map_or(0, |nut| nut.quarter_turns);
    let missing = TIGHT_QUARTERS.saturating_sub(seen).max(1);
    mind.does(Action::TurnNut { nut, quarter_turns: missing as i8 });
    mind.reports(FaultPlace::Mounting, Response::Repaired, "a nut was loose; tightened");
}

/// Takes off what covers the place of the hiss, or gives up when everything there is as it should
/// be.
fn opening(hiss: Hiss, scene: &Scene<'_>, mind: &mut Mind) -> Stage {
    let mounting = &scene.view.mounting;
    if let Hiss::AtNut(number) = hiss {
        tighten(number, scene, mind);
        return Stage::Restarting;
    }
    if scene.view.tube.on_tap {
        mind.does(Action::DisconnectTube);
    } else if mounting.place(Part::Calibrator) == Place::Adapter {
        mind.moves(Part::Calibrator, Place::Ground);
        mind.glances(Sight::Holder);
    } else if hiss == Hiss::PlateEdge && mounting.place(Part::Adapter) == Place::Holder {
        take_nuts_off(scene, mind);
        mind.moves(Part::Adapter, Place::Ground);
        mind.glances(Sight::Holder);
    } else {
        let cause = match hiss {
            Hiss::PlateEdge => mounting.holder_gasket == Some(false),
            Hiss::UnderCalibrator => mounting.calibrator_gasket == Some(false),
            Hiss::AtNut(_) => true,
        };
        if !cause {
            mind.rejects(
                FaultPlace::Mounting,
                "air hisses in although gaskets, washers and nuts are as they should be",
            );
            return Stage::Passed;
        }
        return Stage::Closing(Mount::default());
    }
    Stage::Opening(hiss)
}

/// Whether leaks are listened for while the points are read.
pub(super) fn listens(mind: &Mind) -> bool {
    mind.minds_leaks() && mind.habits.listening == Practice::Kept
}

/// Whether a hiss was heard while the points are read.
pub(super) fn heard(scene: &Scene<'_>, mind: &Mind) -> bool {
    listens(mind) && scene.view.blower.hiss.is_some()
}
