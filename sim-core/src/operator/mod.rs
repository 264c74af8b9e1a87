//! Scripted operators: policies over what can be seen, made of habits.
//!
//! An operator gets the view, its own field book and the papers, and gives back one step at a time.
//! It never reaches the rig. All of them follow one plan (the phases below); they differ in their
//! [`Habits`] only, and in the seed of their eyes.
//!
//! ```text
//! arrive -> strip -> mount -> hang -> power -> leak -> warm -> points -> closing -> sums -> restore -> check
//! where a check of the flow is ordered: sums -> flow check -> restore, or warm -> flow check
//! and where a run is ordered: restore -> load -> (the run) -> recover -> restore -> volume
//! and where a next run is: recover -> next run -> restore
//! ```

mod arithmetic;
mod arrive;
mod check_run;
mod closing;
mod flow_check;
mod habits;
mod hang;
mod hold_test;
mod leak;
mod load;
mod memory;
mod mount;
mod next_run;
mod plan;
mod points;
mod power;
mod recover;
mod rehearse;
mod restore;
mod strip;
mod sums;
mod suspect;
mod tapping;
mod tube_check;
mod volume;
mod warm;

pub use habits::{
    Checking, Habits, Leads, Legs, NAMES, OperatorNameError, Outcomes, PairTaken, Practice,
    Remarks, Supply, Targets, TermsUsed,
};
pub use rehearse::{RehearseError, rehearse};

use crate::field_book::FieldBook;
use crate::session::SitePapers;
use crate::session::action::Action;
use crate::session::view::View;

/// What an operator knows at one moment.
#[derive(Debug, Clone, Copy)]
pub struct Observation<'a> {
    /// What can be seen.
    pub view: &'a View,
    /// What was written.
    pub book: &'a FieldBook,
    /// The papers.
    pub papers: SitePapers<'a>,
}

/// What an operator does next.
#[derive(Debug, Clone, PartialEq)]
pub enum OperatorStep {
    /// One action.
    Do(Action),
    /// Nothing for so many seconds: hands at work, or a wait.
    Wait(f64),
    /// Nothing more.
    Done,
}

/// A policy over what can be seen.
pub trait Operator {
    /// The next step.
    fn next(&mut self, observed: &Observation<'_>) -> OperatorStep;

    /// Told when an action could not be done, and why.
    fn refused(&mut self, action: &Action, reason: &str) {
        let _ = (action, reason);
    }
}

/// The operator of this name, its eyes drawn from the seed; names are joined by `+`, as in
/// `hurried+one-leg`.
///
/// # Errors
///
/// As [`Habits::by_name`].
pub fn by_name(name: &str, seed: u64) -> Result<Box<dyn Operator>, OperatorNameError> {
    let habits = Habits::by_name(name)?;
    Ok(Box::new(plan::Planned::new(habits, seed)))
}
