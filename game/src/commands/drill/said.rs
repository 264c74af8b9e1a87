//! What a line of input comes to, in whichever form it is written.

use words::drill::DrillRequest;

/// What a line of input comes to.
pub(super) enum Said {
    /// Something about the question.
    Request(DrillRequest),
    /// It was not understood, and why.
    NotUnderstood(String),
}
