//! Why a session cannot begin, and why an action was not done.

use super::apply::Refusal;
use super::journal::SinkError;
use crate::scenario::ScenarioProblem;
use crate::scenario::build::BuildError;

/// Why a session could not begin.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BeginError {
    /// The scenario has problems.
    #[error("problems found in the scenario: {}; the first: {}", .0.len(), .0.first().map(ToString::to_string).unwrap_or_default())]
    Scenario(Vec<ScenarioProblem>),
    /// The scenario is a lesson, whose beginning has to be reached first.
    #[error(
        "this scenario is a lesson: begin it where the careful operator prepares it (`operator::begin`)"
    )]
    IsLesson,
    /// The careful operator did not reach the beginning of the lesson.
    #[error(
        "the lesson cannot begin with this seed: {0}. Begin it at an earlier phase, or leave out what stops \
         the careful operator before it"
    )]
    NotReached(String),
    /// No bench can be built from the numbers that were drawn.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
}

/// Why an action was not done. Nothing has changed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ActError {
    /// It cannot be done at the moment.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
    /// The session is over.
    #[error("the session has ended: nothing more can be done in it")]
    Ended,
}
