//! Drills: one skill at a time, a question a minute, each answered and judged at once.
//!
//! A question is drawn from a kind, a seed and a number; it is made of the same instruments, papers and
//! views as the bench, and the truth stands apart from what can be seen. A [`DrillResult`] is what came of
//! one question; a [`DrillStandard`] says when a skill is good enough.

mod answer;
mod bench;
mod draw;
mod drawn;
mod error;
pub mod journal;
mod judged;
mod kind;
mod kinds;
mod question;
pub mod replay;
mod result;
mod scale;
mod seen;
mod series;
mod slip;
mod standard;

pub use answer::{Answer, DrillMove};
pub use error::{DrawError, DrillError};
pub use judged::Judged;
pub use kind::{DrillKind, ErrorUnit, NoSuchDrill};
pub use kinds::{NOTHING, StationPart};
pub use question::{FARTHEST_EYE_MM, Question};
pub use result::DrillResult;
pub use scale::AgainstScale;
pub use seen::{Asked, DrillLook, DrillSheet, LineSheet, PointSheet};
pub use series::DrillSeries;
pub use slip::DrillSlip;
pub use standard::{DrillStandard, StandardSource, Standing};
