//! The command line: one file for each command, none of which needs a window.

pub mod check;
pub mod drive;
pub mod operating_point;
pub mod paper;
pub mod progress;
pub mod rehearse;
pub mod replay;
pub mod sums;
mod threads;
pub mod trial;

use std::io::Write;
use std::path::PathBuf;

use clap::{Parser, Subcommand};
use sessions::{FrontEndError, Outcome};

/// The whole command line.
#[derive(Debug, Parser)]
#[command(name = "steady-draw", version, about, long_about = None)]
#[command(disable_help_subcommand = true, args_conflicts_with_subcommands = true)]
pub struct CommandLine {
    /// The scenario to put first on the list when the bench opens.
    pub scenario: Option<PathBuf>,
    /// Keep in this file, as JSON, what a screen reader is told of the window: role, name, value and
    /// place of every control.
    #[cfg(feature = "window")]
    #[arg(long, value_name = "FILE")]
    pub describe: Option<PathBuf>,
    /// What to do; without it the bench opens.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Check(check::CheckArguments),
    Rehearse(rehearse::RehearseArguments),
    Drive(drive::DriveArguments),
    Replay(replay::ReplayArguments),
    Progress(progress::ProgressArguments),
    Trial(trial::TrialArguments),
    Sums(sums::SumsArguments),
    OperatingPoint(operating_point::OperatingPointArguments),
}

impl Command {
    /// Runs the command; what it has to say goes to `out`.
    ///
    /// # Errors
    ///
    /// When it could not do its work.
    pub fn run(self, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
        match self {
            Self::Check(arguments) => check::run(&arguments, out),
            Self::Rehearse(arguments) => rehearse::run(arguments, out),
            Self::Drive(arguments) => drive::run(arguments, out),
            Self::Replay(arguments) => replay::run(&arguments, out),
            Self::Progress(arguments) => progress::run(&arguments, out),
            Self::Trial(arguments) => trial::run(&arguments, out),
            Self::Sums(arguments) => sums::run(&arguments, out),
            Self::OperatingPoint(arguments) => operating_point::run(&arguments, out),
        }
    }
}
