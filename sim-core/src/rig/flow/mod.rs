//! The path of the air: calibrator, filter, their mounting, and the blower that draws the air; the
//! resulting flow, and the sample of a run.

pub mod added_filters;
pub mod blower;
pub mod calibrator;
mod dual;
pub mod fan;
pub mod filter;
pub mod flow_path;
pub mod flow_solution;
pub mod motor;
pub mod mounting;
pub mod operating_point;
pub mod orifice;
pub mod plates;
pub mod sample;
pub mod shelter;
pub mod warmth;
