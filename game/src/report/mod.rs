//! What is said and shown about a session after it has ended: in words, and as one HTML page.

pub mod html;
mod plots;
pub mod trial;
pub mod words;
