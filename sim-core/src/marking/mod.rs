//! Truth, marks, and findings: what a signed session is worth, and why.
//!
//! Six parts with weights from the scenario. Two things stand above the sum: a critical finding of
//! safety, and a decisive finding of data; either makes the result `not yet`. Why a rule decides is
//! said at [`crate::procedure`].

pub mod compared;
pub mod cost;
mod fit;
pub mod judgement;
mod marks;
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
