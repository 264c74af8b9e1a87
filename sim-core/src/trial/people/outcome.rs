//! How each rule came out in a sitting.

use serde::Serialize;

use crate::marking::Marks;
use crate::procedure::{OutcomeKind, ProcedureRule, RULES};

/// How a rule came out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ItemOutcome {
    /// The work came to where it applies, and it was kept.
    Kept,
    /// It was broken.
    Broken,
    /// The work never came to where it applies.
    NotReached,
    /// The record lacks what it would take to judge it.
    CannotJudge,
}

impl ItemOutcome {
    /// The item as it is scored: a rule that cannot be judged was not shown to be kept. `None` if it
    /// was not reached, which says nothing about the person.
    pub const fn score(self) -> Option<bool> {
        match self {
            Self::Kept => Some(true),
            Self::Broken | Self::CannotJudge => Some(false),
            Self::NotReached => None,
        }
    }

    /// The outcome as one letter: k, b, n or j.
    pub const fn letter(self) -> char {
        match self {
            Self::Kept => 'k',
            Self::Broken => 'b',
            Self::NotReached => 'n',
            Self::CannotJudge => 'j',
        }
    }
}

/// How every rule came out, in the order of [`RULES`]. A rule that is switched off, or not asked for,
/// was not reached.
pub fn outcomes(marks: &Marks) -> Vec<ItemOutcome> {
    let outcome = |rule: &ProcedureRule| {
        let judged = marks.rules.iter().find(|judged| judged.rule == rule.id);
        match judged.map(|judged| judged.outcome) {
            Some(OutcomeKind::Kept) => ItemOutcome::Kept,
            Some(OutcomeKind::Broken) => ItemOutcome::Broken,
            Some(OutcomeKind::CannotJudge) => ItemOutcome::CannotJudge,
            Some(OutcomeKind::NotReached | OutcomeKind::NotAssessed) | None => {
                ItemOutcome::NotReached
            }
        }
    };
    RULES.iter().map(|rule| outcome(rule)).collect()
}
