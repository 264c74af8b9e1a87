//! What is said about a sentence that asks for nothing.

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
