//! A session that has ended: the only way to the truth. Marking and debrief take this type.

use super::clock::ClockNote;
use super::ending::Ending;
use super::ground_truth::{EventRecord, GroundTruth};
use super::lesson_began::LessonBegan;
use super::next_reading::NextReading;
use super::own_judgement::OwnJudgement;
use super::source::SessionSource;
use crate::field_book::FieldBook;
use crate::rig::Rig;
use crate::scenario::setup::Setup;
use crate::time::Tick;

/// A session that has ended, with its truth.
#[derive(Debug, Clone)]
pub struct EndedSession {
    /// The bench it ran on.
    pub setup: Setup,
    /// What it takes to replay it.
    pub source: SessionSource,
    /// Every action, and what was true when it was done.
    pub events: Vec<EventRecord>,
    /// What the wall clock showed, where a front end recorded it.
    pub clock: Vec<ClockNote>,
    /// What the trainee said of the work before any truth was shown.
    pub judgement: Option<OwnJudgement>,
    /// What the trainee wrote.
    pub book: FieldBook,
    /// What was true at the end.
    pub end: GroundTruth,
    /// When it ended.
    pub end_tick: Tick,
    /// How it ended.
    pub ended: Ending,
    /// Head of the journal's chain, sixty-four hexadecimal digits.
    pub head: String,
    /// The rig as it stood at the end.
    pub rig: Rig,
    /// Where the lesson began, if it was one.
    pub lesson: Option<LessonBegan>,
    /// The reading that would come next, where a lesson ends before the points.
    pub next_reading: Option<NextReading>,
}
