//! The next step of the work, as it is said and as it is done.

use sim_core::field_book::Field;
use sim_core::session::action::Action;

/// What to do next, with what does it.
#[derive(Debug, Clone, PartialEq)]
pub struct AdvisedStep {
    /// What to do, in a sentence or two.
    pub now: String,
    /// Why, with the source in brackets.
    pub why: String,
    /// What does it, in this order.
    pub deeds: Vec<Deed>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq)]
pub enum Deed {
    /// This action.
    Do(Action),
    /// Let so many seconds pass.
    Wait(f64),
    /// Write a value of the trainee's own, read or worked out, into this field.
    Write(Field),
}

/// The actions with which deeds begin, up to the first wait or the first value of the trainee's own.
pub fn first_actions(deeds: &[Deed]) -> impl Iterator<Item = &Action> {
    deeds.iter().map_while(|deed| match deed {
        Deed::Do(action) => Some(action),
        Deed::Wait(_) | Deed::Write(_) => None,
    })
}
