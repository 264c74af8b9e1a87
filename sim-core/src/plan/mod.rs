//! Lesson plans: what a trainer has a person practise, in which order, what it takes to go on, and what
//! is due again after a while.
//!
//! ```text
//! text -> check -> LessonPlan --.
//! journals -> Practice ---------+-> PlanStanding -> what is done, what is due, the next step
//! ```
//!
//! A plan names drills and scenario files; it holds no scenario itself. Whoever reads one hands in which
//! files are at hand. No clock is read here: the moment for which something is due is handed in as well.

pub mod check;
mod files;
pub mod practice;
mod rules;
pub mod spacing;
mod standing;
mod written;

#[cfg(test)]
mod standing_tests;

pub use check::check;
pub use files::{FileState, FilesAtHand, NamedFile};
pub use practice::{Practice, Practised, drill_practice};
pub use standing::{DueAgain, NextStep, PlanStanding, StepStanding, StepState};
pub use written::{LessonPlan, PLAN_FORMAT, PlanStep, StepKind, Until};
