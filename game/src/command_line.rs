//! The whole command line: the commands, and what each of them comes to.

use std::io::Write;
use std::path::PathBuf;

use clap::{Parser, Subcommand};
use sessions::{FrontEndError, Outcome};

use crate::commands::check::{self, CheckArguments};
use crate::commands::drill::{self, DrillArguments};
use crate::commands::drive::{self, DriveArguments};
use crate::commands::json::print_error;
use crate::commands::operating_point::{self, OperatingPointArguments};
use crate::commands::progress::{self, ProgressArguments};
use crate::commands::rehearse::{self, RehearseArguments};
use crate::commands::replay::{self, ReplayArguments};
use crate::commands::sums::{self, SumsArguments};
use crate::commands::trial::{self, TrialArguments};

/// The whole command line.
#[derive(Debug, Parser)]
#[command(name = "steady-draw", version, about, long_about = None)]
#[command(disable_help_subcommand = true, args_conflicts_with_subcommands = true)]
#[command(
    after_help = "Each command describes itself with --help. Exit status 0: done, and the answer is \
    yes. 1: done, and the answer is no (not passed, a problem was found). 2: it could not be done, or \
    the output could not be written."
)]
pub struct CommandLine {
    /// The scenario to show first in the list when the window opens.
    pub scenario: Option<PathBuf>,
    /// Write to this file, as JSON, what a screen reader is told about the window: the role, name, value
    /// and position of every control.
    #[cfg(feature = "window")]
    #[arg(long, value_name = "FILE")]
    pub describe: Option<PathBuf>,
    /// The command; without one the window opens.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    Check(CheckArguments),
    Rehearse(RehearseArguments),
    Drive(DriveArguments),
    Drill(DrillArguments),
    Replay(ReplayArguments),
    Progress(ProgressArguments),
    Trial(TrialArguments),
    Sums(SumsArguments),
    OperatingPoint(OperatingPointArguments),
}

impl Command {
    /// Runs the command; what it has to say goes to `out`. With `--json` that is one object, even when
    /// the command could not do its work.
    ///
    /// # Errors
    ///
    /// When it could not do its work.
    pub fn run(self, out: &mut dyn Write) -> Result<Outcome, FrontEndError> {
        let as_json = self.is_asked_for_json();
        let result = match self {
            Self::Check(arguments) => check::run(&arguments, out),
            Self::Rehearse(arguments) => rehearse::run(arguments, out),
            Self::Drive(arguments) => drive::run(arguments, out),
            Self::Drill(arguments) => drill::run(&arguments, out),
            Self::Replay(arguments) => replay::run(&arguments, out),
            Self::Progress(arguments) => progress::run(&arguments, out),
            Self::Trial(arguments) => trial::run(&arguments, out),
            Self::Sums(arguments) => sums::run(&arguments, out),
            Self::OperatingPoint(arguments) => operating_point::run(&arguments, out),
        };
        match &result {
            Err(error) if as_json => print_error(out, error)?,
            _ => {}
        }
        result
    }

    const fn is_asked_for_json(&self) -> bool {
        match self {
            Self::Check(_) | Self::Drive(_) => false,
            Self::Rehearse(RehearseArguments { json, .. })
            | Self::Drill(DrillArguments { json, .. })
            | Self::Replay(ReplayArguments { json, .. })
            | Self::Progress(ProgressArguments { json, .. })
            | Self::Trial(TrialArguments { json, .. })
            | Self::Sums(SumsArguments { json, .. })
            | Self::OperatingPoint(OperatingPointArguments { json, .. }) => *json,
        }
    }
}
