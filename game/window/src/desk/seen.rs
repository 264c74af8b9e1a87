//! What the rest of the window sees of the desk: the view, the field book, and what was last said.

use bevy::prelude::*;
use sim_core::field_book::FieldBook;
use sim_core::session::action::FaultReport;
use sim_core::session::view::View;

/// What can be seen.
#[derive(Resource, Debug, Clone, PartialEq)]
pub struct Seen(pub View);

/// What stands in the field book.
#[derive(Resource, Debug, Clone, PartialEq, Default)]
pub struct Book(pub FieldBook);

/// What was reported, as the journal has it.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub struct Reports(pub Vec<FaultReport>);

/// What the bench last said.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub enum Said {
    /// Nothing, or that something was done.
    #[default]
    Nothing,
    /// What is heard.
    Heard(String),
    /// What was written, in whole words: nothing else on the bench shows it.
    Done(String),
    /// What was looked at, read out in words.
    Read(String),
    /// Why something cannot be done now.
    Refused(String),
    /// That something has to be asked for once more before it is done.
    AskAgain(String),
    /// Something else, in whole sentences.
    Notice(String),
}

impl Said {
    /// As it stands on the hand card and is told to readers.
    pub fn words(&self) -> String {
        match self {
            Self::Nothing => String::new(),
            Self::Heard(what) => format!("You hear: {what}"),
            Self::Read(what) => format!("You read: {what}"),
            Self::Refused(why) => format!("You cannot do that now: {why}."),
            Self::AskAgain(what) => format!("Press again to confirm: {what}."),
            Self::Done(words) | Self::Notice(words) => words.clone(),
        }
    }

    /// Whether it is about the thing at hand, and of no use beside another one.
    pub const fn is_of_thing(&self) -> bool {
        matches!(self, Self::Refused(_) | Self::AskAgain(_) | Self::Done(_))
    }
}
