//! Where a session comes from.

use crate::scenario::Drawn;

/// Where a session comes from: what it takes to replay it.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionSource {
    /// The scenario as the trainer wrote it.
    pub text: String,
    /// SHA-256 of that text.
    pub sha256: String,
    /// The seed.
    pub seed: u64,
    /// The values drawn.
    pub drawn: Drawn,
}
