//! The program `steady-draw`: a window and a command line over one core.
//!
//! A library for its own `main` and for the tests; nobody else is meant to depend on it.

pub mod bench;
pub mod chart;
pub mod commands;
#[cfg(feature = "window")]
pub mod field_book;
pub mod journal_file;
#[cfg(feature = "paint")]
pub mod paint;
pub mod report;
#[cfg(any(test, feature = "sound"))]
pub mod sound;
#[cfg(feature = "window")]
pub mod window;
pub mod words;
