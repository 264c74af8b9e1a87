//! Why a scenario is not proven, told with one of its sessions: the moment, the rule or the fault, what
//! the operator saw, and the parameter of the scenario that alters it.
//!
//! Tallies keep only counts and a few seeds. The session of such a seed is run once more with the
//! thoughts of its operator; then single parameters are changed one after the other, and the first change
//! with which the same seed goes as it should is the one that is named.

mod altered;
mod failed;
mod moment;
mod overlooked;
mod passed;
mod sitting;

use serde::Serialize;

use super::verdict::{Objection, Subject};
use crate::scenario::{KnownRules, check};
use crate::time::{Tick, TimeOfDay};

pub use altered::Alteration;
use sitting::Sitting;

/// One objection to a scenario, told with one session.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TrialReason {
    /// The objection, with its counts.
    pub reason: String,
    /// The operator of the session.
    pub operator: String,
    /// The seed of the session.
    pub seed: u64,
    /// The moment.
    pub tick: Tick,
    /// The time of day on the bench at that moment.
    pub time: TimeOfDay,
    /// What was going on.
    pub phase: String,
    /// The rule, the fault or the part of the marks that it is about.
    pub about: String,
    /// What happened there.
    pub what: String,
    /// What the operator saw, and what it concluded.
    pub saw: String,
    /// What to change in the scenario.
    pub change: Alteration,
}

/// Tells an objection with the session of its seed; nothing if it names no session, or if that session
/// cannot be held.
pub fn told(text: &str, objection: &Objection) -> Option<TrialReason> {
    let scenario = check(text, KnownRules::Any).ok()?;
    let operator = objection.operator.as_str();
    let seed = objection.seed?;
    let sat = Sitting::of(&scenario, operator, seed)?;
    let told = match objection.subject {
        Subject::Failed => failed::told(&scenario, operator, &sat),
        Subject::Passed => passed::told(&scenario, operator, &sat),
        Subject::Overlooked(index) | Subject::NeverInForce(index) => {
            overlooked::told(&scenario, index, operator, &sat)?
        }
        Subject::Absent => return None,
    };
    let (phase, thought) = sat.thought_at(told.tick);
    Some(TrialReason {
        reason: objection.text.clone(),
        operator: operator.to_owned(),
        seed,
        tick: told.tick,
        time: sat.time(told.tick),
        phase,
        about: told.about,
        what: told.what,
        saw: told.saw.unwrap_or(thought),
        change: told.change,
    })
}
