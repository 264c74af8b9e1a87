//! A report of something wrong, as the trainee puts it into the record.

use serde::{Deserialize, Serialize};

use super::sight::Sight;
use crate::fault::{FaultKind, FaultPlace, Response};

/// A report of something wrong.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub struct FaultReport {
    /// Where it is.
    pub place: FaultPlace,
    /// What is suspected.
    pub cause: SuspectedCause,
    /// What was seen, heard or felt, in the trainee's words.
    #[serde(default)]
    pub seen: String,
    /// The looks on which the report rests, if the trainee names them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub shown_by: Vec<Sight>,
    /// What was done about it.
    pub response: Response,
}

/// What a report takes for the cause.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum SuspectedCause {
    /// One of the things that can be wrong there.
    Known(FaultKind),
    /// Something is wrong there, but it is not yet known what.
    NotKnownYet,
    /// Something that is not among them, in the trainee's words.
    SomethingElse(String),
}

impl SuspectedCause {
    /// The cause in words.
    pub fn words(&self) -> &str {
        match self {
            Self::Known(kind) => kind.sheet().title,
            Self::NotKnownYet => "not known yet",
            Self::SomethingElse(words) => words,
        }
    }
}

impl FaultReport {
    /// The cause and what was seen, in words.
    pub fn words(&self) -> String {
        match (self.cause.words(), self.seen.trim()) {
            (cause, "") => cause.to_owned(),
            (cause, seen) => format!("{cause}: {seen}"),
        }
    }
}
