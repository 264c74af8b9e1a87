//! The program `steady-draw`: a command line over the packages beside it, and the way to the window.
//!
//! A library for its own `main` and for the tests; nobody else is meant to depend on it.

pub mod command_line;
pub mod commands;
pub mod output;

pub use command_line::CommandLine;
