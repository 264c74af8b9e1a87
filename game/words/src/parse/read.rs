//! From a sentence to what it asks for: the first form of the table that fits.

use sim_core::field_book::FieldBook;
use sim_core::session::view::View;

use super::form::Known;
use super::nearest;
use super::not_understood::{LONGEST_SENTENCE, NotUnderstood};
use super::pattern::{self, Trace};
use super::sentence::Sentence;
use super::table::forms;
use super::trouble::Trouble;
use crate::request::Request;
use crate::topic::Topic;

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
    let sentence = Sentence::read(sentence);
    if sentence.tokens.is_empty() {
        return Err(NotUnderstood::Nothing);
    }
    let known = Known { view, book };
    let mut trace = Trace::default();
    let mut said = None;
    for form in Topic::WORK.iter().flat_map(|&topic| forms(topic)) {
        for pattern in form.patterns {
            let Some(caught) = pattern::fit(pattern, &sentence, &mut trace) else { continue };
            match (form.build)(&caught, &known) {
                Ok(request) => return Ok(request),
                Err(Trouble::Misfit) => {}
                Err(Trouble::Say(text)) => said = said.or(Some(text)),
            }
        }
    }
    if let Some(text) = said {
        return Err(NotUnderstood::Cannot(text));
    }
    let nearest = nearest::nearest(&sentence);
    match sentence.tokens.get(trace.furthest) {
        Some(token) => {
            let word = token.word.chars().take(40).collect();
            Err(NotUnderstood::Unknown { word, nearest })
        }
        None => Err(NotUnderstood::Unfinished { nearest }),
    }
}
