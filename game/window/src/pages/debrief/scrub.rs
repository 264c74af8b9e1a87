//! The session to go through again: the station as it stood at any moment, what could be seen then,
//! and what was true, if it is asked for.

mod cursor;
mod scene;
mod section;
mod slider;
mod told;

pub use cursor::{ScrubRequest, Scrubbed};
pub use section::{ScrubPlugin, lay_out, spawn};
pub use slider::Slider;
