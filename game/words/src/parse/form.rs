//! One form of sentence: how it may be said, and what it makes.

use sim_core::field_book::FieldBook;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::catch::Caught;
use super::trouble::Trouble;
use crate::request::Request;

/// A form of sentence.
pub(crate) struct Form {
    /// Patterns, tried in turn. See [`super::pattern`] for how they are written.
    pub patterns: &'static [&'static str],
    /// Sentences that fit, shown in the help. The first is the best to learn.
    pub examples: &'static [&'static str],
    /// What it does, in a few words, for the help.
    pub note: &'static str,
    /// Makes the request from what the slots of the pattern caught.
    pub build: fn(&Caught, &Known) -> Built,
}

/// What is known besides the sentence.
pub(crate) struct Known<'a> {
    /// What can be seen now.
    pub view: &'a View,
    /// What was written so far.
    pub book: &'a FieldBook,
}

/// What a form makes.
pub(crate) type Built = Result<Request, Trouble>;

/// One action.
pub(super) fn one(action: Action) -> Built {
    Ok(Request::Do(vec![action]))
}

/// Several actions in turn.
pub(super) fn several(actions: Vec<Action>) -> Built {
    Ok(Request::Do(actions))
}

/// Writes a form in one call.
pub(super) const fn form(
    patterns: &'static [&'static str],
    examples: &'static [&'static str],
    note: &'static str,
    build: fn(&Caught, &Known) -> Built,
) -> Form {
    Form { patterns, examples, note, build }
}
