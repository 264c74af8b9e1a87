//! What a trainer writes; checking it; drawing one concrete bench from it and a seed.
//!
//! ```text
//! text -> check -> Scenario -> draw(seed) -> Drawn -> Setup::build -> Setup
//! ```
//!
//! The text is RON. [`check()`] reports every problem with its line and column; a scenario that
//! passes it can be drawn with any seed. The numbers drawn are kept in the journal.

mod apply;
pub mod averages;
pub mod build;
pub mod certificate;
pub mod certify;
pub mod check;
mod draw;
pub mod drawn;
pub mod flow_check;
pub mod habits;
pub mod history;
pub mod instruments;
pub mod laboratory;
pub mod lesson;
pub mod order;
pub mod parameters;
mod problem;
pub(crate) mod reading;
pub mod rules;
pub mod run;
pub mod sampler_history;
pub mod setup;
pub mod site_look;
pub mod spread;
pub(crate) mod suggest;
pub mod text_places;
pub mod weather;
mod written;

pub use check::check;
pub use drawn::Drawn;
pub use problem::ScenarioProblem;
pub use rules::KnownRules;
pub use written::{FORMAT, FaultEntry, Scenario};
