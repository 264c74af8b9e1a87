//! A whole session worked by a scripted operator.

use super::{Observation, Operator, OperatorStep, Thought};
use crate::session::journal::SinkError;
use crate::session::{ActError, Session};
use crate::time::{TICKS_PER_SECOND, Tick};

/// After this many steps the operator is taken to have lost its way.
const MOST_STEPS: u32 = 5_000;
/// Shorter pauses get no line of their own in the journal, s.
const WORTH_A_LINE_S: f64 = 4.5;

/// Why a rehearsal did not reach its end.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RehearseError {
    /// The journal could not be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
    /// The operator never came to an end.
    #[error(
        "the scripted operator took {MOST_STEPS} steps without signing the field book: please \
         report this fault with the scenario and the seed"
    )]
    Lost,
    /// The operator stopped without signing.
    #[error(
        "the scripted operator stopped without signing the field book or leaving the roof: please \
         report this fault with the scenario and the seed"
    )]
    Unsigned,
}

/// Lets an operator work a whole session, to its signature or to the end of its time.
///
/// The operator is told which of its actions were refused, and may try something else.
///
/// # Errors
///
/// If the journal cannot be written, or if the operator never comes to an end.
pub fn rehearse(session: &mut Session, operator: &mut dyn Operator) -> Result<(), RehearseError> {
    rehearse_explained(session, operator, &mut |_, _| {})
}

/// As [`rehearse`]; `explained` receives each thought of the operator with the tick at which it came.
/// The session is the same to the last bit.
///
/// # Errors
///
/// As [`rehearse`].
pub fn rehearse_explained(
    session: &mut Session,
    operator: &mut dyn Operator,
    explained: &mut dyn FnMut(Tick, Thought),
) -> Result<(), RehearseError> {
    match work(session, operator, explained)? {
        Stopped::Ended => Ok(()),
        Stopped::HasFinished => Err(RehearseError::Unsigned),
    }
}

/// Why an operator stopped.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Stopped {
    /// The session has ended.
    Ended,
    /// The operator has nothing more to do.
    HasFinished,
}

/// Lets an operator work until it has nothing more to do, or the session has ended.
pub(super) fn work(
    session: &mut Session,
    operator: &mut dyn Operator,
    explained: &mut dyn FnMut(Tick, Thought),
) -> Result<Stopped, RehearseError> {
    for _ in 0..MOST_STEPS {
        if session.ended().is_some() {
            return Ok(Stopped::Ended);
        }
        let view = session.view();
        let observed = Observation { view: &view, book: session.book(), papers: session.papers() };
        let step = operator.next(&observed);
        operator.thoughts().into_iter().for_each(|thought| explained(view.tick, thought));
        match step {
            OperatorStep::Do(action) => match session.act(action.clone()) {
                Ok(()) => back_from_run(session)?,
                Err(ActError::Refused(refusal)) => operator.refused(&action, &refusal.to_string()),
                Err(ActError::Sink(error)) => return Err(error.into()),
                Err(ActError::Ended) => return Ok(Stopped::Ended),
            },
            OperatorStep::FinishHands => session.finish_hands()?,
            OperatorStep::Wait(seconds) => wait(session, seconds)?,
            OperatorStep::Done => return Ok(Stopped::HasFinished),
        }
    }
    Err(RehearseError::Lost)
}

/// Lets the unattended run pass, if the operator has left the site for it.
fn back_from_run(session: &mut Session) -> Result<(), RehearseError> {
    match session.come_back() {
        Err(ActError::Sink(error)) => Err(error.into()),
        Ok(()) | Err(ActError::Ended | ActError::Refused(_)) => Ok(()),
    }
}

/// Lets time pass. A longer pause is written to the journal.
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
