//! The truth of the bench: a high-volume air sampler simulated from its physics, the calculations
//! of the method, the rules of the work, and the marks.
//!
//! This crate draws nothing, opens no files and reads no clock. A session is a pure function of its
//! journal: program version, scenario, seed, and actions with their ticks.
//!
//! Which modules use which:
//!
//! ```text
//! units, air -> calibration
//! units, air -> rig -> fault -> scenario -> session -> procedure -> marking
//!                         |                    |-----> operator -> trial
//!                         |                    `-----> drill
//!                         `-> generator (a fault and its size become a scenario's text)
//! ```
//!
//! A session takes actions and gives views. The truth is behind [`session::Session::open`], which
//! opens only a session that has ended:
//!
//! ```
//! use sim_core::field_book::Field;
//! use sim_core::marking;
//! use sim_core::session::Session;
//! use sim_core::session::action::{Action, Sight};
//! use sim_core::session::journal::NullSink;
//!
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let scenario = include_str!("../../scenarios/01_first_calibration.ron");
//! let mut session = Session::begin(scenario, 7, Box::new(NullSink))?;
//!
//! // Look, as a person would, and write down what you see, no finer than a sharp eye can read it.
//! session.act(Action::Look { at: Sight::Barometer, eye_mm: 0.0 })?;
//! let seen = session.view().at_eye_resolution().barometer.pointer_mmhg;
//! session.act(Action::Write { field: Field::Pressure, text: format!("{seen:.1}") })?;
//! session.wait(30.0)?;
//!
//! // An action that cannot be done is refused and changes nothing.
//! assert!(session.act(Action::TurnKnob { opening: 1.5 }).is_err());
//!
//! // Before the field book is signed, the truth cannot be reached.
//! let mut session = *session.open().unwrap_err();
//! session.act(Action::Sign)?;
//! let signed = session.open().map_err(|_| "not signed")?;
//! assert_eq!(signed.book.number(Field::Pressure), Some(seen));
//!
//! let marks = marking::mark(&signed.evidence());
//! assert!(!marks.passed, "a pressure alone is no calibration");
//! # Ok(())
//! # }
//! ```
#![warn(missing_docs)]

pub mod air;
pub mod calibration;
pub mod control_chart;
pub mod digest;
pub mod drill;
pub mod fault;
pub mod field_book;
pub mod generator;
pub mod marking;
pub mod math;
pub mod noise;
pub mod operator;
pub mod plan;
pub mod procedure;
pub mod rig;
pub mod scenario;
pub mod session;
pub mod text;
pub mod time;
pub mod trial;
pub mod units;

/// The program's version, written into every journal.
pub const VERSION: &str = env!("CARGO_PKG_VERSION");
