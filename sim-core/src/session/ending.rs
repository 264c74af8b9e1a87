//! How a session ends.

use serde::{Deserialize, Serialize};

/// How a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ending {
    /// The field book was signed.
    Signed,
    /// The time limit ran out: what was written by then is what counts.
    TimeOut,
    /// The trainee left the roof.
    LeftRoof,
    /// A value was no longer finite: the journal is sealed, and the session cannot be marked.
    Broken,
}
