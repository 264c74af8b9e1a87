//! Phase A, the weather: nobody stays on the roof after thunder.

use super::evidence::{Evidence, THUNDER_WAIT_S};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::rig::parts::{BlowerPlug, TimerSwitch};
use crate::session::action::{Action, OnOff};
use crate::session::ground_truth::GroundTruth;
use crate::time::{TICK_SECONDS, Tick, spoken};

/// Time given to notice thunder, s (CHOSEN).
const NOTICE_S: f64 = 60.0;
/// Time given to make things safe and leave, s (CHOSEN).
const LEAVE_S: f64 = 300.0;

/// Thunder means leaving the roof: no work for 30 minutes after thunder was heard.
///
/// The trainee has a minute to notice it, and may make the sampler safe; five minutes after the first
/// thunder nobody may be on the roof, not even idle. What is written elsewhere, away from the roof, is
/// no work on it. Broken by turning the knob three minutes after thunder, or by waiting on the roof;
/// kept by switching off, unplugging and leaving.
pub static THUNDER: ProcedureRule = ProcedureRule {
    id: "thunder",
    title: "No work within 30 minutes of thunder",
    why: "Anyone who can hear thunder can be struck, and a roof with a metal shelter is a dangerous place.",
    severity: Severity::Critical,
    decides: Decides::Never,
    source: RuleSource::memory("United States National Weather Service, 30-minute rule"),
    phase: WorkPhase::Arrive,
    repair: Repair::None,
    test: |evidence| {
        let Some(danger) = Danger::of(evidence) else { return Outcome::NotReached };
        let found = working(evidence, &danger).or_else(|| staying(evidence, &danger));
        Outcome::reached(found)
    },
};

/// The time in which thunder makes the roof dangerous, s since the session began.
struct Danger {
    /// When it was first heard on the roof. Somebody who arrives after thunder has as much time to
    /// notice it as somebody at work.
    noticed_s: f64,
    /// When it is over.
    over_s: f64,
}

impl Danger {
    /// The danger in a session, if thunder was heard in it or in the 30 minutes before.
    fn of(evidence: &Evidence<'_>) -> Option<Self> {
        let heard = evidence.indexed_events().map(|at| (at.tick(), at.facts().thunder_since_s));
        let at_end = (evidence.end_tick, evidence.end.thunder_since_s);
        let first_s = heard
            .chain([at_end])
            .find_map(|(tick, since)| since.map(|since| tick.seconds() - since))?;
        let over_s = first_s + THUNDER_WAIT_S;
        (over_s > 0.0).then(|| Self { noticed_s: first_s.max(0.0), over_s })
    }
}

/// The first action on the roof that neither looks, nor records, nor makes safe.
fn working(evidence: &Evidence<'_>, danger: &Danger) -> Option<Slip> {
    let from_s = danger.noticed_s + NOTICE_S;
    let found = evidence.indexed_events().find(|at| {
        let s = at.tick().seconds();
        (from_s..danger.over_s).contains(&s)
            && s > from_s
            && !is_away(at.facts())
            && !makes_safe(&at.event.action)
    })?;
    let since = spoken((found.tick().seconds() - danger.noticed_s) as u64);
    Some(Slip::at(found.tick(), format!("still working {since} after thunder")))
}

/// Staying on the roof beyond the time to leave it, whether anything was done there or not.
fn staying(evidence: &Evidence<'_>, danger: &Danger) -> Option<Slip> {
    on_the_roof(evidence).into_iter().find_map(|(from_s, until_s)| {
        let leave_s = f64::max(danger.noticed_s, from_s) + LEAVE_S;
        if f64::min(until_s, danger.over_s) <= leave_s {
            return None;
        }
        let since = spoken(LEAVE_S as u64);
        let text = format!("still on the roof {since} after thunder");
        Some(Slip::at(Tick((leave_s / TICK_SECONDS) as u64), text))
    })
}

/// The times spent on the roof, from and until, s: all of the session but the days of a run.
fn on_the_roof(evidence: &Evidence<'_>) -> Vec<(f64, f64)> {
    let end_s = evidence.end_tick.seconds();
    let Some(left) = evidence.leaving() else { return vec![(0.0, end_s)] };
    let before = (0.0, left.tick().seconds());
    let back = evidence.indexed_events().skip(left.index + 1).find(|at| !is_away(at.facts()));
    let after = back.map(|at| (at.tick().seconds(), end_s));
    [before].into_iter().chain(after).collect()
}

/// Whether the trainee has left the site for the run and is not back.
fn is_away(facts: &GroundTruth) -> bool {
    facts.run.as_ref().is_some_and(|run| run.left && !run.back)
}

/// Whether an action only looks, records, leaves, or makes the sampler safe.
fn makes_safe(action: &Action) -> bool {
    matches!(
        action,
        Action::Look { .. }
            | Action::Listen
            | Action::Write { .. }
            | Action::Strike { .. }
            | Action::Decide { .. }
            | Action::Report(_)
            | Action::AskHelp { .. }
            | Action::ReadInWords
            | Action::MarkChecklist { .. }
            | Action::Wait { .. }
            | Action::SwitchLine { to: OnOff::Off }
            | Action::SwitchTimer { to: TimerSwitch::Off }
            | Action::UnplugSampler
            | Action::PlugBlower { into: BlowerPlug::Loose }
            | Action::CapPen
            | Action::LiftPen
            | Action::CloseLid
            | Action::CloseDoor
            | Action::LeaveRoof
            | Action::LeaveSite
            | Action::Sign
    )
}
