//! What hands do to the filling of the manometer.

use super::super::state::SessionState;
use super::refusal::{Refusal, refuse, within};
use crate::rig::parts::{GaugeFluid, Leg, PartPlace, RigPart};

/// Most that is added or taken out at once, mm of level.
const MOST_MM: f64 = 20.0;

/// Adds fluid to the hanging manometer from its bottle, or takes some out.
pub(super) fn add(state: &mut SessionState, by_mm: f64) -> Result<(), Refusal> {
    within("the change of the level", by_mm, -MOST_MM, MOST_MM, "mm")?;
    if !state.rig.manometer_hangs() {
        return refuse("the manometer is not hanging: put it on its hook first");
    }
    let manometer = &mut state.rig.manometer;
    if manometer.valve_quarters(Leg::Right) == 0 {
        return refuse("the right valve is shut, and the fluid goes in through it: open it first");
    }
    if manometer.is_frozen_through() {
        return refuse(
            "the water in the manometer is frozen: take the manometer off its hook and fill it anew in \
             the van",
        );
    }
    manometer.add_fluid(by_mm);
    Ok(())
}

/// Empties the manometer in the van and fills it anew.
pub(super) fn change(state: &mut SessionState, to: GaugeFluid) -> Result<(), Refusal> {
    if !to.is_in_van() {
        return refuse(format!("there is no {} in the van: only water and antifreeze", to.words()));
    }
    if state.rig.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        return refuse(
            "the manometer is on its hook, and it is emptied and filled in the van: take it off the \
             hook first",
        );
    }
    state.rig.change_fluid(to);
    Ok(())
}
