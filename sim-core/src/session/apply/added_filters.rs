//! Clean filters laid on the one on the holder, and taken off again.

use super::super::state::SessionState;
use super::super::unattended_run::RunStage;
use super::refusal::{Refusal, refuse};
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::Setup;

/// Lays the next clean filter on the stack.
pub(super) fn lay_on(state: &mut SessionState, setup: &Setup) -> Result<(), Refusal> {
    let ordered = setup.work_order.added_filters().map_or(0, |order| order.sheets);
    if ordered == 0 {
        return refuse("the work order asks for no added filters: lay one filter on the holder");
    }
    if state.run.is_none_or(|run| run.stage != RunStage::Before) {
        return refuse("the run is over: the controller is tested before it");
    }
    in_reach(state)?;
    if state.rig.mounting.place(RigPart::Filter) != PartPlace::Holder {
        return refuse("there is no filter on the holder: put one there first");
    }
    if state.rig.added.sheets >= ordered {
        return refuse("no other clean filter was given out for this test");
    }
    state.rig.added.lay_on();
    state.rig.flow_was_changed();
    Ok(())
}

/// Takes the topmost filter of the stack off.
pub(super) fn lift_off(state: &mut SessionState) -> Result<(), Refusal> {
    if !state.rig.added.cover() {
        return refuse("no added filter lies on the filter");
    }
    in_reach(state)?;
    state.rig.added.lift_off();
    state.rig.flow_was_changed();
    Ok(())
}

/// Refuses what hands cannot reach: the lid is closed, the hands are full, or something covers it.
fn in_reach(state: &SessionState) -> Result<(), Refusal> {
    let mounting = &state.rig.mounting;
    if let Some(held) = mounting.hand() {
        return refuse(format!("you are holding the {}: put it down first", held.words()));
    }
    if !mounting.lid_open {
        return refuse("the lid is closed: open it first");
    }
    let covers = |part| mounting.place(part) == PartPlace::Holder;
    match [RigPart::Frame, RigPart::Adapter].into_iter().find(|&part| covers(part)) {
        Some(part) => refuse(format!("the {} is on the filter: take it off first", part.words())),
        None => Ok(()),
    }
}
