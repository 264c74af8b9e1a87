//! The journal of a series of questions: lines of text, chained by checksums as those of a session are.
//!
//! An answer is a line of its own, which is safe before the answer is judged. What came of it is the next
//! line. So a summary reads results from the lines alone, and a replay judges every answer once more and
//! compares. The form has a number of its own, and so has the chain: no line of a session fits here.

use serde::{Deserialize, Serialize};

use super::answer::{Answer, DrillMove};
use super::kind::DrillKind;
use super::result::DrillResult;
use crate::session::journal::{Chain, JournalSink, SinkError};
use crate::text::printable;

/// The number of the journal's format.
pub const DRILL_FORM: u32 = 1;

/// One line of the journal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "Line", deny_unknown_fields)]
pub enum DrillLine {
    /// The first line: the format and the version of the program that wrote it.
    Drill {
        /// The format, [`DRILL_FORM`].
        form: u32,
        /// Version of the program.
        version: String,
    },
    /// The second line: which questions are asked.
    Series {
        /// The kind.
        kind: DrillKind,
        /// The seed.
        seed: u64,
        /// The wall clock when it was begun, seconds since 1970-01-01 00:00 UTC.
        unix_s: u64,
    },
    /// Something was done to see better.
    Moved {
        /// At which question, from 0.
        number: u32,
        /// What.
        made: DrillMove,
    },
    /// A question was answered.
    Answered {
        /// Which, from 0.
        number: u32,
        /// The answer.
        answer: Answer,
        /// From question to answer, s, by the clock of the front end.
        seconds: f64,
        /// The wall clock, seconds since 1970-01-01 00:00 UTC.
        unix_s: u64,
    },
    /// What came of it.
    Judged(DrillResult),
    /// The series was ended by the person.
    Ended {
        /// The wall clock, seconds since 1970-01-01 00:00 UTC.
        unix_s: u64,
    },
}

/// What the chain of a drill's journal begins with.
const CHAIN: &str = "steady-draw drill journal";
/// The longest line that is read, bytes: a line holds one answer.
const LONGEST_LINE: usize = 64 * 1024;
/// The longest version that is read, bytes.
const LONGEST_VERSION: usize = 64;

/// Writes the lines of a series.
pub struct DrillWriter {
    chain: Chain,
    ink: Box<dyn JournalSink>,
}

impl std::fmt::Debug for DrillWriter {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("DrillWriter").field("chain", &self.chain).finish_non_exhaustive()
    }
}

impl DrillWriter {
    /// A writer at the start of a journal.
    pub fn new(ink: Box<dyn JournalSink>) -> Self {
        Self { chain: Chain::of(CHAIN), ink }
    }

    /// Writes a line.
    ///
    /// # Errors
    ///
    /// When it could not be made safe; the chain stays where it was.
    pub fn write(&mut self, line: &DrillLine) -> Result<(), SinkError> {
        let body = ron::to_string(line).map_err(|error| SinkError(error.to_string()))?;
        let mut chain = self.chain.clone();
        let text = chain.add(&body);
        self.ink.write_line(&text)?;
        self.chain = chain;
        Ok(())
    }

    /// The head of the chain: sixty-four hexadecimal digits that stand for every line so far.
    pub fn head(&self) -> String {
        self.chain.head()
    }
}

/// What is wrong with a drill's journal.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum DrillJournalError {
    /// It is none.
    #[error(
        "line {line}: this is not the journal of a drill: give a file that `drill --journal` wrote"
    )]
    NotADrill {
        /// Which line.
        line: usize,
    },
    /// It has another format.
    #[error(
        "line 1: the drill's journal has format {found}, and this program reads format {DRILL_FORM}: read it with version {}, which wrote it",
        printable(version)
    )]
    OtherForm {
        /// The format found.
        found: u32,
        /// Version that wrote it.
        version: String,
    },
    /// It was written by another version, and cannot be judged again.
    #[error(
        "line 1: the drill's journal was written by version {0}, and this is version {1}: only the same version draws the same questions, so replay it with version {0}",
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
    /// A line cannot be read although it fits the chain, or stands where no such line can.
    #[error("line {line}: {}", printable(what))]
    Unreadable {
        /// Which line.
        line: usize,
        /// What is wrong with it.
        what: String,
    },
    /// An answer judged again gives another result.
    #[error(
        "line {line}: the answer judged again gives another result: the journal was written by another build, or its chain was rebuilt; it proves nothing"
    )]
    Differs {
        /// The line of the result.
        line: usize,
    },
}

/// A journal that was read and whose chain is unbroken.
#[derive(Debug, Clone)]
pub struct DrillJournal {
    /// The version that wrote it.
    pub version: String,
    /// The kind of drill.
    pub kind: DrillKind,
    /// The seed of the series.
    pub seed: u64,
    /// The wall clock when it was begun.
    pub begun_unix_s: u64,
    /// Every line after the second, with its line number in the file.
    pub lines: Vec<(usize, DrillLine)>,
    /// Whether an incomplete last line, without its line break, was left out.
    pub cut_short: bool,
}

impl DrillJournal {
    /// What came of the questions, as it was written down, the oldest first. An answer that was not
    /// judged any more, because the power failed, is not among them; a replay judges it.
    pub fn results(&self) -> impl Iterator<Item = &DrillResult> {
        self.lines.iter().filter_map(|(_, line)| match line {
            DrillLine::Judged(result) => Some(result),
            _ => None,
        })
    }
}

/// Reads a journal and verifies its chain. A last line without a line break was being written when the
/// power failed: it is left out, and nothing else is.
///
/// # Errors
///
/// The first line that is wrong.
pub fn read(bytes: &[u8]) -> Result<DrillJournal, DrillJournalError> {
    let mut chain = Chain::of(CHAIN);
    let mut lines = Vec::new();
    let mut cut_short = false;
    for (index, piece) in bytes.split_inclusive(|byte| *byte == b'\n').enumerate() {
        let line = index + 1;
        let Some(content) = piece.strip_suffix(b"\n") else {
            cut_short = true;
            break;
        };
        lines.push((line, read_line(line, content, &mut chain)?));
    }
    let mut lines = lines.into_iter();
    let Some((_, DrillLine::Drill { form, version })) = lines.next() else {
        return Err(DrillJournalError::NotADrill { line: 1 });
    };
    if version.len() > LONGEST_VERSION {
        return Err(DrillJournalError::NotADrill { line: 1 });
    }
    if form != DRILL_FORM {
        return Err(DrillJournalError::OtherForm { found: form, version });
    }
    let Some((_, DrillLine::Series { kind, seed, unix_s })) = lines.next() else {
        return Err(DrillJournalError::NotADrill { line: 2 });
    };
    let lines: Vec<_> = lines.collect();
    check_order(kind, seed, &lines)?;
    Ok(DrillJournal { version, kind, seed, begun_unix_s: unix_s, lines, cut_short })
}

/// Reads one line and adds it to the chain.
fn read_line(
    line: usize,
    content: &[u8],
    chain: &mut Chain,
) -> Result<DrillLine, DrillJournalError> {
    let no_line = if line == 1 {
        DrillJournalError::NotADrill { line }
    } else {
        DrillJournalError::Edited { line }
    };
    let Ok(content) = std::str::from_utf8(content) else { return Err(no_line) };
    let Some((hash, body)) = content.split_once(' ') else { return Err(no_line) };
    if hash.len() != 16 || content.len() > LONGEST_LINE || chain.add(body) != content {
        return Err(no_line);
    }
    ron::from_str(body)
        .map_err(|error| DrillJournalError::Unreadable { line, what: error.code.to_string() })
}

/// Each question is answered once, in order, and its result follows its answer.
fn check_order(
    kind: DrillKind,
    seed: u64,
    lines: &[(usize, DrillLine)],
) -> Result<(), DrillJournalError> {
    let (mut next, mut open, mut ended) = (0_u32, false, false);
    for (line, content) in lines {
        let stands = !ended
            && match content {
                DrillLine::Drill { .. } | DrillLine::Series { .. } => false,
                DrillLine::Moved { number, .. } => !open && *number == next,
                DrillLine::Answered { number, seconds, .. } => {
                    let fits = !open && *number == next && seconds.is_finite() && *seconds >= 0.0;
                    open = true;
                    fits
                }
                DrillLine::Judged(result) => {
                    let fits = open
                        && (result.kind, result.seed, result.number) == (kind, seed, next)
                        && result.seconds.is_finite()
                        && result.error.is_none_or(f64::is_finite);
                    open = false;
                    next = next.saturating_add(1);
                    fits
                }
                DrillLine::Ended { .. } => {
                    ended = true;
                    !open
                }
            };
        if !stands {
            let what = "no such line can stand here: use an unchanged copy of the journal";
            return Err(DrillJournalError::Unreadable { line: *line, what: what.to_owned() });
        }
    }
    Ok(())
}
