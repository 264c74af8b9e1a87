//! What is decided in writing: about the calibration, the flow check and the sample. A decision is
//! chosen, not typed.

mod draft;
mod part;
mod question;

pub use draft::Drafts;
pub use part::{DecisionPlugin, DecisionRequest, spawn};
pub use question::{Consequence, Question, Verdict};
