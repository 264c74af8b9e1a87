//! The way of the air: calibrator, filter, what holds them, and the blower that draws it; how much
//! flows, and what a run drew.

pub mod blower;
pub mod calibrator;
mod dual;
pub mod fan;
pub mod filter;
pub mod flow_path;
pub mod motor;
pub mod mounting;
pub mod operating_point;
pub mod orifice;
pub mod sample;
