//! A copy of a session on which a step is demonstrated.

use super::action::Action;
use super::active_session::Session;
use super::apply::Refusal;
use super::error::ActError;
use super::journal::Writer;
use super::view::View;
use crate::time::{TICKS_PER_SECOND, Tick};

/// The longest time that passes on a copy, ticks: enough to see water and pen move, too little to
/// look ahead (CHOSEN).
const MOST_TICKS: u64 = 60 * TICKS_PER_SECOND;

/// A copy of a session on which a step is demonstrated. What is done on it is not done in the
/// session. It writes no journal, and it can be neither signed nor opened, so that it reveals no
/// truth.
#[derive(Debug)]
pub struct Preview {
    session: Session,
    left: u64,
}

impl Session {
    /// A copy of the session as it is now, to demonstrate a step on. The session is not touched.
    pub fn preview(&self) -> Preview {
        let session = Self {
            setup: self.setup.clone(),
            scenario: self.scenario.clone(),
            writer: Writer::unrecorded(),
            state: self.state.clone(),
            now: self.now,
            deeds: self.deeds.clone(),
            owed: None,
            events: Vec::new(),
            clock: Vec::new(),
            ended: self.ended,
            judgement: None,
            lesson: self.lesson,
        };
        Preview { session, left: MOST_TICKS }
    }
}

impl Preview {
    /// Does one action on the copy.
    ///
    /// # Errors
    ///
    /// When it cannot be done on the copy at the moment. Actions that end a session are never
    /// demonstrated.
    pub fn act(&mut self, action: Action) -> Result<(), ActError> {
        if matches!(action, Action::Sign | Action::LeaveRoof) {
            let why = "what ends a session is not demonstrated: do it yourself when you are ready";
            return Err(Refusal(why.to_owned()).into());
        }
        // Time also passes while the hands are still busy with what was demonstrated before.
        let busy = self.session.busy_until().0.saturating_sub(self.session.now.0);
        if busy > self.left {
            let why = "the demonstration has taken its time: go on by yourself";
            return Err(Refusal(why.to_owned()).into());
        }
        let before = self.session.now;
        let done = self.session.act(action);
        self.left -= self.session.now.0.saturating_sub(before.0).min(self.left);
        done
    }

    /// Lets time pass on the copy, one minute at most altogether; then it stands still.
    pub fn advance(&mut self, ticks: u64) {
        let ticks = ticks.min(self.left);
        self.left -= ticks;
        // Nothing is written, so writing cannot fail.
        let _ = self.session.advance(ticks);
    }

    /// What can be seen on the copy now.
    pub fn view(&self) -> View {
        self.session.view()
    }

    /// The copy's current tick.
    pub const fn now(&self) -> Tick {
        self.session.now()
    }
}

#[cfg(test)]
mod tests {
    use super::super::journal::NullSink;
    use super::*;

    const SCENARIO: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    #[test]
    fn what_is_shown_is_not_done() {
        let mut session = Session::begin(SCENARIO, 1, Box::new(NullSink)).unwrap();
        session.advance(95).unwrap();
        let (before, head) = (session.digest(), session.seal().0);
        let mut copy = session.preview();
        assert_eq!(copy.view(), session.view());
        copy.act(Action::OpenLid).unwrap();
        copy.advance(40);
        assert!(copy.view().mounting.lid_open);
        assert_eq!(copy.now().0, session.now().0 + 40);
        assert_eq!(session.digest(), before);
        assert_eq!(session.seal().0, head);
        assert!(!session.view().mounting.lid_open && session.done().next().is_none());
    }

    #[test]
    fn a_copy_neither_ends_nor_looks_far_ahead() {
        let session = Session::begin(SCENARIO, 1, Box::new(NullSink)).unwrap();
        let mut copy = session.preview();
        for ending in [Action::Sign, Action::LeaveRoof] {
            assert!(matches!(copy.act(ending), Err(ActError::Refused(_))));
        }
        copy.advance(u64::MAX);
        copy.advance(20);
        assert_eq!(copy.now(), Tick(MOST_TICKS));
    }
}
