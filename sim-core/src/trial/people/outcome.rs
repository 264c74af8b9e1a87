//! How each rule came out in a sitting.

use serde::Serialize;

use crate::marking::{Marks, Standing};
use crate::procedure::{ProcedureRule, RULES, WorkPhase};

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

/// How every rule came out, in the order of [`RULES`].
pub fn outcomes(marks: &Marks) -> Vec<ItemOutcome> {
    RULES.iter().map(|rule| outcome(rule, marks)).collect()
}

/// How a rule came out, as far as findings tell: work that was stopped did not come to the points
/// and what follows them.
fn outcome(rule: &ProcedureRule, marks: &Marks) -> ItemOutcome {
    let broken = marks.findings.iter().any(|finding| finding.rule == rule.id);
    let stopped = marks.standing != Standing::Worked;
    match (broken, stopped && rule.phase >= WorkPhase::Points) {
        (true, _) => ItemOutcome::Broken,
        (false, true) => ItemOutcome::NotReached,
        (false, false) => ItemOutcome::Kept,
    }
}
