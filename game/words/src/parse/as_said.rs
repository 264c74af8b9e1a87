//! What a sentence asks for by the table alone: the first form that fits.

use super::form::Known;
use super::nearest;
use super::not_understood::NotUnderstood;
use super::pattern::{self, Trace};
use super::sentence::Sentence;
use super::table::forms;
use super::trouble::Trouble;
use crate::request::Request;
use crate::topic::Topic;

/// Reads a sentence by the table alone.
pub(super) fn as_said(sentence: Sentence, known: &Known) -> Result<Request, NotUnderstood> {
    if sentence.tokens.is_empty() {
        return Err(NotUnderstood::Nothing);
    }
    let mut trace = Trace::default();
    let mut said = None;
    for form in Topic::WORK.iter().flat_map(|&topic| forms(topic)) {
        for pattern in form.patterns {
            let Some(caught) = pattern::fit(pattern, &sentence, &mut trace) else { continue };
            match (form.build)(&caught, known) {
                Ok(request) => return Ok(request),
                Err(Trouble::Misfit) => {}
                Err(Trouble::Stop(text)) => return Err(NotUnderstood::Cannot(text)),
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
