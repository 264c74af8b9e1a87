//! Wall-clock times of a session: when it was begun, left, resumed and ended. The core reads no
//! clock; a front end that has one passes its time in.

use serde::{Deserialize, Serialize};

use crate::time::Tick;

/// What happened when the clock was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Clocked", rename_all = "snake_case")]
pub enum ClockEvent {
    /// The session was begun.
    Begun,
    /// The bench was left with the session unfinished: bench time stands still from here on.
    Left,
    /// The session was resumed.
    Resumed,
    /// The session has ended.
    Ended,
}

/// The wall clock at one moment. It changes nothing on the bench.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ClockNote {
    /// Bench time.
    pub tick: Tick,
    /// What happened.
    pub what: ClockEvent,
    /// The wall clock, seconds since 1970-01-01 00:00 UTC.
    pub unix_s: u64,
    /// Why, in words.
    pub why: String,
}

/// How long each pause lasted, seconds, from notes in their order. `None` stands for a pause of
/// unknown length: nobody recorded that the bench was left, as when the power failed.
pub fn pauses(notes: &[ClockNote]) -> Vec<Option<u64>> {
    let mut left: Option<u64> = None;
    let mut pauses = Vec::new();
    for note in notes {
        match note.what {
            ClockEvent::Left => left = Some(note.unix_s),
            ClockEvent::Resumed => {
                pauses.push(left.take().map(|left| note.unix_s.saturating_sub(left)));
            }
            ClockEvent::Begun | ClockEvent::Ended => {}
        }
    }
    pauses
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::session::Session;
    use crate::session::action::Action;
    use crate::session::journal::{JournalSink, SinkError};
    use crate::session::replay::replay;
    use std::sync::{Arc, Mutex};

    const SCENARIO: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    #[derive(Clone, Default)]
    struct Paper(Arc<Mutex<String>>);

    impl JournalSink for Paper {
        fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
            let mut text = self.0.lock().unwrap();
            text.push_str(line);
            text.push('\n');
            Ok(())
        }
    }

    #[test]
    fn the_clock_stands_in_the_journal_and_changes_nothing_else() {
        let paper = Paper::default();
        let mut session = Session::begin(SCENARIO, 1, Box::new(paper.clone())).unwrap();
        session.note_clock(ClockEvent::Begun, 1_000, "begun").unwrap();
        session.advance(30).unwrap();
        let before = session.digest();
        session.note_clock(ClockEvent::Left, 1_100, "the window was closed").unwrap();
        session.note_clock(ClockEvent::Resumed, 1_160, "gone on with").unwrap();
        assert_eq!(session.digest(), before);
        session.act(Action::Sign).unwrap();
        session.note_clock(ClockEvent::Ended, 1_200, "signed").unwrap();
        let text = paper.0.lock().unwrap().clone();
        let again = replay(&text, Box::new(crate::session::journal::NullSink)).unwrap().session;
        assert_eq!(again.clock(), session.clock());
        assert_eq!(again.seal().0, session.seal().0, "the head is that of the last line");
        assert_eq!(pauses(again.clock()), [Some(60)]);
        assert_eq!(again.open().unwrap().clock.len(), 4);
    }

    #[test]
    fn a_pause_that_nobody_announced_is_a_pause_of_unknown_length() {
        let note = |what, unix_s| ClockNote { tick: Tick(0), what, unix_s, why: String::new() };
        let notes = [note(ClockEvent::Begun, 0), note(ClockEvent::Resumed, 90)];
        assert_eq!(pauses(&notes), [None]);
        assert!(pauses(&[]).is_empty());
    }
}
