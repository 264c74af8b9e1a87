//! What a command came to, as its exit status says it.

/// What a command came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It did its work and the answer is yes: exit status 0.
    Done,
    /// It did its work and the answer is no (a broken scenario, not passed): exit status 1.
    Negative,
}
