//! The contents of a time line.

use serde::Serialize;

use crate::procedure::WorkPhase;
use crate::session::action::FaultPlace;
use crate::time::Tick;

/// The time line of a session.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TimeLine {
    /// When the session ended.
    pub end: Tick,
    /// The phases in order of time, from the beginning to the end without a gap. A phase that was
    /// returned to is listed again.
    pub phases: Vec<Span>,
    /// Times when nothing was done.
    pub waits: Vec<Wait>,
    /// What was read, found, reported and decided, in order of time.
    pub notes: Vec<Note>,
}

/// A phase, from its first action to the first action of the next one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Span {
    /// Which.
    pub phase: WorkPhase,
    /// When it began.
    pub from: Tick,
    /// When the next one began, or the session ended.
    pub to: Tick,
}

/// A time when nothing was done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Wait {
    /// When the last thing before it was done.
    pub from: Tick,
    /// When the next thing was done.
    pub to: Tick,
    /// What kind of wait it was.
    pub kind: WaitKind,
}

/// What kind of wait it was.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WaitKind {
    /// Waiting at the station.
    AtStation,
    /// Away from the site during the run.
    Away,
}

/// Something that happened, with its time.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Note {
    /// When.
    pub tick: Tick,
    /// What.
    pub what: NoteKind,
}

/// What a note is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoteKind {
    /// A reading was written: its number among [`readings`](crate::marking::Marks::readings).
    Reading(usize),
    /// A rule was broken: its number among [`findings`](crate::marking::Marks::findings).
    Finding(usize),
    /// Something was reported.
    Remark(FaultPlace),
    /// The decision about the calibration was written.
    Decision,
}

impl TimeLine {
    /// The phase at a tick.
    pub fn phase_at(&self, tick: Tick) -> Option<WorkPhase> {
        let begun = self.phases.partition_point(|span| span.from <= tick);
        begun.checked_sub(1).and_then(|last| self.phases.get(last)).map(|span| span.phase)
    }
}
