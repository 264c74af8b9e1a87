//! How a session ends.

use serde::{Deserialize, Serialize};

/// How a session ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ending {
    /// The field book was signed.
    Signed,
    /// The time limit ran out: what was written then is what counts.
    TimeOut,
    /// The trainee left the roof.
    LeftRoof,
    /// A value stopped being finite: the journal is sealed, and there is no mark.
    Broken,
}
