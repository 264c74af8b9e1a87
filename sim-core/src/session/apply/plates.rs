//! What hands do to the plates of a calibrator with fixed plates.

use super::super::state::SessionState;
use super::refusal::{Refusal, refuse};
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::flow::plates::Plate;
use crate::rig::parts::{PartPlace, RigPart};

/// Refuses what is done to a knob that is not there.
pub(super) fn has_knob(state: &SessionState) -> Result<(), Refusal> {
    match state.rig.parameters.calibrator.kind {
        CalibratorKind::VariableOpening => Ok(()),
        CalibratorKind::FixedPlates => refuse(
            "this calibrator has no knob: its flow is set by a plate. Take the plate out and put \
             another one in",
        ),
    }
}

/// Takes the plate out.
pub(super) fn take_out(state: &mut SessionState) -> Result<(), Refusal> {
    within_reach(state)?;
    if state.rig.calibrator.plate.is_none() {
        return refuse("there is no plate in the calibrator");
    }
    state.rig.calibrator.plate = None;
    state.rig.flow_was_changed();
    Ok(())
}

/// Puts a plate in.
pub(super) fn put_in(state: &mut SessionState, plate: Plate) -> Result<(), Refusal> {
    within_reach(state)?;
    if let Some(there) = state.rig.calibrator.plate {
        return refuse(format!(
            "the plate with {} holes is in the calibrator: take it out first",
            there.holes()
        ));
    }
    state.rig.calibrator.plate = Some(plate);
    state.rig.flow_was_changed();
    Ok(())
}

/// Refuses where both hands cannot be on an open calibrator for plates.
fn within_reach(state: &SessionState) -> Result<(), Refusal> {
    let rig = &state.rig;
    if rig.parameters.calibrator.kind == CalibratorKind::VariableOpening {
        return refuse("this calibrator takes no plates: turn its knob");
    }
    if rig.calibrator.blocked {
        return refuse("the openings are covered: uncover them first");
    }
    if let Some(held) = rig.mounting.hand().filter(|&held| held != RigPart::Calibrator) {
        return refuse(format!("you are holding the {}: put it down first", held.words()));
    }
    match rig.mounting.place(RigPart::Calibrator) {
        PartPlace::Case => refuse("the calibrator is in its case: take it out first"),
        PartPlace::Hand => refuse("a plate needs both hands: put the calibrator down first"),
        _ => Ok(()),
    }
}
