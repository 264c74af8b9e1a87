//! What can go wrong with a drill.

use crate::session::journal::SinkError;
use crate::text::printable;

/// A question could not be drawn: an error of the program.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the question could not be drawn: {}: please report this with kind, seed and number", printable(.0))]
pub struct DrawError(String);

impl DrawError {
    pub(super) fn new(why: impl ToString) -> Self {
        Self(why.to_string())
    }
}

/// Why something could not be done in a drill. Nothing has changed then.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DrillError {
    /// The journal could not be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
    /// The next question could not be drawn.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// It cannot be done with this question.
    #[error("{0}")]
    Refused(String),
}
