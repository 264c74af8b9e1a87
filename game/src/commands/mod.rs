//! The command line: one file for each command, none of which needs a window.

pub mod check;
pub mod drive;
pub mod operating_point;
pub mod progress;
pub mod rehearse;
pub mod replay;
pub mod session_files;
pub mod sums;
mod threads;
pub mod trial;

use std::io::{Read, Write};
use std::path::{Path, PathBuf};

use clap::{Parser, Subcommand};

/// What a command came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It did its work and the answer is yes: exit status 0.
    Done,
    /// It did its work and the answer is no (a broken scenario, not passed): exit status 1.
    Negative,
}

/// Why a command could not do its work: exit status 2. The message says what to do.
#[derive(Debug, thiserror::Error)]
pub enum CommandError {
    /// A file or folder could not be read or written.
    #[error("cannot {doing} {path}: {reason}")]
    File {
        /// `read`, `write`, `create`.
        doing: &'static str,
        /// Which.
        path: PathBuf,
        /// What the system said, and what to do.
        reason: String,
    },
    /// What was asked for or read is wrong.
    #[error("{0}")]
    Wrong(String),
    /// Whoever read the output went away. Nothing is said.
    #[error("the output was closed")]
    Closed,
}

impl CommandError {
    /// A file error: what to do where that is clear, and else the words of the system.
    pub fn file(doing: &'static str, path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind as Kind;
        let reason = match error.kind() {
            Kind::NotFound => "there is no such file or folder: check the name".to_owned(),
            Kind::PermissionDenied => {
                "the system does not allow it: ask for the right, or name another place".to_owned()
            }
            Kind::AlreadyExists | Kind::NotADirectory => {
                "a file stands where a folder is needed: name another place".to_owned()
            }
            Kind::IsADirectory => {
                "a folder of that name is there: move it away, or name another place".to_owned()
            }
            Kind::StorageFull => "the disk is full: make room, or name another place".to_owned(),
            _ => error.to_string(),
        };
        Self::File { doing, path: path.to_owned(), reason }
    }
}

impl From<std::io::Error> for CommandError {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            Self::Closed
        } else {
            Self::Wrong(format!("cannot write the output: {error}"))
        }
    }
}

/// The largest text file that is read, bytes: scenarios and sums are a few kilobytes.
pub const LARGEST_TEXT: u64 = 4 * 1024 * 1024;

/// Reads a text file that a person wrote.
///
/// # Errors
///
/// When it is missing, unreadable, a folder, larger than [`LARGEST_TEXT`], or no UTF-8 text.
pub fn read_text(path: &Path) -> Result<String, CommandError> {
    read_text_up_to(path, LARGEST_TEXT)
}

/// Reads a text file of at most so many bytes.
///
/// # Errors
///
/// As [`read_text`].
pub fn read_text_up_to(path: &Path, largest: u64) -> Result<String, CommandError> {
    let bytes = read_bytes_up_to(path, largest)?;
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let reason = format!("it is no UTF-8 text (byte {at}): save it as plain text in UTF-8");
        CommandError::File { doing: "read", path: path.to_owned(), reason }
    })
}

/// Reads a file of at most so many bytes.
///
/// # Errors
///
/// When it is missing, unreadable, no regular file, or larger.
pub fn read_bytes_up_to(path: &Path, largest: u64) -> Result<Vec<u8>, CommandError> {
    only_a_file(path)?;
    let file =
        std::fs::File::open(path).map_err(|error| CommandError::file("read", path, &error))?;
    read_bytes_from(file, path, largest)
}

/// Refuses a folder, and a pipe or a device: opening a pipe waits until somebody writes into it, for
/// ever if nobody does.
///
/// # Errors
///
/// When it is no regular file, or is not there.
pub fn only_a_file(path: &Path) -> Result<(), CommandError> {
    let about =
        std::fs::metadata(path).map_err(|error| CommandError::file("read", path, &error))?;
    let reason = if about.is_dir() {
        "it is a folder: name a file"
    } else if about.is_file() {
        return Ok(());
    } else {
        "it is no file but a pipe or a device: save what comes from it, and name that file"
    };
    Err(CommandError::File { doing: "read", path: path.to_owned(), reason: reason.to_owned() })
}

/// Reads an open file of at most so many bytes; `path` names it in messages.
///
/// # Errors
///
/// When it cannot be read or is larger.
pub fn read_bytes_from(
    file: impl Read,
    path: &Path,
    largest: u64,
) -> Result<Vec<u8>, CommandError> {
    // A file may grow while it is read: one byte beyond the limit is enough to know.
    let mut bytes = Vec::new();
    file.take(largest + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| CommandError::file("read", path, &error))?;
    if bytes.len() as u64 > largest {
        let most = largest / (1024 * 1024);
        let reason = format!(
            "it is larger than {most} MiB, more than any such file needs: name another file"
        );
        return Err(CommandError::File { doing: "read", path: path.to_owned(), reason });
    }
    Ok(bytes)
}

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
    pub fn run(self, out: &mut dyn Write) -> Result<Outcome, CommandError> {
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
