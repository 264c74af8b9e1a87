//! From a sentence to what it asks for: by the table, and else by what people say around and between the
//! sentences of the table.

use sim_core::field_book::FieldBook;
use sim_core::session::view::View;

use super::as_said::as_said;
use super::form::Known;
use super::not_understood::{LONGEST_SENTENCE, NotUnderstood};
use super::relaxed;
use super::sentence::Sentence;
use crate::request::Request;

/// Reads a sentence. `view` gives relative sentences their start (`close the knob a little`), and
/// `book` the next free point.
///
/// # Errors
///
/// When the sentence fits no known one, or asks for something that is not there.
pub fn parse(sentence: &str, view: &View, book: &FieldBook) -> Result<Request, NotUnderstood> {
    if sentence.chars().nth(LONGEST_SENTENCE).is_some() {
        return Err(NotUnderstood::TooLong);
    }
    let known = Known { view, book };
    let exact = as_said(Sentence::read(sentence), &known);
    match exact {
        // What the words themselves ask for comes before any guess at what they might mean.
        Ok(request) => Ok(request),
        Err(NotUnderstood::Nothing) => Err(NotUnderstood::Nothing),
        Err(error) => relaxed::read(sentence, &known).ok_or(error),
    }
}
