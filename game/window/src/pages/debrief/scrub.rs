//! The session to go through again: the station as it stood at any moment, what could be seen then,
//! and what was true, if it is asked for.

mod cursor;
mod play;
mod scene;
mod section;
mod slider;
mod told;

pub use cursor::{ScrubRequest, Scrubbed};
pub use play::{PAUSE, PLAY, PlayRequest};
pub use section::{HEADING, ScrubPlugin, spawn};
pub use slider::Slider;
