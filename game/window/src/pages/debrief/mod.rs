//! After signing, the debrief: how it ended, the session to go through again, and the whole report as
//! it is printed: marks, what was decided and what was true, findings, costs, faults, time line.

mod contents;
mod earlier;
mod marking;
mod outcome;
mod page;
mod saved;
mod scrub;
mod section;
mod set;
mod table;

pub use page::{BackRequest, DebriefPlugin};
pub use saved::SaveRequest;
pub use scrub::{PAUSE, PLAY, PlayRequest, ScrubRequest, Scrubbed};
