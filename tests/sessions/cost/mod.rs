//! What slips cost.

mod by_hand;
mod common;
mod faults;
mod slips;
mod sums;
mod together;
