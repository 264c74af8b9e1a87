//! What an operator receives and returns.

use super::thought::Thought;
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
    /// No action until hands and eyes are free from the last one.
    FinishHands,
    /// No action for this many seconds: the operator waits.
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

    /// What the operator thought since it was last asked: what it saw, and why it goes on as it does.
    /// An operator that does not explain itself has none.
    fn thoughts(&mut self) -> Vec<Thought> {
        Vec::new()
    }
}
