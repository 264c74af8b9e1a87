//! Over a person's sessions: marks by part, rules that keep being broken, reading errors in
//! divisions, and what to practise next and why.

pub mod advice;
pub mod calibration;
pub mod calibration_plot;
pub mod lesson;
pub mod overview;
pub mod page;
pub mod phrases;
pub mod plan;
pub mod plots;
pub mod recent;
pub mod rule_counts;
pub mod session;
pub mod terminal;
mod utc;

pub use advice::{PracticeAdvice, PracticeTopic};
pub use calibration::JudgementCalibration;
pub use lesson::{Lessons, ScenarioLesson};
pub use overview::{LeftOut, Progress};
pub use plan::{DrillRow, NextAction, PlanProgress, StepFacts};
pub use rule_counts::RuleCount;
pub use session::SessionSummary;
