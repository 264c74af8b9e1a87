//! A problem in a scenario, with its place and how to correct it.

use super::text_places::TextPlace;
use crate::text::printable;

/// Something wrong with a scenario.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {what}; {mend}")]
pub struct ScenarioProblem {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The rule that found it, or `readable` when the text could not be read as a scenario.
    pub rule: &'static str,
    /// What is wrong.
    pub what: String,
    /// How to fix it.
    pub mend: String,
}

impl ScenarioProblem {
    pub(crate) fn new(place: TextPlace, rule: &'static str, what: String, mend: String) -> Self {
        let TextPlace { line, column } = place;
        Self { line, column, rule, what: tidy(&what), mend: tidy(&mend) }
    }

    pub(crate) fn unreadable(place: TextPlace, what: &str, mend: &str) -> Self {
        Self::new(place, READABLE, what.to_owned(), mend.to_owned())
    }
}

/// The name under which unreadable text is reported.
pub const READABLE: &str = "readable";

/// Makes a text fit for one line of a terminal: safe to print, and not too long.
fn tidy(text: &str) -> String {
    const LONGEST: usize = 400;
    match text.char_indices().nth(LONGEST) {
        Some((end, _)) => printable(text.get(..end).unwrap_or_default()).into_owned() + "…",
        None => printable(text).into_owned(),
    }
}
