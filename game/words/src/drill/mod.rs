//! Drills in plain sentences: what is asked, what is seen without the answer, what was answered, and
//! what it is worth.

mod asked;
mod heard;
mod seen;
mod told;

pub use asked::{asked, help, standard_words};
pub use heard::{DrillRequest, heard};
pub use seen::{drums, reading, seen};
pub use told::{number_of, summary, told};
