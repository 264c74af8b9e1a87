//! What slips cost.

mod by_hand;
pub(super) mod common;
mod faults;
mod recorders;
mod run;
mod slips;
mod sums;
mod together;
