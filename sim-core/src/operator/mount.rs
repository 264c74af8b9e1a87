//! Phase B, second half: adapter plate, gaskets, washers, nuts, calibrator.

use super::Observation;
use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::plate;
use crate::rig::flow::plates::Plate;
use crate::rig::parts::{Gasket, Nut, PartPlace, RigPart};
use crate::session::action::{Action, FaultKind, Response, Sight, WasherSeat};

/// How many quarter turns every nut is tightened.
pub(super) const TIGHT_QUARTERS: u8 = 8;

/// Each time, the phase looks at what is mounted and takes the next step.
#[derive(Debug, Default)]
pub(super) struct MountPhase {
    looked: bool,
}

impl OperatorPhase for MountPhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        if memory.refusal.is_some() {
            return PhaseProgress::Finished;
        }
        let mounting = &observed.view.mounting;
        if !self.looked {
            self.looked = true;
            memory.glances(Sight::Holder);
        } else if mounting.place(RigPart::Adapter) != PartPlace::Holder {
            if mounting.holder_gasket == Some(false) && memory.checks_leaks() {
                fits(Gasket::Holder, "the gasket on the holder was missing; fitted", memory);
            }
            renews(Gasket::Holder, observed, memory);
            memory.moves(RigPart::Adapter, PartPlace::Holder);
        } else if !turns_washers(observed, memory) && !tightens(observed, memory) {
            return calibrator(observed, memory);
        }
        PhaseProgress::More
    }
}

/// Puts every washer above the plate. True if one was not.
fn turns_washers(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let mut any = false;
    for (nut, seen) in Nut::ALL.into_iter().zip(observed.view.mounting.nuts) {
        if seen.washer == WasherSeat::Below {
            if seen.quarter_turns > 0 {
                memory.does(Action::TurnNut { nut, quarter_turns: -12 });
            }
            memory.thinks(format!("The washer of nut {} lies below the plate.", nut.number()));
            memory.does(Action::SetWasher { nut, seat: WasherSeat::Above });
            memory.reports(
                FaultKind::WasherBelow,
                Response::Repaired,
                "a washer lay below the frame; put above",
            );
            any = true;
        }
    }
    any
}

/// Tightens the nuts evenly, at opposite corners alternately. True if one was not tight.
fn tightens(observed: &Observation<'_>, memory: &mut Memory) -> bool {
    let nuts = &observed.view.mounting.nuts;
    if nuts.iter().all(|nut| nut.quarter_turns == 0) {
        // In two rounds, so that the plate comes down level.
        let half = (TIGHT_QUARTERS / 2) as i8;
        memory.turns_nuts(half);
        memory.turns_nuts(half);
        return true;
    }
    let mut any = false;
    for (nut, seen) in Nut::ALL.into_iter().zip(nuts) {
        let missing = TIGHT_QUARTERS.saturating_sub(seen.quarter_turns);
        if missing > 0 {
            memory.thinks(format!(
                "Nut {} is on by {} quarter turns; {TIGHT_QUARTERS} hold the plate.",
                nut.number(),
                seen.quarter_turns
            ));
            memory.does(Action::TurnNut { nut, quarter_turns: missing as i8 });
            any = true;
        }
    }
    any
}

/// Puts the calibrator on, its knob fully open or its widest plate in.
fn calibrator(observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
    let mounting = &observed.view.mounting;
    if mounting.place(RigPart::Calibrator) == PartPlace::Case {
        // The flange is visible once the calibrator is out of the case.
        memory.moves(RigPart::Calibrator, PartPlace::Ground);
        PhaseProgress::More
    } else if observed.view.calibrator.plates.is_some_and(|plates| plates.inserted.is_none()) {
        memory.thinks("The highest flow comes first: the plate with most holes goes in.");
        plate::puts_in(Plate::WIDEST, observed, memory);
        PhaseProgress::More
    } else if mounting.place(RigPart::Calibrator) != PartPlace::Adapter {
        if mounting.calibrator_gasket == Some(false) && memory.checks_leaks() {
            fits(
                Gasket::Calibrator,
                "the gasket between plate and calibrator was missing; fitted",
                memory,
            );
        }
        renews(Gasket::Calibrator, observed, memory);
        memory.moves(RigPart::Calibrator, PartPlace::Adapter);
        PhaseProgress::More
    } else if observed.view.calibrator.knob < 1.0 {
        memory.does(Action::TurnKnob { opening: 1.0 });
        PhaseProgress::More
    } else {
        memory.thinks(
            "Every washer lies above, every nut is tight, and the calibrator is on, fully open.",
        );
        PhaseProgress::Finished
    }
}

/// Fits a fresh gasket in place of one that is seen to be flat and hard.
fn renews(gasket: Gasket, observed: &Observation<'_>, memory: &mut Memory) {
    if observed.view.mounting.flat_gasket != Some(gasket) || !memory.checks_leaks() {
        return;
    }
    memory.thinks("The gasket is flat and hard: no nut would make it tight.");
    memory.does(Action::FitGasket { gasket });
    memory.reports(
        FaultKind::GasketFlattened,
        Response::Repaired,
        "a gasket was flat and hard; a fresh one fitted",
    );
}

fn fits(gasket: Gasket, what: &str, memory: &mut Memory) {
    memory.thinks(match gasket {
        Gasket::Holder => "There is no gasket on the holder: air would enter under the plate.",
        Gasket::Calibrator => {
            "There is no gasket under the calibrator: air would enter past its orifice."
        }
    });
    memory.does(Action::FitGasket { gasket });
    let missing = match gasket {
        Gasket::Holder => FaultKind::HolderGasketMissing,
        Gasket::Calibrator => FaultKind::CalibratorGasketMissing,
    };
    memory.reports(missing, Response::Repaired, what);
}
