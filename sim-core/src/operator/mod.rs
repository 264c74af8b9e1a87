//! Scripted operators: each decides its next step from what can be seen, according to its habits.
//!
//! An operator receives the view, its own field book and the papers, and returns one step at a
//! time. It has no access to the rig. All operators follow one plan (the phases below); they differ
//! only in their [`Habits`] and in the seed of their eyes.
//!
//! ```text
//! arrive -> strip -> mount -> hang -> power -> leak -> warm -> points -> closing -> sums -> restore -> check
//! if a flow check is ordered: sums -> flow check -> restore, or warm -> flow check
//! if a run is ordered: restore -> load -> (the run) -> recover -> restore -> volume
//! if a next run is ordered: recover -> next run -> restore
//! ```

mod abilities;
mod added_filters;
mod arithmetic;
mod arrive;
mod averages;
mod check_run;
mod closing;
mod display;
mod filling;
mod flow_check;
mod hang;
mod history;
mod hold_test;
mod interface;
mod leak;
mod lesson;
mod load;
mod memory;
mod mount;
mod next_run;
mod on_controller;
mod openings;
mod person;
mod plan;
mod plate;
mod plates;
mod points;
mod power;
mod recover;
mod rehearse;
mod repairs;
mod restore;
mod running;
mod strip;
mod sums;
mod suspect;
mod tapping;
mod thought;
mod trim_by_standard;
mod tube_check;
mod volume;
mod warm;

pub use crate::scenario::habits::{
    AveragesUsed, Checking, Habits, Leads, Legs, NAMES, OperatorNameError, Outcomes, PairTaken,
    Practice, Remarks, Supply, Targets, TermsUsed,
};
pub use abilities::{Abilities, Lapse};
pub use interface::{Observation, Operator, OperatorStep};
pub use lesson::{begin, begin_unrecorded, in_session, person_in_session};
pub use plan::{by_name, of_abilities};
pub use rehearse::{RehearseError, rehearse, rehearse_explained};
pub use thought::Thought;
