//! Scripted operators: policies over what can be seen, made of habits.
//!
//! An operator gets the view, its own field book and the papers, and gives back one step at a time.
//! It never reaches the rig. All of them follow one plan (the phases below); they differ in their
//! [`Habits`] only, and in the seed of their eyes.
//!
//! ```text
//! arrive -> strip -> mount -> hang -> power -> leak -> warm -> points -> closing -> sums -> restore -> check
//! where a check of the flow is ordered: sums -> flow check -> restore, or warm -> flow check
//! and where a run is ordered: restore -> load -> (the run) -> recover -> restore -> volume
//! and where a next run is: recover -> next run -> restore
//! ```

mod arithmetic;
mod arrive;
mod check_run;
mod closing;
mod flow_check;
mod hang;
mod hold_test;
mod interface;
mod leak;
mod load;
mod memory;
mod mount;
mod next_run;
mod plan;
mod points;
mod power;
mod recover;
mod rehearse;
mod restore;
mod strip;
mod sums;
mod suspect;
mod tapping;
mod tube_check;
mod volume;
mod warm;

pub use crate::scenario::habits::{
    Checking, Habits, Leads, Legs, NAMES, Outcomes, PairTaken, Practice, Remarks, Supply, Targets,
    TermsUsed,
};
pub use interface::{Observation, Operator, OperatorStep};
pub use plan::by_name;
pub use rehearse::{RehearseError, rehearse};
