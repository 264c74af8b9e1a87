//! Truth, marks and findings: what a session is worth after it has ended, and why.
//!
//! There are six parts with weights from the scenario. Two things override the sum: a critical
//! finding of safety, and a decisive finding of data; either makes the result `not yet`.
//! [`crate::procedure`] explains why a rule decides.

pub mod added_filters;
pub mod compared;
pub mod cost;
mod fit;
pub mod judgement;
mod marks;
pub mod own_judgement;
mod part_score;
pub mod readings;
mod record;
mod remedied;
mod rules_kept;
mod scoring;
pub mod time_line;
pub mod truth;

#[cfg(test)]
mod marking_tests;

pub use crate::procedure::TrueResponse;
pub use crate::session::ground_truth::SampleTruth;
pub use judgement::{FaultJudged, FaultVerdict};
pub use marks::{MarkPart, MarkPartName, Marks, RunJudged, Standing};
pub use readings::ReadingJudged;
pub use scoring::mark;
