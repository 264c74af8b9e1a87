//! From a sentence to what it asks for. Every sentence is an entry in a table of forms: patterns,
//! examples, a note for the help, and the action it makes.

mod air;
mod asking;
mod catch;
#[cfg(test)]
mod every_action;
mod flow;
mod form;
mod looking;
mod manometer;
mod mounting;
mod nearest;
#[cfg(test)]
mod nonsense;
mod numbers;
mod pattern;
mod power;
mod recorder;
mod remarks;
mod run;
mod sentence;
pub(super) mod sights;
#[cfg(test)]
mod tests;
pub(super) mod vocabulary;
mod writing;

use sim_core::field_book::FieldBook;
use sim_core::session::view::View;

use super::Request;
use super::help::Topic;

pub(super) use form::Form;
use form::{Known, Trouble};
use pattern::Trace;
use sentence::Sentence;
pub(super) use writing::as_typed;

/// The longest sentence that is read, characters.
pub const LONGEST_SENTENCE: usize = 2000;

/// Why a sentence asks for nothing. The text says what to say instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotUnderstood {
    /// There were no words.
    #[error("nothing was said: say `help` for the list")]
    Nothing,
    /// The sentence is longer than [`LONGEST_SENTENCE`].
    #[error("the sentence is too long: say it in at most {LONGEST_SENTENCE} characters")]
    TooLong,
    /// A word fits no sentence.
    #[error("`{word}` is not understood here{}; say `help` for the list", meant(.nearest))]
    Unknown {
        /// The first word that fits no known sentence.
        word: String,
        /// The nearest known sentence, when one is near.
        nearest: Option<&'static str>,
    },
    /// Every word fits, but more are needed.
    #[error("the sentence stops too early{}; say `help` for the list", meant(.nearest))]
    Unfinished {
        /// The nearest known sentence, when one is near.
        nearest: Option<&'static str>,
    },
    /// The sentence is understood, but asks for something that does not exist or is so already.
    #[error("{0}")]
    Cannot(String),
}

/// The end of a message that proposes a sentence.
fn meant(nearest: &Option<&'static str>) -> String {
    nearest.map_or_else(String::new, |sentence| format!(": did you mean `{sentence}`?"))
}

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

/// The forms of a topic: the table that the help prints, the tests go through and `parse` reads.
pub(super) fn forms(topic: Topic) -> &'static [Form] {
    match topic {
        Topic::Looking => looking::FORMS,
        Topic::Air => air::FORMS,
        Topic::Mounting => mounting::FORMS,
        Topic::Manometer => manometer::FORMS,
        Topic::Power => power::FORMS,
        Topic::Flow => flow::FORMS,
        Topic::Recorder => recorder::FORMS,
        Topic::Run => run::FORMS,
        Topic::Writing => writing::FORMS,
        Topic::Reporting => remarks::FORMS,
        Topic::Asking => asking::FORMS,
        Topic::All => &[],
    }
}
