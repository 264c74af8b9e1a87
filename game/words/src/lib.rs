//! Plain sentences both ways: what a person says becomes an action, and what can be seen is said
//! at the resolution of a sharp eye. For a terminal, a remote line and a screen reader.
//!
//! Nothing in here decides anything about the bench: a sentence becomes the same [`Action`] that a
//! hand in the window would make, and only what is in the [`View`] and on the papers is said.
//!
//! What a person reads stands in few places: what is seen and noticed in `say/`, the advice in
//! `advice/say.rs`, the cautions in `caution.rs`, the sentences with their notes and refusals in
//! `parse/`, and the rest of a talk in `talk.rs` and `talk/`.

pub mod advice;
mod briefing;
mod caution;
mod checklist;
pub mod drill;
mod field_names;
mod help;
mod moves;
pub mod musts;
mod names;
pub mod own_sums;
mod parse;
mod printable;
mod prose;
mod request;
mod say;
pub mod script;
mod service;
#[cfg(test)]
mod spoken;
pub mod talk;
mod topic;

pub use briefing::{briefing, briefing_text};
pub use caution::{CAUTIONS, Caution, caution, cautions, cautions_on_arrival};
pub use checklist::checklist;
pub use field_names::{field_name, source_words};
pub use help::help;
pub use parse::{LONGEST_SENTENCE, NotUnderstood, decision, parse};
pub use printable::{printable, printable_lines};
pub use request::{Request, Settling};
pub use say::{listen, look, notice, paper, refused, say_action, sight_name};
pub use service::{PlainSentences, shown_step};
pub use topic::Topic;

#[cfg(doc)]
use sim_core::session::{action::Action, view::View};
