//! Opening a session from a scenario or a journal.

use std::path::{Path, PathBuf};

use sim_core::operator;
use sim_core::scenario::KnownRules;
use sim_core::session::journal::{self, JournalSink, NullSink};
use sim_core::session::{BeginError, Session, replay};

use crate::error::FrontEndError;
use crate::journal_file::{Durability, JournalFile};
use crate::live::LiveSession;
use crate::printable::printable_path;
use crate::text_file::{read_bytes_up_to, read_text};

/// Largest journal that is read, bytes.
const LARGEST_JOURNAL: u64 = 256 * 1024 * 1024;

/// A session, and what there is to say about how it was opened.
#[derive(Debug)]
pub struct Opened {
    /// The session.
    pub session: Box<dyn LiveSession>,
    /// For example that an incomplete last line was left out.
    pub notice: Option<String>,
    /// The journal being written, if there is one.
    pub journal: Option<PathBuf>,
    /// What the visit is for, where a new session begins and the scenario tells it.
    pub situation: Option<String>,
}

/// Opens a session: a new one of a scenario, or the one of a journal.
///
/// # Errors
///
/// When the scenario or the journal has problems, or a file cannot be read or written.
pub fn open_session(
    scenario: Option<PathBuf>,
    seed: u64,
    journal: Option<PathBuf>,
    resume: Option<PathBuf>,
) -> Result<Opened, FrontEndError> {
    match (resume, scenario) {
        (Some(path), _) => resume_session(&path),
        (None, Some(path)) => {
            let session = begin(&path, seed, || match &journal {
                Some(file) => Ok(Box::new(JournalFile::create(file, Durability::EachLine)?)),
                None => Ok(Box::new(NullSink)),
            })?;
            Ok(Opened {
                session: Box::new(session),
                notice: None,
                journal,
                situation: situation(&path),
            })
        }
        (None, None) => {
            Err(FrontEndError::Wrong("give a scenario, or a journal with --resume".to_owned()))
        }
    }
}

/// Opens a new session of a scenario's text that stands in no file, such as that of a drawn rig.
///
/// # Errors
///
/// When the scenario has problems, or the journal cannot be made or written.
pub fn open_text(
    name: &Path,
    text: &str,
    seed: u64,
    journal: Option<PathBuf>,
) -> Result<Opened, FrontEndError> {
    let session = begin_text(name, text, seed, || match &journal {
        Some(file) => Ok(Box::new(JournalFile::create(file, Durability::EachLine)?)),
        None => Ok(Box::new(NullSink)),
    })?;
    let told = sim_core::scenario::check(text, KnownRules::Any);
    let situation = told.ok().and_then(|scenario| scenario.situation);
    Ok(Opened { session: Box::new(session), notice: None, journal, situation })
}

/// Begins a session of a scenario file. The journal is made only when the session can begin, so
/// that a scenario with problems leaves no empty journal behind.
///
/// # Errors
///
/// When the file cannot be read, the scenario has problems, or the journal cannot be made or written.
pub fn begin(
    path: &Path,
    seed: u64,
    ink: impl FnOnce() -> Result<Box<dyn JournalSink>, FrontEndError>,
) -> Result<Session, FrontEndError> {
    begin_text(path, &read_text(path)?, seed, ink)
}

/// Begins a session of a scenario's text, which is called by this name where it has problems.
///
/// # Errors
///
/// As [`begin`].
pub fn begin_text(
    name: &Path,
    text: &str,
    seed: u64,
    ink: impl FnOnce() -> Result<Box<dyn JournalSink>, FrontEndError>,
) -> Result<Session, FrontEndError> {
    let not_begun = |error| not_begun(name, error);
    operator::begin_unrecorded(text, seed).map_err(not_begun)?;
    operator::begin(text, seed, ink()?).map_err(not_begun)
}

/// The situation that a scenario file tells; nothing where it tells none or cannot be read.
pub(crate) fn situation(path: &Path) -> Option<String> {
    let text = read_text(path).ok()?;
    sim_core::scenario::check(&text, KnownRules::Any).ok()?.situation
}

/// Why a session could not begin.
fn not_begun(path: &Path, error: BeginError) -> FrontEndError {
    match error {
        BeginError::Scenario(problems) => {
            let name = printable_path(path);
            let lines: Vec<String> =
                problems.iter().map(|problem| format!("{name}:{problem}")).collect();
            FrontEndError::Wrong(lines.join("\n"))
        }
        BeginError::Build(error) => FrontEndError::Wrong(error.to_string()),
        error @ (BeginError::IsLesson | BeginError::NotReached(_)) => {
            FrontEndError::Wrong(format!("{}: {error}", printable_path(path)))
        }
        BeginError::Sink(error) => FrontEndError::Wrong(error.to_string()),
    }
}

/// Reads a journal file as text.
///
/// # Errors
///
/// When it cannot be read, or a line of it is no text.
pub fn read_journal(path: &Path) -> Result<String, FrontEndError> {
    let bytes = read_bytes_up_to(path, LARGEST_JOURNAL)?;
    journal::text(bytes)
        .map_err(|error| FrontEndError::Wrong(format!("{}: {error}", printable_path(path))))
}

/// Continues the session of a journal.
fn resume_session(path: &Path) -> Result<Opened, FrontEndError> {
    // Locked before it is read: a line that another program wrote meanwhile would be cut off.
    let mut file = JournalFile::open(path)?;
    let name = printable_path(path);
    let wrong = |error: &dyn std::fmt::Display| FrontEndError::Wrong(format!("{name}: {error}"));
    let text = journal::text(file.bytes(LARGEST_JOURNAL)?).map_err(|error| wrong(&error))?;
    // The journal is verified before the file is touched: nothing is written while it is replayed.
    file.go_on_behind(text.rfind('\n').map_or(0, |at| at + 1));
    let replayed = replay::replay(&text, Box::new(file)).map_err(|error| wrong(&error))?;
    let notice = if replayed.session.ended().is_some() {
        Some(format!("the session in {name} has ended: nothing more can be done in it"))
    } else {
        replayed
            .cut_short
            .then(|| format!("the last line of {name} was incomplete and has been left out"))
    };
    Ok(Opened {
        session: Box::new(replayed.session),
        notice,
        journal: Some(path.to_owned()),
        situation: None,
    })
}
