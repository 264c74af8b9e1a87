//! Plain sentences both ways: what a person says becomes an action, and what can be seen is said
//! at the resolution of a sharp eye. For a terminal, a remote line and a screen reader.
//!
//! Nothing in here decides anything about the bench: a sentence becomes the same [`Action`] that a
//! hand in the window would make, and only what is in the [`View`] and on the papers is said.

pub mod advice;
mod caution;
mod help;
mod names;
pub mod own_sums;
mod parse;
#[cfg(any(test, feature = "sample"))]
pub mod sample;
mod say;
pub mod script;
pub mod talk;
pub mod units;

pub use caution::caution;
pub use help::{Topic, help};
pub use names::{field_name, phase_name, source_words};
pub use parse::{LONGEST_SENTENCE, NotUnderstood, parse};
pub use say::{listen, look, notice, paper, refused, say_action, weekday};

use sim_core::session::action::Action;

#[cfg(doc)]
use sim_core::session::view::View;

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
