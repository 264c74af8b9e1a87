//! Trials: many rehearsals of a scenario by scripted operators, their counts, and what the counts
//! prove.
//!
//! | file | what it does |
//! |---|---|
//! | [`tally`] | counts sessions; tallies merge exactly, in any order |
//! | [`interval`] | pass rate with its confidence interval |
//! | [`rules`] | difficulty and discrimination of each rule |
//! | [`verdict`] | whether a scenario is proven, and why not |
//! | [`reasons`] | what to change in a scenario that is not proven, told with one session |
//! | [`drawn`] | drawn rigs, and whether they are fair |
//! | [`people`] | a population of people, their marks, and what the marks are worth |
//! | [`learner`] | a simulated learner goes through a lesson plan |
//! | [`plan_time`] | how long a lesson plan takes |
//! | [`statistics`] | the formulas of test theory, usable alone |
//!
//! A session is counted and then discarded, so that memory does not grow with the number of
//! sessions. Everything counted is a whole number, so that the result is the same, bit for bit,
//! however the sessions are distributed among processors.

pub mod drawn;
pub mod interval;
pub mod learner;
pub mod people;
pub mod plan_time;
pub mod reasons;
pub mod rest;
pub mod rules;
pub mod statistics;
pub mod tally;
pub mod verdict;

use crate::fault::Fault;
use crate::marking::{self, Marks};
use crate::operator::{self, OperatorNameError, RehearseError};
use crate::session::ending::Ending;
use crate::session::journal::NullSink;
use crate::session::{BeginError, Session};

pub use drawn::{Counted, DrawnTally};
pub use interval::{ConfidenceInterval, pass_rate};
pub use reasons::{Alteration, TrialReason, told};
pub use rules::{RuleFigures, rule_figures};
pub use tally::Tally;
pub use verdict::{TrialJudgement, TrialVerdict, judge};

/// One session of a trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Rehearsal {
    /// Its marks; none if it did not end properly.
    pub marks: Option<Marks>,
    /// Head of its journal's chain.
    pub head: String,
}

impl Rehearsal {
    /// A few characters that identify the session and its mark; another program would hardly
    /// produce the same.
    pub fn witness(&self) -> String {
        let head = self.head.get(..16).unwrap_or(&self.head);
        match &self.marks {
            Some(marks) => format!("{head} {:.4} {}", marks.total, marks.passed),
            None => format!("{head} unfinished"),
        }
    }
}

/// Sessions of some seeds, counted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TrialBlock {
    /// The counts.
    pub tally: Tally,
    /// [`Rehearsal::witness`] of the first session.
    pub witness: String,
}

/// Why a session of a trial could not be held.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TrialError {
    /// The name stands for no operator.
    #[error(transparent)]
    Operator(#[from] OperatorNameError),
    /// The session could not begin.
    #[error(transparent)]
    Begin(#[from] BeginError),
}

/// Runs one session of a scenario, given as its text, with an operator, and marks it.
///
/// # Errors
///
/// When the scenario has problems or there is no operator of that name.
pub fn rehearsal(text: &str, operator: &str, seed: u64) -> Result<Rehearsal, TrialError> {
    held(operator::begin(text, seed, Box::new(NullSink))?, operator)
}

/// Lets an operator work a session that has just begun, and marks it.
fn held(mut session: Session, operator: &str) -> Result<Rehearsal, TrialError> {
    let mut hands = operator::in_session(operator, &session)?;
    let lost = match operator::rehearse(&mut session, hands.as_mut()) {
        Ok(()) => false,
        Err(RehearseError::Sink(_) | RehearseError::Lost | RehearseError::Unsigned) => true,
    };
    let (head, _) = session.seal();
    let ended = match session.open() {
        Ok(ended) if !lost && ended.ended != Ending::Broken => ended,
        Ok(_) | Err(_) => return Ok(Rehearsal { marks: None, head }),
    };
    Ok(Rehearsal { marks: Some(marking::mark(&ended.evidence())), head })
}

/// Runs one session for each seed, and counts them. Only the first one, which is the witness, keeps
/// a journal.
///
/// # Errors
///
/// As [`rehearsal`].
pub fn block(
    text: &str,
    faults: &[Fault],
    operator: &str,
    seeds: std::ops::Range<u64>,
) -> Result<TrialBlock, TrialError> {
    let mut block = TrialBlock { tally: Tally::new(faults.len()), witness: String::new() };
    for seed in seeds {
        let had = if block.witness.is_empty() {
            let had = rehearsal(text, operator, seed)?;
            block.witness = had.witness();
            had
        } else {
            held(operator::begin_unrecorded(text, seed)?, operator)?
        };
        block.tally.add(seed, had.marks.as_ref(), faults);
    }
    Ok(block)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_session_without_a_journal_is_the_same_session() {
        for (text, operator) in [
            (include_str!("../../../scenarios/03_a_new_blower.ron"), "careful"),
            (include_str!("../../../scenarios/31_one_in_one_on.ron"), "hurried"),
        ] {
            let recorded = rehearsal(text, operator, 7).unwrap();
            let without = held(operator::begin_unrecorded(text, 7).unwrap(), operator).unwrap();
            assert!(recorded.marks.is_some() && recorded.marks == without.marks, "{operator}");
            assert_ne!(recorded.head, without.head, "nothing was written");
        }
    }
}
