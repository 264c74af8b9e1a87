//! The run while nobody is there: coarse steps, and fine ones wherever power comes or goes.

use std::sync::Arc;

use super::action::{Action, Sight};
use super::apply::refusal::{Refusal, refuse};
use super::state::SessionState;
use super::unattended_run::{Pace, RunStage, UnattendedRun};
use super::view_of;
use crate::scenario::setup::Setup;
use crate::time::{TICKS_PER_SECOND, Tick};

/// Length of a coarse step: one minute.
pub(super) const COARSE: u64 = 60 * TICKS_PER_SECOND;
/// How long steps stay fine after power came or went, ticks: by then the blower has run up or
/// stopped, and the controller has settled.
const FINE: u64 = 90 * TICKS_PER_SECOND;

impl SessionState {
    /// Whether nobody is there.
    pub(super) fn is_away(&self) -> bool {
        self.run.is_some_and(|run| run.is_away())
    }

    /// Leaves the site. The weather, the dial and the filter are left to themselves.
    pub(super) fn leave(&mut self, setup: &Setup, now: Tick) -> Result<(), Refusal> {
        let (Some(run), Some(weather)) = (&self.run, setup.run) else {
            return refuse("no run is ordered: sign the field book or leave the roof instead");
        };
        if run.stage == RunStage::Back {
            return refuse("the run is over: finish the work and sign the field book");
        }
        if now >= run.back {
            return refuse(
                "it is past the time at which you were to return: the run can no longer be made",
            );
        }
        let seen = view_of::at_site(self, setup, now, None);
        let Some(run) = &mut self.run else { return Ok(()) };
        run.left = now;
        run.stage = RunStage::Away(now.later(FINE));
        self.last_seen = Some(Arc::new(seen));
        self.station.leave(weather);
        self.rig.timer.slide();
        self.rig.begin_sample();
        self.rig.flow_was_disturbed();
        Ok(())
    }

    /// Refuses what can only be done at the site.
    pub(super) fn allowed_away(action: &Action) -> Result<(), Refusal> {
        match action {
            Action::Write { .. }
            | Action::Report(_)
            | Action::AskHelp { .. }
            | Action::MarkChecklist { .. }
            | Action::Wait { .. }
            | Action::Sign
            | Action::Look {
                at: Sight::WorkOrder | Sight::Certificate(_) | Sight::Watch, ..
            } => Ok(()),
            _ => refuse("you are not at the site: come back when the run is over"),
        }
    }

    /// The next boundary while nobody is there.
    pub(super) fn unattended_boundary(&self, run: &UnattendedRun) -> Tick {
        let coarse = Tick((self.tick.0 / COARSE + 1) * COARSE).min(run.back);
        let RunStage::Away(fine_until) = run.stage else { return coarse };
        let fine = self.pace == Pace::Fine
            || self.tick < fine_until
            || self.changes_before(coarse)
            || !self.tick.0.is_multiple_of(TICKS_PER_SECOND);
        if fine { self.fine_boundary() } else { coarse }
    }

    /// Whether power comes or goes, or a fault begins, before this tick or just after it.
    fn changes_before(&self, until: Tick) -> bool {
        let seconds = (until.0 - self.tick.0).div_ceil(TICKS_PER_SECOND) + 2;
        let then = self.station.surroundings().week.later(seconds as f64 / 3600.0);
        let on_s = self.run.map(|run| run.on.seconds());
        self.rig.feed_at(then) != self.rig.feed()
            || self.station.power_changes_within(seconds)
            || self.faults.changes_before(until.seconds() + 2.0, on_s)
    }

    /// Steps to a boundary while nobody is there.
    pub(super) fn step_unattended(&mut self, boundary: Tick) {
        let powered = self.rig.is_powered();
        if boundary.0 - self.tick.0 > TICKS_PER_SECOND {
            self.step_coarse_to(boundary);
            self.begin_faults();
        } else {
            self.step_fine(boundary);
        }
        let changed = self.rig.is_powered() != powered;
        if let Some(run) = &mut self.run {
            if changed {
                run.stage = RunStage::Away(boundary.later(FINE));
            }
            if boundary >= run.back {
                run.stage = RunStage::Back;
                self.last_seen = None;
                self.station.come_back();
            }
        }
        self.close_sample();
    }

    /// Takes a coarse step, with the mean surroundings of its seconds.
    pub(super) fn step_coarse_to(&mut self, tick: Tick) {
        let dt_s = tick.seconds_since(self.tick);
        let seconds = tick.whole_seconds() - self.tick.whole_seconds();
        let around = if seconds > 0 {
            self.station.stepped_mean(seconds)
        } else {
            self.station.surroundings()
        };
        self.rig.step_coarse(dt_s, &around);
        self.tick = tick;
    }

    /// Closes the sample of the run once the trainee is back and the blower is off.
    pub(super) fn close_sample(&mut self) {
        let back = self.run.is_some_and(|run| run.stage == RunStage::Back);
        if back && !self.rig.is_powered() {
            self.rig.close_sample();
        }
    }
}
