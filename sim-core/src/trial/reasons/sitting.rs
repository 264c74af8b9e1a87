//! One session of a trial with its marks and with what its operator thought.

use crate::marking::{self, FaultJudged, Marks};
use crate::operator::{self, Thought};
use crate::scenario::Scenario;
use crate::session::ended_session::EndedSession;
use crate::session::journal::NullSink;
use crate::time::{Tick, TimeOfDay};

/// A session that came to its end.
#[derive(Debug)]
pub(super) struct Sitting {
    /// The seed.
    pub seed: u64,
    /// The session.
    pub ended: EndedSession,
    /// Its marks.
    pub marks: Marks,
    /// What the operator thought, in order of time.
    pub thoughts: Vec<(Tick, Thought)>,
}

impl Sitting {
    /// The session of an operator in this scenario; nothing if the scenario does not begin, or the
    /// session does not end.
    pub fn of(scenario: &Scenario, operator: &str, seed: u64) -> Option<Self> {
        let text = ron::to_string(scenario).ok()?;
        let mut session = operator::begin(&text, seed, Box::new(NullSink)).ok()?;
        let mut hands = operator::in_session(operator, &session).ok()?;
        let mut thoughts = Vec::new();
        let mut hears = |tick, thought| thoughts.push((tick, thought));
        operator::rehearse_explained(&mut session, hands.as_mut(), &mut hears).ok()?;
        let ended = session.open().ok()?;
        let marks = marking::mark(&ended.evidence());
        Some(Self { seed, ended, marks, thoughts })
    }

    /// The time of day on the bench.
    pub fn time(&self, tick: Tick) -> TimeOfDay {
        self.ended.setup.station.start.after(tick)
    }

    /// What was going on at a moment, and the last thought up to it.
    pub fn thought_at(&self, tick: Tick) -> (String, String) {
        let before = self.thoughts.iter().rev().find(|(at, _)| *at <= tick);
        before.or(self.thoughts.first()).map_or_else(
            || ("arrival".to_owned(), String::new()),
            |(_, thought)| (thought.phase.to_owned(), thought.text.clone()),
        )
    }

    /// The verdict on the fault with this number in the scenario; nothing if it was never in force.
    pub fn judged(&self, scenario: &Scenario, index: usize) -> Option<&FaultJudged> {
        let fault = scenario.faults.get(index)?.fault;
        self.marks.faults.iter().find(|judged| judged.fault == Some(fault))
    }

    /// The marks in percent of what could be given, rounded down to a whole number.
    pub fn whole_percent(&self) -> f64 {
        self.marks.percent().floor()
    }
}
