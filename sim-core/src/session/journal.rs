//! The journal: append-only lines of text from which a session can be replayed, bit for bit.
//!
//! Each line is `HASH BODY`: the body in RON on one line, and before it the first sixteen
//! hexadecimal digits of SHA-256(chain so far, body). An edited byte breaks the chain at its line.
//! Whoever holds the file can build a whole new chain, so the head must also be kept elsewhere: it
//! is printed with the result.

use std::collections::VecDeque;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

use crate::session::action::Action;
use crate::session::clock::ClockNote;
use crate::session::ending::Ending;
use crate::session::own_judgement::OwnJudgement;
use crate::text::printable;
use crate::time::{TICKS_PER_SECOND, Tick};

/// The number of the journal's format.
pub const FORM: u32 = 2;

/// One line of the journal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "Line", deny_unknown_fields)]
pub enum JournalLine {
    /// The first line: the journal's format and the version of the program that wrote it.
    Journal {
        /// The format, [`FORM`].
        form: u32,
        /// Version of the program.
        version: String,
    },
    /// The second line: the whole scenario.
    Scenario {
        /// SHA-256 of the text.
        sha256: String,
        /// The text as the trainer wrote it.
        text: String,
    },
    /// The third line: the seed, and every value drawn from the scenario's spreads.
    Drawn {
        /// The seed.
        seed: u64,
        /// Names and values.
        values: Vec<(String, f64)>,
    },
    /// Something was done.
    Act {
        /// When.
        tick: Tick,
        /// What.
        action: Action,
    },
    /// The state's checksum.
    Check {
        /// When.
        tick: Tick,
        /// The first 64 bits of the SHA-256 of the state.
        digest: String,
    },
    /// A lesson begins: what stands above was done by the careful operator.
    Lesson {
        /// When.
        tick: Tick,
        /// The checksum of the state at which the trainee takes over.
        digest: String,
    },
    /// The wall clock, where the front end has one. It changes nothing. A note of the end may also
    /// follow the seal.
    Clock(ClockNote),
    /// The session has ended.
    Sealed {
        /// When.
        tick: Tick,
        /// How.
        ending: Ending,
        /// The state's checksum.
        digest: String,
    },
    /// What the trainee thinks of the work. It follows the seal, and changes nothing.
    Judgement(OwnJudgement),
}

impl JournalLine {
    /// The line as it is written, without its hash.
    ///
    /// # Errors
    ///
    /// When it cannot be put into words.
    pub fn body(&self) -> Result<String, SinkError> {
        ron::to_string(self).map_err(|error| SinkError(error.to_string()))
    }
}

/// Where the journal's lines go. A line must be safe (on disk, flushed) when this returns.
pub trait JournalSink: Send + Sync {
    /// Writes one line, and adds the line break.
    ///
    /// # Errors
    ///
    /// When the line could not be made safe. Then nothing has happened in the session.
    fn write_line(&mut self, line: &str) -> Result<(), SinkError>;
}

/// A line could not be written.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the journal could not be written: {0}; nothing was done in the session")]
pub struct SinkError(pub String);

/// Discards every line; for trials.
#[derive(Debug, Clone, Copy, Default)]
pub struct NullSink;

impl JournalSink for NullSink {
    fn write_line(&mut self, _line: &str) -> Result<(), SinkError> {
        Ok(())
    }
}

/// The chain of hashes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain([u8; 32]);

impl Default for Chain {
    fn default() -> Self {
        Self(Sha256::digest(b"steady-draw journal").into())
    }
}

impl Chain {
    /// A chain of its own for another kind of journal, so that no line of one fits into the other.
    pub fn of(journal: &str) -> Self {
        Self(Sha256::digest(journal.as_bytes()).into())
    }

    /// Adds a body and returns the whole line.
    pub fn add(&mut self, body: &str) -> String {
        let mut hash = Sha256::new();
        hash.update(self.0);
        hash.update(body.as_bytes());
        self.0 = hash.finalize().into();
        format!("{} {body}", self.short())
    }

    /// The head: sixty-four hexadecimal digits that stand for every line so far.
    pub fn head(&self) -> String {
        self.0.iter().map(|byte| format!("{byte:02x}")).collect()
    }

    /// The first sixteen digits of the head.
    fn short(&self) -> String {
        self.0.iter().take(8).map(|byte| format!("{byte:02x}")).collect()
    }
}

/// Writes lines into a chain and hands them to the ink.
pub struct Writer {
    chain: Chain,
    ink: Ink,
}

/// Where lines go.
enum Ink {
    /// To a sink, in a chain.
    Sink(Box<dyn JournalSink>),
    /// Nowhere: the lines are those of a journal that is being replayed. The checksums that are due
    /// are kept, to be compared with those of the journal.
    Replayed(VecDeque<DueChecksum>),
    /// Nowhere, and nothing is put into words or summed up.
    Unrecorded,
}

/// A checksum that was due.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct DueChecksum {
    /// When.
    pub tick: Tick,
    /// The first 64 bits of the SHA-256 of the state.
    pub digest: String,
}

impl std::fmt::Debug for Writer {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Writer").field("chain", &self.chain).finish_non_exhaustive()
    }
}

impl Writer {
    /// A writer at the start of a chain, or where an earlier one stopped.
    pub fn new(chain: Chain, ink: Box<dyn JournalSink>) -> Self {
        Self { chain, ink: Ink::Sink(ink) }
    }

    /// A writer for a session that is replayed: it writes nothing, and keeps the checksums.
    pub(super) fn replaying() -> Self {
        Self { chain: Chain::default(), ink: Ink::Replayed(VecDeque::new()) }
    }

    /// A writer for a session of which no journal is wanted.
    pub(super) fn unrecorded() -> Self {
        Self { chain: Chain::default(), ink: Ink::Unrecorded }
    }

    /// Whether lines and checksums are wanted at all.
    pub(super) const fn is_wanted(&self) -> bool {
        !matches!(self.ink, Ink::Unrecorded)
    }

    /// The earliest checksum that was due in a replay and was not taken yet.
    pub(super) fn next_due(&mut self) -> Option<DueChecksum> {
        match &mut self.ink {
            Ink::Sink(_) | Ink::Unrecorded => None,
            Ink::Replayed(due) => due.pop_front(),
        }
    }

    /// Writes a line.
    ///
    /// # Errors
    ///
    /// When the ink fails; the chain stays where it was.
    pub fn write(&mut self, line: &JournalLine) -> Result<(), SinkError> {
        match (&mut self.ink, line) {
            (Ink::Replayed(due), JournalLine::Check { tick, digest }) => {
                due.push_back(DueChecksum { tick: *tick, digest: digest.clone() });
                Ok(())
            }
            (Ink::Replayed(_) | Ink::Unrecorded, _) => Ok(()),
            (Ink::Sink(_), line) => self.write_body(&line.body()?),
        }
    }

    /// Writes a line that was put into words already.
    ///
    /// # Errors
    ///
    /// When the ink fails; the chain stays where it was.
    pub(super) fn write_body(&mut self, body: &str) -> Result<(), SinkError> {
        let Ink::Sink(ink) = &mut self.ink else { return Ok(()) };
        let mut chain = self.chain.clone();
        let text = chain.add(body);
        ink.write_line(&text)?;
        self.chain = chain;
        Ok(())
    }

    /// The chain as it stands.
    pub const fn chain(&self) -> &Chain {
        &self.chain
    }
}

/// What is wrong with a journal.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum JournalError {
    /// It is empty.
    #[error("the journal is empty: give a file that a session wrote")]
    Empty,
    /// It is not a journal.
    #[error("line {line}: this is not the journal of a session: give a file that a session wrote")]
    NotAJournal {
        /// Which line.
        line: usize,
    },
    /// It has another format.
    #[error(
        "line 1: the journal has format {found}, and this program reads format {FORM}: replay it with version {}, which wrote it",
        printable(version)
    )]
    OtherForm {
        /// The format found.
        found: u32,
        /// Version that wrote it.
        version: String,
    },
    /// It was written by another version.
    #[error(
        "line 1: the journal was written by version {0}, and this is version {1}: only the same version gives the same session, so replay it with version {0}",
        printable(found),
        crate::VERSION
    )]
    OtherVersion {
        /// The version found.
        found: String,
    },
    /// A line was changed, removed or inserted.
    #[error(
        "line {line}: this line does not follow from the lines before it: it was changed, or lines were removed or inserted here; use an unchanged copy of the journal"
    )]
    Edited {
        /// Which line.
        line: usize,
    },
    /// A line cannot be read although it fits the chain.
    #[error("line {line}: {}", printable(what))]
    Unreadable {
        /// Which line.
        line: usize,
        /// What is wrong with it.
        what: String,
    },
    /// The replayed state differs from the recorded one.
    #[error(
        "line {line}: the replay differs from the recorded session after {} of bench time: the journal was written by another build, or its chain was rebuilt; it proves nothing",
        crate::time::spoken(*seconds)
    )]
    Differs {
        /// Which line.
        line: usize,
        /// Bench time, s.
        seconds: u64,
    },
    /// A checksum that was due is not there.
    #[error(
        "line {line}: the checksum that was due before this line, after {} of bench time, is missing: without it nobody can tell what was changed; use an unchanged copy of the journal",
        crate::time::spoken(*seconds)
    )]
    MissingChecksum {
        /// The line before which it should stand.
        line: usize,
        /// Bench time at which it was due, s.
        seconds: u64,
    },
    /// A checksum stands where none is due.
    #[error(
        "line {line}: no checksum is due here, after {} of bench time: the line was added, or lines were removed before it; use an unchanged copy of the journal",
        crate::time::spoken(*seconds)
    )]
    NoChecksumDue {
        /// Which line.
        line: usize,
        /// Bench time, s.
        seconds: u64,
    },
    /// Actions follow each other faster than hands can.
    #[error(
        "line {line}: this is done after {} of bench time, while the hands are still busy with what was done before it: no session allows that, so the journal was changed; use an unchanged copy of it",
        crate::time::spoken(*seconds)
    )]
    HandsBusy {
        /// Which line.
        line: usize,
        /// Bench time, s.
        seconds: u64,
    },
    /// The journal covers more time than any session can.
    #[error(
        "line {line}: the journal covers more than {LONGEST_SESSION_DAYS} days of bench time, which no session does: it was changed; use an unchanged copy of the journal"
    )]
    TooLong {
        /// The first line beyond that time.
        line: usize,
    },
}

/// A journal that was read and whose chain is unbroken.
#[derive(Debug, Clone)]
pub struct Journal {
    /// Its lines, each with its line number in the file.
    pub lines: Vec<(usize, JournalLine)>,
    /// The chain after the last line.
    pub chain: Chain,
    /// Length in bytes of the complete lines, line breaks included.
    pub whole_bytes: usize,
    /// Whether an incomplete last line, without its line break, was left out.
    pub cut_short: bool,
}

/// The longest bench time that is replayed, days (CHOSEN). A run ends within a week of the
/// session's first day, and nobody works at the bench for as long as that: no session comes near
/// it. Without a limit, a forged journal of a few lines would keep a replay busy for years.
pub const LONGEST_SESSION_DAYS: u64 = 31;

/// The longest version that is read, bytes: a version is a few digits and words.
const LONGEST_VERSION: usize = 64;

/// The longest line that is read, bytes.
const LONGEST_LINE: usize = 16 * 1024 * 1024;

/// Reads a journal and verifies its chain. A last line without a line break was being written when
/// the power failed, or was cut off: it is left out, and nothing else is.
///
/// # Errors
///
/// The first line that is wrong.
pub fn read(text: &str) -> Result<Journal, JournalError> {
    if text.trim().is_empty() {
        return Err(JournalError::Empty);
    }
    let mut journal =
        Journal { lines: Vec::new(), chain: Chain::default(), whole_bytes: 0, cut_short: false };
    for (index, piece) in text.split_inclusive('\n').enumerate() {
        let line = index + 1;
        let Some(content) = piece.strip_suffix('\n') else {
            journal.cut_short = true;
            break;
        };
        let parsed = read_line(line, content, &mut journal.chain)?;
        check_version(line, &parsed)?;
        check_time(line, &parsed)?;
        journal.lines.push((line, parsed));
        journal.whole_bytes += piece.len();
    }
    match journal.lines.first() {
        Some((_, JournalLine::Journal { .. })) => Ok(journal),
        Some(_) => Err(JournalError::NotAJournal { line: 1 }),
        None => Err(JournalError::NotAJournal { line: 1 }),
    }
}

/// The text of a journal's bytes. A character that was being written when the power failed stays in
/// the incomplete last line, for [`read`] to leave out; anywhere else, its line was changed.
///
/// # Errors
///
/// The first line that is wrong.
pub fn text(bytes: Vec<u8>) -> Result<String, JournalError> {
    let error = match String::from_utf8(bytes) {
        Ok(text) => return Ok(text),
        Err(error) => error,
    };
    let valid = error.utf8_error().valid_up_to();
    let (good, bad) = error.as_bytes().split_at(valid);
    if !bad.contains(&b'\n') {
        return Ok(String::from_utf8_lossy(error.as_bytes()).into_owned());
    }
    // A line before it may have been changed too; then that one is the first.
    let line = good.iter().filter(|&&byte| byte == b'\n').count() + 1;
    let before = good.iter().rposition(|&byte| byte == b'\n').map_or(0, |at| at + 1);
    match read(&String::from_utf8_lossy(good.get(..before).unwrap_or_default())) {
        Err(JournalError::Empty) => Err(JournalError::NotAJournal { line: 1 }),
        Err(error) => Err(error),
        Ok(_) => Err(JournalError::Edited { line }),
    }
}

/// Reads one line and adds it to the chain.
fn read_line(line: usize, content: &str, chain: &mut Chain) -> Result<JournalLine, JournalError> {
    let no_line =
        if line == 1 { JournalError::NotAJournal { line } } else { JournalError::Edited { line } };
    let Some((hash, body)) = content.split_once(' ') else { return Err(no_line) };
    if hash.len() != 16 || content.len() > LONGEST_LINE {
        return Err(no_line);
    }
    if chain.add(body) != content {
        return Err(JournalError::Edited { line });
    }
    ron::from_str(body)
        .map_err(|error| JournalError::Unreadable { line, what: error.code.to_string() })
}

/// A journal of another format or version is not replayed: its bits may differ.
fn check_version(line: usize, parsed: &JournalLine) -> Result<(), JournalError> {
    match parsed {
        JournalLine::Journal { version, .. } if version.len() > LONGEST_VERSION => {
            Err(JournalError::NotAJournal { line })
        }
        JournalLine::Journal { form, version } if *form != FORM => {
            Err(JournalError::OtherForm { found: *form, version: version.clone() })
        }
        JournalLine::Journal { version, .. } if version != crate::VERSION => {
            Err(JournalError::OtherVersion { found: version.clone() })
        }
        _ => Ok(()),
    }
}

/// A line beyond the longest session is refused before anything is replayed up to it.
const fn check_time(line: usize, parsed: &JournalLine) -> Result<(), JournalError> {
    let tick = match parsed {
        JournalLine::Journal { .. }
        | JournalLine::Scenario { .. }
        | JournalLine::Drawn { .. }
        | JournalLine::Judgement(_) => return Ok(()),
        JournalLine::Act { tick, .. }
        | JournalLine::Check { tick, .. }
        | JournalLine::Lesson { tick, .. }
        | JournalLine::Sealed { tick, .. } => tick,
        JournalLine::Clock(note) => &note.tick,
    };
    if tick.0 > LONGEST_SESSION_DAYS * 24 * 3600 * TICKS_PER_SECOND {
        return Err(JournalError::TooLong { line });
    }
    Ok(())
}
