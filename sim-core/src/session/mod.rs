//! A session: actions in, views out, ticks, and the journal from which all of it can be replayed.
//!
//! The state is stepped from boundary to boundary: to the next tick while the rotor changes its
//! speed, to the next whole second while it does not, and to the tick of every action. Between
//! boundaries a view is taken from a copy that is stepped through the remaining ticks, so looking
//! changes nothing, and the steps depend on the journal alone.

pub mod action;
pub mod action_traits;
mod active_session;
pub mod apply;
pub mod checklist;
pub mod checklist_item;
pub mod clock;
pub(crate) mod counterfactual;
mod deeds;
pub mod ended_session;
pub mod ending;
mod error;
pub mod fault_report;
pub mod ground_truth;
mod ground_truth_of;
pub mod history;
pub mod journal;
pub mod judging;
mod lesson_began;
mod next_reading;
mod onsets;
pub mod own_judgement;
mod papers;
mod pending_faults;
mod perceived;
pub mod preview;
pub mod read_in_words;
pub mod replay;
mod run_of;
pub mod sight;
pub mod signs;
mod source;
mod state;
mod unattended;
mod unattended_run;
pub mod view;
mod view_of;

pub use active_session::Session;
pub use error::{ActError, BeginError};
pub use lesson_began::LessonBegan;
pub use next_reading::NextReading;
pub use papers::SitePapers;
pub use source::SessionSource;
pub use unattended_run::Pace;

#[cfg(test)]
mod away_tests;
#[cfg(test)]
mod gust_tests;
#[cfg(test)]
mod hands_tests;
#[cfg(test)]
mod next_run_tests;
#[cfg(test)]
mod unattended_tests;
