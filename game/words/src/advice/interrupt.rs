//! What comes before any other step: nobody is there, or there is thunder.

use sim_core::session::action::{Action, OnOff};
use sim_core::session::view::run::RunStanding;

use super::goal::Goal;
use super::next::{Advice, act, wait};
use super::scene::Scene;
use crate::moves::switch_blower;

/// While nobody is at the site there is nothing to do there.
pub(super) fn away(scene: &Scene<'_>) -> Option<Advice> {
    let run = scene.view.run.as_deref()?;
    if run.standing != RunStanding::Away {
        return None;
    }
    wait("run-made", Goal::RunOver, 7200.0)
}

/// Thunder ends everything else.
pub(super) fn thunder(scene: &Scene<'_>) -> Option<Advice> {
    scene.view.sky.thunder_since_s?;
    if scene.runs()
        && let Some(off) = switch_blower(&scene.view, OnOff::Off)
    {
        return act("thunder", Goal::OffInThunder, off);
    }
    act("thunder", Goal::AwayFromThunder, Action::LeaveRoof)
}
