//! What is said about a sentence that asks for nothing.

use crate::printable::printable;
use crate::prose::sentence;

/// The longest sentence that is read, characters.
pub const LONGEST_SENTENCE: usize = 2000;

/// Why a sentence asks for nothing. The text says what to say instead.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum NotUnderstood {
    /// There were no words.
    #[error("You said nothing. Say `help` for the list of sentences.")]
    Nothing,
    /// The sentence is longer than [`LONGEST_SENTENCE`].
    #[error("That sentence is too long. Use {LONGEST_SENTENCE} characters at most.")]
    TooLong,
    /// A word fits no sentence.
    #[error("`{}` is not understood here.{} Say `help` for the list of sentences.", printable(.word), meant(.nearest))]
    Unknown {
        /// The first word that fits no known sentence.
        word: String,
        /// The nearest known sentence, when one is near.
        nearest: Option<&'static str>,
    },
    /// Every word fits, but more are needed.
    #[error("The sentence stops too early.{} Say `help` for the list of sentences.", meant(.nearest))]
    Unfinished {
        /// The nearest known sentence, when one is near.
        nearest: Option<&'static str>,
    },
    /// The sentence is understood, but asks for something that does not exist or is so already.
    #[error("{}", sentence(.0))]
    Cannot(String),
}

/// The end of a message that proposes a sentence.
fn meant(nearest: &Option<&'static str>) -> String {
    nearest.map_or_else(String::new, |sentence| format!(" Did you mean `{sentence}`?"))
}
