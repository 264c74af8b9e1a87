//! One file for each command, none of which needs a window.

pub mod check;
pub mod drawn;
pub mod drill;
pub mod drive;
pub mod json;
pub mod operating_point;
pub mod paper;
mod plan_files;
pub mod progress;
pub mod rehearse;
pub mod replay;
mod scenario_files;
pub mod sums;
mod threads;
pub mod trial;
