//! A line of a script, as a sentence or as JSON, made into steps of a session.

use sessions::{LiveSession, action_from_json};
use sim_core::session::ActError;
use sim_core::session::action::Action;

use super::moves::at_rest;
use super::parse::parse;
use super::printable::printable;
use super::request::{Request, Settling};

/// The longest wait for something to come to rest, s.
const LONGEST_SETTLING_S: u32 = 120;

/// One step of a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// An action.
    Do(Action),
    /// A wait, s.
    Wait(f64),
    /// A wait until something has come to rest.
    Settle(Settling),
}

impl Step {
    /// Takes the step.
    ///
    /// # Errors
    ///
    /// As [`LiveSession::act`].
    pub fn take(self, session: &mut dyn LiveSession) -> Result<(), ActError> {
        match self {
            Self::Do(Action::Wait { seconds }) | Self::Wait(seconds) => session.wait(seconds),
            Self::Do(Action::LeaveSite) => session.leave_site(),
            Self::Do(action) => session.act(action),
            Self::Settle(settling) => settle(session, settling).map(|_| ()),
        }
    }
}

/// Waits until something has come to rest, second by second; `false` where it has not after two
/// minutes.
///
/// # Errors
///
/// As [`LiveSession::wait`].
pub(crate) fn settle(session: &mut dyn LiveSession, settling: Settling) -> Result<bool, ActError> {
    // One second at least: what was just changed may not have begun to move.
    for _ in 0..LONGEST_SETTLING_S {
        session.wait(1.0)?;
        if at_rest(&session.view(), settling) {
            return Ok(true);
        }
    }
    Ok(false)
}

/// The steps that a line asks for.
///
/// # Errors
///
/// When it is no action and no sentence, or a sentence that only a person in a talk can use.
pub fn steps(session: &dyn LiveSession, line: &str) -> Result<Vec<Step>, String> {
    if line.starts_with(['{', '"']) {
        return action_from_json(line).map(|action| vec![Step::Do(action)]);
    }
    match parse(line, &session.view(), session.book()).map_err(|error| error.to_string())? {
        // Nobody answers a question in a script: `sign` signs, with or without `anyway`.
        Request::Do(actions) | Request::Anyway(actions) => {
            Ok(actions.into_iter().map(Step::Do).collect())
        }
        Request::Wait(seconds) => Ok(vec![Step::Wait(seconds)]),
        Request::Settle(settling) => Ok(vec![Step::Settle(settling)]),
        Request::Undone
        | Request::Help(_)
        | Request::Book
        | Request::Checklist
        | Request::History
        | Request::Again
        | Request::Quit => {
            let line = printable(line);
            Err(format!("`{line}` cannot be used in a script: remove it"))
        }
    }
}
