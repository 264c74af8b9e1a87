//! The power supply: cords and switches, the timer, the flow controller.

pub mod flow_controller;
pub mod protection;
mod supply;
pub mod timer;

pub use supply::{BlowerSupply, Feed};
