//! Phase D, leak check: the openings are covered, the operator listens and watches the pen, and
//! repairs the leak that is heard.

use super::memory::{Memory, OperatorPhase, PhaseProgress, Suspicion};
use super::mount::{MountPhase, TIGHT_QUARTERS};
use super::running::stands_still;
use super::strip::take_nuts_off;
use super::tapping::Tapping;
use super::{Observation, Practice, hang};
use crate::rig::parts::{Gasket, Leg, Nut, PartPlace, RigPart};
use crate::session::action::{Action, FaultKind, FaultPlace, Response, Sight};
use crate::session::view::Hiss;

/// Time for the blower to come up to speed, s.
const RUN_UP_S: f64 = 15.0;
/// A pen above this with the openings covered indicates a leak, divisions above its zero.
const LEAK_DIVISIONS: f64 = 4.4;
/// After this many repairs the operator gives up the mounting.
const MOST_MENDINGS: u8 = 3;

/// A leak check, repeated until it is passed.
#[derive(Debug, Default)]
pub(super) struct LeakCheckPhase {
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
    /// The openings are covered; the pen falls.
    Falling(Tapping),
    /// A hiss was heard; hands off until the rotor has stopped.
    Stopping(Hiss),
    /// The hands go in; the parts that cover the place of the hiss are taken off.
    Opening(Hiss),
    /// The parts are put back.
    Closing(MountPhase),
    /// The tubing and the power are connected again.
    Restarting,
    /// The leak check was passed, or left out.
    Passed,
}

impl OperatorPhase for LeakCheckPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() || !memory.checks_leaks() {
            return PhaseProgress::Finished;
        }
        let stage = std::mem::take(&mut self.stage);
        self.stage = match stage {
            Stage::RunUp => {
                memory.waits(Memory::left_of(RUN_UP_S, memory.started, observed));
                Stage::Cover
            }
            Stage::Cover => {
                spares_manometer(observed, memory);
                memory.does(Action::BlockOpenings);
                memory.does(Action::Listen);
                memory.glances(Sight::Holder);
                memory.looks(Sight::Pen);
                Stage::Falling(Tapping::default())
            }
            Stage::Falling(mut tapping) => {
                if tapping.rests(observed, memory) {
                    self.judge(observed, memory)
                } else {
                    Stage::Falling(tapping)
                }
            }
            Stage::Stopping(hiss) if stands_still(observed) => Stage::Opening(hiss),
            Stage::Stopping(hiss) => {
                memory.waits(5.0);
                Stage::Stopping(hiss)
            }
            Stage::Opening(hiss) => opening(hiss, observed, memory),
            Stage::Closing(mut mount) => match mount.go_on(observed, memory) {
                PhaseProgress::More => Stage::Closing(mount),
                PhaseProgress::Finished => Stage::Restarting,
            },
            Stage::Restarting => {
                if !observed.view.tube.on_tap {
                    memory.does(Action::ConnectTube);
                }
                memory.starts_blower(observed);
                Stage::RunUp
            }
            Stage::Passed => return PhaseProgress::Finished,
        };
        PhaseProgress::More
    }
}

impl LeakCheckPhase {
    /// A check that begins with a hiss heard while the points were taken.
    pub fn after_a_hiss() -> Self {
        Self { stage: Stage::Cover, mendings: 0 }
    }

    /// Uncovers the openings and decides what to repair.
    fn judge(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
        memory.does(Action::FreeOpenings);
        hang::opens_valves(observed, memory);
        memory.flow_changed = Some(observed.view.tick);
        let pen = observed.view.recorder.pen.unwrap_or_default() * memory.chart_scale;
        let heard = observed.view.blower.hiss;
        memory.thinks(format!(
            "With the openings covered the pen fell to {pen:.1} divisions (a leak is suspected above \
             {LEAK_DIVISIONS:.1}), and {}.",
            heard.map_or("nothing hissed: no leak", sounds)
        ));
        let Some(hiss) = heard else {
            // Until it is tapped, even a good pen may hang some divisions above its zero.
            if pen > LEAK_DIVISIONS && memory.habits.tapping == Practice::Kept {
                memory.reports(
                    Suspicion::unknown(FaultPlace::Recorder),
                    Response::Noted,
                    "the pen does not fall to its zero with the openings covered, and no hiss is heard",
                );
            }
            return Stage::Passed;
        };
        self.mendings += 1;
        if self.mendings > MOST_MENDINGS {
            memory.thinks(format!("The leak was mended {MOST_MENDINGS} times and still hisses."));
            memory.rejects(FaultKind::PlateWarped, "a leak at the holder could not be closed");
            return Stage::Passed;
        }
        if memory.habits.hands_off == Practice::Skipped {
            return Stage::Opening(hiss);
        }
        memory.thinks("The leak must be mended: the power goes off before the hands go in.");
        // To turn a nut, the hand is beside the fan: never while the blower runs.
        memory.stops_blower(observed);
        Stage::Stopping(hiss)
    }
}

/// Shuts both valves of the manometer, so that the suction behind the covered openings does not pull its
/// water over.
fn spares_manometer(observed: &Observation<'_>, memory: &mut Memory) {
    if !observed.view.tube.on_tap || memory.habits.sparing == Practice::Skipped {
        return;
    }
    memory
        .thinks("Both valves are shut first: covered openings put the whole suction on the water.");
    for leg in [Leg::Left, Leg::Right] {
        let open = observed.view.manometer.leg(leg).valve_quarters;
        if open > 0 {
            memory.does(Action::TurnValve { leg, quarter_turns: -(open.min(4) as i8) });
        }
    }
}

/// A hiss in words.
const fn sounds(hiss: Hiss) -> &'static str {
    match hiss {
        Hiss::AtNut(_) => "air hissed in at a nut",
        Hiss::PlateEdge => "air hissed in at the edge of the plate",
        Hiss::UnderCalibrator => "air hissed in under the calibrator",
    }
}

/// Tightens one nut, whether or not it looked tight.
fn tighten(number: u8, observed: &Observation<'_>, memory: &mut Memory) {
    let Ok(nut) = Nut::try_from(number) else { return };
    let seen = observed.view.mounting.nuts.get(nut.index()).map_or(0, |nut| nut.quarter_turns);
    let missing = TIGHT_QUARTERS.saturating_sub(seen).max(1);
    memory.thinks(format!(
        "Air hisses in at nut {number}, which is on by {seen} quarter turns: it is turned {missing} further."
    ));
    memory.does(Action::TurnNut { nut, quarter_turns: missing as i8 });
    memory.reports(FaultKind::NutLoose, Response::Repaired, "a nut was loose; tightened");
}

/// Takes off the parts that cover the place of the hiss, or gives up if everything there is as it
/// should be.
fn opening(hiss: Hiss, observed: &Observation<'_>, memory: &mut Memory) -> Stage {
    let mounting = &observed.view.mounting;
    if let Hiss::AtNut(number) = hiss {
        tighten(number, observed, memory);
        return Stage::Restarting;
    }
    if observed.view.tube.on_tap {
        memory.does(Action::DisconnectTube);
    } else if mounting.place(RigPart::Calibrator) == PartPlace::Adapter {
        memory.moves(RigPart::Calibrator, PartPlace::Ground);
        memory.glances(Sight::Holder);
    } else if hiss == Hiss::PlateEdge && mounting.place(RigPart::Adapter) == PartPlace::Holder {
        take_nuts_off(observed, memory);
        memory.moves(RigPart::Adapter, PartPlace::Ground);
        memory.glances(Sight::Holder);
    } else {
        let cause = match hiss {
            Hiss::PlateEdge => {
                mounting.holder_gasket == Some(false)
                    || mounting.flat_gasket == Some(Gasket::Holder)
            }
            Hiss::UnderCalibrator => {
                mounting.calibrator_gasket == Some(false)
                    || mounting.flat_gasket == Some(Gasket::Calibrator)
            }
            Hiss::AtNut(_) => true,
        };
        memory.thinks(if cause {
            "The place of the hiss is open: the gasket there is missing, or flat and hard."
        } else {
            "The place of the hiss is open: its gasket is there, and the nuts were tight."
        });
        if !cause {
            memory.rejects(
                FaultKind::PlateWarped,
                "air hisses in although gaskets, washers and nuts are as they should be",
            );
            return Stage::Passed;
        }
        return Stage::Closing(MountPhase::default());
    }
    Stage::Opening(hiss)
}

/// Whether this operator listens for leaks while the points are read.
pub(super) fn listens(memory: &Memory) -> bool {
    memory.checks_leaks() && memory.habits.listening == Practice::Kept
}

/// Whether this operator hears a hiss while the points are read.
pub(super) fn heard(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let hiss = observed.view.blower.hiss.filter(|_| listens(memory));
    if let Some(hiss) = hiss {
        memory.thinks(format!("Between two points {}: the leak is looked for.", sounds(hiss)));
    }
    hiss.is_some()
}
