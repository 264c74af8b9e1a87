//! What an operator gets and gives.

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
