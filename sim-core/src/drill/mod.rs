//! Drills: one skill at a time, a question a minute, each answered and judged at once.
//!
//! A question is drawn from a kind, a seed and a number; it is made of the same instruments, papers and
//! views as the bench, and the truth stands apart from what can be seen. A [`DrillResult`] is what came of
//! one question; a [`DrillStandard`] says when a skill is good enough.

mod answer;
pub mod journal;
mod kind;
mod result;
mod slip;
mod standard;

pub use answer::{Answer, DrillMove};
pub use kind::{DrillKind, ErrorUnit, NoSuchDrill};
pub use result::DrillResult;
pub use slip::DrillSlip;
pub use standard::{DrillStandard, StandardSource, Standing};
