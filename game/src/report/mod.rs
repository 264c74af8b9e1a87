//! What is said and shown about a session after it has ended: in words, and as one HTML page.

pub mod cost_words;
pub mod html;
pub mod moment;
mod plots;
pub mod trial;
mod waterfall;
pub mod words;
