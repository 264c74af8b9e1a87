//! A line of a script, as a sentence or as JSON, made into steps of a session.

use sessions::{LiveSession, action_from_json};
use sim_core::session::ActError;
use sim_core::session::action::Action;

use super::parse::parse;
use super::printable::printable;
use super::request::Request;

/// One step of a session.
#[derive(Debug, Clone, PartialEq)]
pub enum Step {
    /// An action.
    Do(Action),
    /// A wait, s.
    Wait(f64),
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
        }
    }
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
        Request::Do(actions) => Ok(actions.into_iter().map(Step::Do).collect()),
        Request::Wait(seconds) => Ok(vec![Step::Wait(seconds)]),
        Request::Help(_) | Request::Book | Request::Again | Request::Quit => {
            let line = printable(line);
            Err(format!("`{line}` cannot be used in a script: remove it"))
        }
    }
}
