//! Having a session from a list of deeds, and what is made of it.

use std::collections::BTreeMap;

use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::time::Tick;

use super::variants::Step;

/// What is made of a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// How often each rule is broken.
    pub broken: BTreeMap<&'static str, usize>,
    /// The marks, percent of those that could be given.
    pub percent: f64,
    /// Of how many points.
    pub of: f64,
    /// Whether it is passed.
    pub passed: bool,
}

impl Verdict {
    /// The verdict on a session.
    pub fn of(session: &EndedSession) -> Self {
        let marks = mark(&session.evidence());
        let mut broken = BTreeMap::new();
        for finding in &marks.findings {
            *broken.entry(finding.rule).or_default() += 1;
        }
        Self { broken, percent: marks.percent(), of: marks.of, passed: marks.passed }
    }

    /// Whether this verdict is worse than that on the careful session, in whatever way.
    pub fn is_worse_than(&self, careful: &Self) -> bool {
        let more = |(rule, count): (&&str, &usize)| careful.broken.get(rule).unwrap_or(&0) < count;
        self.percent < careful.percent - 1e-9
            || self.of < careful.of - 1e-9
            || (careful.passed && !self.passed)
            || self.broken.iter().any(more)
    }
}

/// What the careful operator does in a scenario.
pub fn careful(text: &str, seed: u64) -> Vec<Step> {
    let mut session = Session::begin_unrecorded(text, seed).expect("a sound scenario");
    let mut operator = by_name("careful", seed).expect("an operator");
    rehearse(&mut session, operator.as_mut()).expect("a whole session");
    let ended = session.open().expect("it has ended");
    // Waiting is no deed: every deed has its time.
    let deeds = ended.events.iter().filter(|event| !matches!(event.action, Action::Wait { .. }));
    deeds.map(|event| (event.tick, event.action.clone())).collect()
}

/// Has a session. What is refused is left out, as it is by anybody.
pub fn play(text: &str, seed: u64, steps: &[Step]) -> EndedSession {
    let mut session = Session::begin_unrecorded(text, seed).expect("a sound scenario");
    for (Tick(tick), action) in steps {
        let Tick(now) = session.now();
        session.advance(tick.saturating_sub(now)).expect("nothing is written");
        let leaves = *action == Action::LeaveSite;
        let done = session.act(action.clone());
        if leaves && done.is_ok() {
            let _back = session.come_back();
        }
    }
    if session.ended().is_none() {
        let _signed = session.act(Action::Sign);
    }
    session.open().expect("it has ended")
}
