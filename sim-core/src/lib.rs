//! The truth of the bench: a high-volume air sampler simulated from its physics, the sums of the
//! method, the rules of the work, and the marks.
//!
//! This crate draws nothing, opens no file and asks no clock. A session is a pure function of its
//! journal: program version, scenario, seed, and actions with their ticks.
//!
//! Which way things point:
//!
//! ```text
//! units, air -> calibration
//! units, air -> rig -> fault -> scenario -> session -> procedure -> marking
//!                                              `-----> operator -> trial
//! ```
#![warn(missing_docs)]

pub mod air;
pub mod calibration;
pub mod digest;
pub mod fault;
pub mod field_book;
pub mod marking;
pub mod math;
pub mod noise;
pub mod operator;
pub mod procedure;
pub mod rig;
pub mod scenario;
pub mod session;
pub mod time;
pub mod trial;
pub mod units;

/// The program's version, written into every journal.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");
