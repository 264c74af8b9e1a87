//! What of a session belongs to a lesson: its phases, and what was done in it.

use super::evidence::Evidence;
use super::outcome::Outcome;
use super::rule::{ProcedureRule, Severity, WorkPhase};
use crate::scenario::lesson::{LessonPhase, LessonPhases};
use crate::session::LessonBegan;
use crate::time::Tick;

/// Rules that hold in every lesson, whichever phases it has: nobody may scatter reports, leave the book
/// unsigned, or leave out of it what the lesson is judged by.
const OF_EVERY_LESSON: [&str; 3] = ["false-alarms", "book-signed", "record-judgeable"];

/// A lesson: its phases, and where it began.
#[derive(Debug, Clone, Copy)]
pub struct Lesson {
    /// The phases.
    pub phases: LessonPhases,
    /// Where it began.
    pub began: LessonBegan,
}

impl Evidence<'_> {
    /// The lesson, if the session is one.
    pub fn lesson(&self) -> Option<Lesson> {
        Some(Lesson { phases: self.setup.terms.phases?, began: self.lesson? })
    }

    /// Whether a phase of the work is assessed: in a lesson, only its own are.
    pub fn assesses(&self, phase: LessonPhase) -> bool {
        self.lesson().is_none_or(|lesson| lesson.phases.has(phase))
    }

    /// Whether something that was done then is the trainee's: in a lesson, what came before it is not.
    pub fn is_trainees(&self, tick: Tick) -> bool {
        self.lesson().is_none_or(|lesson| tick >= lesson.began.tick)
    }
}

/// Whether a rule is assessed in a lesson with these phases: one of its phases, or one that holds in
/// every lesson. What endangers people is never left out.
pub fn has_rule(phases: LessonPhases, rule: &ProcedureRule) -> bool {
    phases.has(phase_of(rule)) || is_of_safety(rule) || OF_EVERY_LESSON.contains(&rule.id)
}

impl Lesson {
    /// The outcome of a rule in the lesson: slips that were made before it are not the trainee's.
    pub(super) fn only_here(self, outcome: Outcome) -> Outcome {
        match outcome {
            Outcome::Broken(slips) => {
                Outcome::reached(slips.into_iter().filter(|slip| slip.tick >= self.began.tick))
            }
            outcome => outcome,
        }
    }
}

/// Whether a rule is about the safety of people.
const fn is_of_safety(rule: &ProcedureRule) -> bool {
    matches!(rule.severity, Severity::Critical | Severity::Safety)
}

/// Rules on the air of the calibration, which is read while the blower warms up.
const OF_THE_AIR: [&str; 4] =
    ["station-pressure", "thermometer-shaded", "conditions-as-read", "conditions-written"];

/// The phase of lessons to which a rule belongs.
pub fn phase_of(rule: &ProcedureRule) -> LessonPhase {
    match rule.phase {
        WorkPhase::Arrive if OF_THE_AIR.contains(&rule.id) => LessonPhase::Power,
        WorkPhase::Arrive => LessonPhase::Arrival,
        WorkPhase::Strip => LessonPhase::Mounting,
        WorkPhase::Manometer => LessonPhase::Manometer,
        WorkPhase::Power => LessonPhase::Power,
        WorkPhase::Points => LessonPhase::Points,
        WorkPhase::Restore => LessonPhase::Restoring,
        WorkPhase::Sums | WorkPhase::SetPoint => LessonPhase::Calculations,
        WorkPhase::Check => LessonPhase::FlowCheck,
        WorkPhase::Load => LessonPhase::SettingUp,
        WorkPhase::Recover => LessonPhase::Recovery,
        WorkPhase::Volume => LessonPhase::Volume,
    }
}
