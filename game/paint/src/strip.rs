//! A whole session as one strip of paper, from its beginning at the left to its end at the right: the
//! phases of the work, waits, readings, remarks and findings, and what manometer and pen traced. What
//! was true is drawn beside it on asking.

mod lanes;
mod layout;
mod marks;
mod whole;

pub use layout::{ShowTruth, StripLayout, TimelineStrip};
pub use whole::paint;
