//! What a sentence can ask for.

use sim_core::session::action::Action;

use super::topic::Topic;

/// What a sentence asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Request {
    /// Do this, in this order.
    Do(Vec<Action>),
    /// Let so many seconds pass.
    Wait(f64),
    /// Show the sentences that are understood: of one topic, or an overview.
    Help(Option<Topic>),
    /// Show the field book.
    Book,
    /// Do what the last sentence asked for once more.
    Again,
    /// Leave the program; the session can be resumed.
    Quit,
}
