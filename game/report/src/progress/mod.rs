//! Over a person's sessions: marks by part, rules that keep being broken, reading errors in
//! divisions, and what to practise next and why.

pub mod advice;
pub mod lesson;
pub mod overview;
pub mod page;
pub mod phrases;
pub mod plots;
pub mod recent;
pub mod rule_counts;
pub mod session;
pub mod terminal;
mod utc;

pub use advice::{PracticeAdvice, PracticeTopic};
pub use lesson::{Lessons, ScenarioLesson};
pub use overview::{LeftOut, Progress};
pub use rule_counts::RuleCount;
pub use session::SessionSummary;
