//! Phase B, second half: adapter plate, gaskets, washers, nuts, calibrator.

use super::Scene;
use super::mind::{Mind, Phase, Progress};
use crate::rig::parts::{Gasket, Nut, Part, Place};
use crate::session::action::{Action, FaultPlace, Response, Sight, WasherSeat};

/// Quarter turns to which every nut is brought.
pub(super) const TIGHT_QUARTERS: u8 = 8;

/// The phase looks at what is mounted each time and does what comes next.
#[derive(Debug, Default)]
pub(super) struct Mount {
    looked: bool,
}

impl Phase for Mount {
    fn go_on(&mut self, scene: &Scene<'_>, mind: &mut Mind) -> Progress {
        if mind.refusal.is_some() {
            return Progress::Finished;
        }
        let mounting = &scene.view.mounting;
        if !self.looked {
            self.looked = true;
            mind.glances(Sight::Holder);
        } else if mounting.place(Part::Adapter) != Place::Holder {
            if mounting.holder_gasket == Some(false) && mind.minds_leaks() {
                fits(Gasket::Holder, "the gasket on the holder was missing; fitted", mind);
            }
            mind.moves(Part::Adapter, Place::Holder);
        } else if !turns_washers(scene, mind) && !tightens(scene, mind) {
            return calibrator(scene, mind);
        }
        Progress::More
    }
}

/// Puts washers above the plate. True when one was not.
fn turns_washers(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let mut any = false;
    for (nut, seen) in Nut::ALL.into_iter().zip(scene.view.mounting.nuts) {
        if seen.washer == WasherSeat::Below {
            if seen.quarter_turns > 0 {
                mind.does(Action::TurnNut { nut, quarter_turns: -12 });
            }
            mind.does(Action::SetWasher { nut, seat: WasherSeat::Above });
            mind.reports(
                FaultPlace::Mounting,
                Response::Repaired,
                "a washer lay below the frame; put above",
            );
            any = true;
        }
    }
    any
}

/// Brings the nuts down evenly, opposite corners in turn. True when one was not tight.
fn tightens(scene: &Scene<'_>, mind: &mut Mind) -> bool {
    let nuts = &scene.view.mounting.nuts;
    if nuts.iter().all(|nut| nut.quarter_turns == 0) {
        // In two rounds, so that the plate comes down level.
        let half = (TIGHT_QUARTERS / 2) as i8;
        mind.turns_nuts(half);
        mind.turns_nuts(half);
        return true;
    }
    let mut any = false;
    for (nut, seen) in Nut::ALL.into_iter().zip(nuts) {
        let missing = TIGHT_QUARTERS.saturating_sub(seen.quarter_turns);
        if missing > 0 {
            mind.does(Action::TurnNut { nut, quarter_turns: missing as i8 });
            any = true;
        }
    }
    any
}

/// Puts the calibrator on, its knob fully open.
fn calibrator(scene: &Scene<'_>, mind: &mut Mind) -> Progress {
    let mounting = &scene.view.mounting;
    if mounting.place(Part::Calibrator) == Place::Case {
        // Its flange is seen once it is out of the case.
        mind.moves(Part::Calibrator, Place::Ground);
        Progress::More
    } else if mounting.place(Part::Calibrator) != Place::Adapter {
        if mounting.calibrator_gasket == Some(false) && mind.minds_leaks() {
            fits(
                Gasket::Calibrator,
                "the gasket between plate and calibrator was missing; fitted",
                mind,
            );
        }
        mind.moves(Part::Calibrator, Place::Adapter);
        Progress::More
    } else if scene.view.calibrator.knob < 1.0 {
        mind.does(Action::TurnKnob { opening: 1.0 });
        Progress::More
    } else {
        Progress::Finished
    }
}

fn fits(gasket: Gasket, what: &str, mind: &mut Mind) {
    mind.does(Action::FitGasket { gasket });
    mind.reports(FaultPlace::Mounting, Response::Repaired, what);
}
