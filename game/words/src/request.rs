//! What a sentence can ask for.

use sim_core::session::action::Action;

use super::topic::Topic;

/// What is waited for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Settling {
    /// The recorder's pen.
    Pen,
    /// The water in the manometer.
    Water,
    /// The blower, until it stands still.
    Blower,
    /// Pen and water.
    Everything,
}

/// What a sentence asks for.
#[derive(Debug, Clone, PartialEq)]
pub enum Request {
    /// Do this, in this order.
    Do(Vec<Action>),
    /// Do this, in this order, without being asked first whether anything is still undone.
    Anyway(Vec<Action>),
    /// Let so many seconds pass.
    Wait(f64),
    /// Wait until something has come to rest.
    Settle(Settling),
    /// Show the checklist.
    Checklist,
    /// Say what is still undone.
    Undone,
    /// Show the sentences that are understood: of one topic, or an overview.
    Help(Option<Topic>),
    /// Show the field book.
    Book,
    /// Show the history of the sampler, with its control chart.
    History,
    /// Do what the last sentence asked for once more.
    Again,
    /// Leave the program; the session can be resumed.
    Quit,
}
