//! Trials: many rehearsals of a scenario by scripted operators, counted, and what the counts prove.
//!
//! | file | what it does |
//! |---|---|
//! | [`tally`] | counts sessions; tallies merge exactly, in any order |
//! | [`interval`] | pass rate with its interval |
//! | [`rules`] | difficulty and discrimination of each rule |
//! | [`verdict`] | whether a scenario is proven, and why not |
//!
//! A session is counted and forgotten: memory does not grow with the number of sessions. Everything
//! counted is a whole number, so that the result is the same, bit for bit, however the sessions are
//! shared out among processors.

pub mod interval;
pub mod rest;
pub mod rules;
pub mod tally;
pub mod verdict;

use crate::fault::Fault;
use crate::marking::{self, Marks};
use crate::operator::{self, OperatorNameError, RehearseError};
use crate::session::ending::Ending;
use crate::session::journal::NullSink;
use crate::session::{BeginError, Session};

pub use interval::{ConfidenceInterval, pass_rate};
pub use rules::{RuleFigures, rule_figures};
pub use tally::Tally;
pub use verdict::{TrialJudgement, TrialVerdict, judge};

/// One session of a trial.
#[derive(Debug, Clone, PartialEq)]
pub struct Rehearsal {
    /// Its marks; none when it came to no proper end.
    pub marks: Option<Marks>,
    /// Head of its journal's chain.
    pub head: String,
}

impl Rehearsal {
    /// A few characters that another program would hardly come to: the session and its mark.
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

/// A session of a trial could not be had.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum TrialError {
    /// The name stands for no operator.
    #[error(transparent)]
    Operator(#[from] OperatorNameError),
    /// The scenario does not begin.
    #[error(transparent)]
    Begin(#[from] BeginError),
}

/// Has one session of a scenario, given as its text, by an operator, and marks it.
///
/// # Errors
///
/// When the scenario has problems or there is no operator of that name.
pub fn rehearsal(text: &str, operator: &str, seed: u64) -> Result<Rehearsal, TrialError> {
    let mut hands = operator::by_name(operator, seed)?;
    let mut session = Session::begin(text, seed, Box::new(NullSink))?;
    let lost = match operator::rehearse(&mut session, hands.as_mut()) {
        Ok(()) => false,
        Err(RehearseError::Sink(_) | RehearseError::Lost | RehearseError::Unsigned) => true,
    };
    let (head, _) = session.seal();
    let signed = match session.open() {
        Ok(signed) if !lost && signed.ended != Ending::Broken => signed,
        Ok(_) | Err(_) => return Ok(Rehearsal { marks: None, head }),
    };
    Ok(Rehearsal { marks: Some(marking::mark(&signed.evidence())), head })
}

/// Has so many sessions, seed after seed, and counts them.
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
        let had = rehearsal(text, operator, seed)?;
        if block.witness.is_empty() {
            block.witness = had.witness();
        }
        block.tally.add(seed, had.marks.as_ref(), faults);
    }
    Ok(block)
}
