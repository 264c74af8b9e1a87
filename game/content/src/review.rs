//! Going through a session that has ended: the moment that is shown, and how to reach others.

use sim_core::marking::Marks;
use sim_core::marking::time_line::{TimeLine, TimeScale};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::history::{History, Snapshot};
use sim_core::time::{Tick, TimeOfDay};

use super::names::phase_name;

/// A session under review, at one of its moments.
#[derive(Debug)]
pub struct SessionReview {
    track: History,
    line: TimeLine,
    scale: TimeScale,
    start: TimeOfDay,
    at: Tick,
    glimpse: Snapshot,
}

impl SessionReview {
    /// A session with its marks, at the first mark on its timeline.
    pub fn of(session: &EndedSession, marks: &Marks) -> Self {
        let track = History::of(session);
        let line = TimeLine::of(&session.evidence(), marks);
        let scale = TimeScale::of(&line);
        let at = line.notes.first().map_or(Tick(0), |note| note.tick);
        let glimpse = track.at(at);
        Self { track, line, scale, start: session.setup.station.start, at, glimpse }
    }

    /// Goes to a tick, or to the end if that is earlier.
    pub fn go(&mut self, tick: Tick) {
        let tick = tick.min(self.track.end());
        if tick != self.at {
            self.at = tick;
            self.glimpse = self.track.at(tick);
        }
    }

    /// Goes forward by so many ticks, or back.
    pub fn by(&mut self, ticks: i64) {
        self.go(Tick(self.at.0.saturating_add_signed(ticks)));
    }

    /// Goes to the next mark of the timeline, if there is one.
    pub fn next(&mut self) {
        if let Some(note) = self.line.notes.iter().find(|note| note.tick > self.at) {
            self.go(note.tick);
        }
    }

    /// Goes to the mark before, if there is one.
    pub fn previous(&mut self) {
        if let Some(note) = self.line.notes.iter().rfind(|note| note.tick < self.at) {
            self.go(note.tick);
        }
    }

    /// The tick that is shown.
    pub const fn at(&self) -> Tick {
        self.at
    }

    /// What could be seen then, and what was true.
    pub const fn glimpse(&self) -> &Snapshot {
        &self.glimpse
    }

    /// The timeline.
    pub const fn line(&self) -> &TimeLine {
        &self.line
    }

    /// Where moments lie along the timeline.
    pub const fn scale(&self) -> &TimeScale {
        &self.scale
    }

    /// The session as it was replayed.
    pub const fn track(&self) -> &History {
        &self.track
    }

    /// The time of day at which it began.
    pub const fn start(&self) -> TimeOfDay {
        self.start
    }

    /// The moment in words: the time, and the phase of the work.
    pub fn words(&self) -> String {
        let time = self.start.after(self.at);
        match self.line.phase_at(self.at) {
            Some(phase) => format!("{time}, {}", phase_name(phase)),
            None => time.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use sessions::{MarkedSession, mark_ended};
    use sim_core::operator::{by_name, rehearse};
    use sim_core::session::Session;
    use sim_core::session::journal::NullSink;

    const LEAK: &str = include_str!("../../../scenarios/03_a_new_blower.ron");

    fn ended() -> MarkedSession {
        let mut session = Session::begin(LEAK, 1, Box::new(NullSink)).expect("a session");
        rehearse(&mut session, by_name("careful+one-leg", 1).expect("an operator").as_mut())
            .expect("a rehearsal");
        mark_ended(session).expect("its end")
    }

    #[test]
    fn every_mark_is_reached_in_both_directions() {
        let ended = ended();
        let mut review = SessionReview::of(&ended.session, &ended.marks);
        let mut ticks: Vec<Tick> = review.line().notes.iter().map(|note| note.tick).collect();
        ticks.dedup();
        review.go(Tick(0));
        for tick in &ticks {
            review.next();
            assert_eq!(review.at(), *tick);
            assert_eq!(review.glimpse(), &review.track().at(*tick));
        }
        review.next();
        assert_eq!(Some(&review.at()), ticks.last(), "there is none behind the last");
        for tick in ticks.iter().rev().skip(1) {
            review.previous();
            assert_eq!(review.at(), *tick);
        }
    }

    #[test]
    fn nobody_goes_beyond_the_beginning_or_the_end() {
        let ended = ended();
        let mut review = SessionReview::of(&ended.session, &ended.marks);
        review.by(i64::MIN);
        assert_eq!(review.at(), Tick(0));
        review.by(i64::MAX);
        assert_eq!(review.at(), ended.session.end_tick);
        assert!(review.words().ends_with("calculations") || review.words().ends_with("restore"));
    }
}
