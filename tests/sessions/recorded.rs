//! Sessions by scripted operators with their journals, and going on with a journal that was cut.

use std::sync::{Arc, Mutex};

use sessions::mark_ended;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::journal::{self, JournalLine, JournalSink, SinkError};
use sim_core::time::Tick;

/// A session that has ended.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    /// Its journal.
    pub journal: String,
    /// The checksum of its last state.
    pub digest: String,
    /// The head of its chain.
    pub head: String,
    /// Its marks, every bit of them.
    pub marks: String,
}

/// Ink that can be read while it is written.
#[derive(Debug, Clone, Default)]
pub struct Paper(Arc<Mutex<String>>);

impl Paper {
    /// What stands on it.
    pub fn text(&self) -> String {
        self.0.lock().expect("no writer panicked").clone()
    }
}

impl JournalSink for Paper {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        let mut text = self.0.lock().expect("no writer panicked");
        text.push_str(line);
        text.push('\n');
        Ok(())
    }
}

/// The text of one of the repository's scenarios.
pub fn scenario(name: &str) -> String {
    std::fs::read_to_string(bench_tests::repository().join("scenarios").join(name)).unwrap()
}

/// A whole session of a scenario's text by an operator.
pub fn rehearsed(text: &str, operator: &str, seed: u64) -> Recorded {
    let paper = Paper::default();
    let mut session = Session::begin(text, seed, Box::new(paper.clone())).unwrap();
    rehearse(&mut session, by_name(operator, seed).unwrap().as_mut()).unwrap();
    recorded(session, paper.text())
}

/// A session that has ended, with the journal that it wrote.
pub fn recorded(session: Session, journal: String) -> Recorded {
    let digest = session.digest();
    let ended = mark_ended(session).unwrap();
    let marks = serde_json::to_string(&ended.marks).unwrap();
    Recorded { journal, digest, head: ended.head, marks }
}

/// Every action of a journal, with its tick.
pub fn actions(journal: &str) -> Vec<(Tick, Action)> {
    let lines = journal::read(journal).unwrap().lines;
    let act = |(_, line)| match line {
        JournalLine::Act { tick, action } => Some((tick, action)),
        _ => None,
    };
    lines.into_iter().filter_map(act).collect()
}

/// The tick at which a journal was sealed.
pub fn sealed_at(journal: &str) -> Tick {
    match journal::read(journal).unwrap().lines.pop() {
        Some((_, JournalLine::Sealed { tick, .. })) => tick,
        other => panic!("no seal: {other:?}"),
    }
}

/// Lets time pass up to a tick.
pub fn advance_to(session: &mut Session, tick: Tick) {
    session.advance(tick.0.checked_sub(session.now().0).unwrap()).unwrap();
}
