//! Scripted operators: each decides its next step from what can be seen, according to its habits.
//!
//! An operator receives the view, its own field book and the papers, and returns one step at a
//! time. It has no access to the rig. All operators follow one plan (the phases below); they differ
//! only in their [`Habits`] and in the seed of their eyes.
//!
//! ```text
//! arrive -> strip -> mount -> hang -> power -> leak -> warm -> points -> closing -> sums -> restore -> check
//! if a flow check is ordered: sums -> flow check -> restore, or warm -> flow check
//! if a run is ordered: restore -> load -> (the run) -> recover -> restore -> volume
//! if a next run is ordered: recover -> next run -> restore
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
    Checking, Habits, Leads, Legs, NAMES, Outcomes, PairTaken, Practice, Remarks, Supply, Targets,
    TermsUsed,
};
pub use rehearse::{RehearseError, rehearse};

use crate::field_book::FieldBook;
use crate::session::SitePapers;
use crate::session::action::Action;
use crate::session::view::View;

/// What an operator knows at one moment.
#[derive(Debug, Clone, Copy)]
pub struct Observation<'a> {
    /// What the operator can see.
    pub view: &'a View,
    /// What the operator has written.
    pub book: &'a FieldBook,
    /// The papers.
    pub papers: SitePapers<'a>,
}

/// What an operator does next.
#[derive(Debug, Clone, PartialEq)]
pub enum OperatorStep {
    /// One action.
    Do(Action),
    /// No action for this many seconds: the hands are at work, or the operator waits.
    Wait(f64),
    /// The operator has finished.
    Done,
}

/// Decides what to do from what can be seen.
pub trait Operator {
    /// The next step.
    fn next(&mut self, observed: &Observation<'_>) -> OperatorStep;

    /// Is called when an action was refused, with the reason.
    fn refused(&mut self, action: &Action, reason: &str) {
        let _ = (action, reason);
    }
}

/// The operator of this name, with eyes drawn from the seed. Names can be joined by `+`, as in
/// `hurried+one-leg`. `None` if there is no such name.
pub fn by_name(name: &str, seed: u64) -> Option<Box<dyn Operator>> {
    let habits = Habits::by_name(name)?;
    Some(Box::new(plan::Planned::new(habits, seed)))
}
