//! A whole session by an operator.

use super::{Observation, Operator, OperatorStep};
use crate::session::journal::SinkError;
use crate::session::{ActError, Session};
use crate::time::TICKS_PER_SECOND;

/// Steps after which an operator is taken for lost.
const MOST_STEPS: u32 = 5_000;
/// Shorter pauses are hands at work, and need no line of their own in the journal, s.
const WORTH_A_LINE_S: f64 = 4.5;

/// A rehearsal did not reach its end.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RehearseError {
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
    /// The operator went on for ever.
    #[error("the operator took {MOST_STEPS} steps without signing: report this scenario and seed")]
    Lost,
    /// The operator stopped without signing.
    #[error("the operator stopped without signing the field book or leaving the roof")]
    Unsigned,
}

/// Lets an operator do a whole session, to its signature or to the end of its time.
///
/// What cannot be done is told to the operator, which may think of something else.
///
/// # Errors
///
/// When the journal cannot be written, or the operator comes to no end.
pub fn rehearse(session: &mut Session, operator: &mut dyn Operator) -> Result<(), RehearseError> {
    for _ in 0..MOST_STEPS {
        if session.ended().is_some() {
            return Ok(());
        }
        let view = session.view();
        let observed = Observation { view: &view, book: session.book(), papers: session.papers() };
        match operator.next(&observed) {
            OperatorStep::Do(action) => match session.act(action.clone()) {
                Ok(()) => back_from_run(session)?,
                Err(ActError::Refused(refusal)) => operator.refused(&action, &refusal.to_string()),
                Err(ActError::Sink(error)) => return Err(error.into()),
                Err(ActError::Ended) => return Ok(()),
            },
            OperatorStep::Wait(seconds) => wait(session, seconds)?,
            OperatorStep::Done => return Err(RehearseError::Unsigned),
        }
    }
    Err(RehearseError::Lost)
}

/// Lets the run go by, if the site was left to it.
fn back_from_run(session: &mut Session) -> Result<(), RehearseError> {
    match session.come_back() {
        Err(ActError::Sink(error)) => Err(error.into()),
        Ok(()) | Err(ActError::Ended | ActError::Refused(_)) => Ok(()),
    }
}

/// Lets time pass; a pause of some length stands in the journal.
fn wait(session: &mut Session, seconds: f64) -> Result<(), RehearseError> {
    if seconds < WORTH_A_LINE_S {
        let ticks = (seconds.max(0.0) * TICKS_PER_SECOND as f64).round() as u64;
        return Ok(session.advance(ticks)?);
    }
    match session.wait(seconds.min(7200.0)) {
        Ok(()) | Err(ActError::Ended | ActError::Refused(_)) => Ok(()),
        Err(ActError::Sink(error)) => Err(error.into()),
    }
}
