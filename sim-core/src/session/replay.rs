//! Replaying a session from its journal: to resume it, to verify it, to mark it.

use super::active_session::Session;
use super::journal::{self, Journal, JournalError, JournalLine, JournalSink, Writer};
use super::source::SessionSource;
use crate::scenario::{Drawn, KnownRules};
use crate::time::Tick;

/// A session replayed from its journal.
#[derive(Debug)]
pub struct Replayed {
    /// The session, at the last tick of the journal.
    pub session: Session,
    /// How many checksums were compared.
    pub checks: usize,
    /// Whether the journal's last line was incomplete and left out.
    pub cut_short: bool,
    /// Length in bytes of the complete lines: a journal is cut back to it before it is resumed.
    pub whole_bytes: usize,
}

/// Replays a journal to its last line and compares every checksum. The session then continues its
/// journal in `ink`.
///
/// # Errors
///
/// The first line that is wrong.
pub fn replay(text: &str, ink: Box<dyn JournalSink>) -> Result<Replayed, JournalError> {
    let journal = journal::read(text)?;
    let (mut session, rest) = begin_again(&journal)?;
    let mut checks = 0;
    let mut sealed = false;
    for (number, line) in rest {
        let seals = matches!(line, JournalLine::Sealed { .. });
        if sealed && seals {
            let what = "the session was sealed before: a journal has one seal".to_owned();
            return Err(JournalError::Unreadable { line: *number, what });
        }
        if !sealed && matches!(line, JournalLine::Judgement(_)) {
            let what =
                "a judgement stands before the seal, where the session has not ended".to_owned();
            return Err(JournalError::Unreadable { line: *number, what });
        }
        sealed |= seals;
        checks += usize::from(follow(&mut session, *number, line)? == Followed::Checksum);
    }
    if session.setup.terms.phases.is_some() && session.lesson.is_none() {
        let what = "the journal ends before its lesson begins: there is nothing to go on with, so begin a \
                    new session";
        return Err(JournalError::Unreadable { line: journal.lines.len(), what: what.to_owned() });
    }
    session.writer = Writer::new(journal.chain.clone(), ink);
    if let (false, Some((_, ending))) = (sealed, session.ended) {
        // The power failed between the last action and the seal.
        let line = journal.lines.len() + 1;
        session
            .end(ending)
            .map_err(|error| JournalError::Unreadable { line, what: error.to_string() })?;
    }
    let Journal { cut_short, whole_bytes, .. } = journal;
    Ok(Replayed { session, checks, cut_short, whole_bytes })
}

/// What a line was.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Followed {
    /// A checksum, which was compared.
    Checksum,
    /// Anything else.
    Other,
}

/// Does what a line says, and compares its checksum with the one that is due.
fn follow(
    session: &mut Session,
    number: usize,
    line: &JournalLine,
) -> Result<Followed, JournalError> {
    let differs =
        |tick: &Tick| JournalError::Differs { line: number, seconds: tick.whole_seconds() };
    let wrong = |what: String| JournalError::Unreadable { line: number, what };
    match line {
        JournalLine::Act { tick, action } => {
            go_to(session, number, *tick)?;
            nothing_due(session, number)?;
            if *tick < session.busy_until() {
                return Err(JournalError::HandsBusy {
                    line: number,
                    seconds: tick.whole_seconds(),
                });
            }
            session.act(action.clone()).map_err(|error| wrong(error.to_string()))?;
        }
        JournalLine::Check { tick, digest } => {
            go_to(session, number, *tick)?;
            compare(session, number, *tick, digest)?;
            return Ok(Followed::Checksum);
        }
        JournalLine::Sealed { tick, ending, digest } => {
            go_to(session, number, *tick)?;
            nothing_due(session, number)?;
            if session.ended() != Some(*ending) || session.digest() != *digest {
                return Err(differs(tick));
            }
            return Ok(Followed::Checksum);
        }
        JournalLine::Lesson { tick, digest } => {
            go_to(session, number, *tick)?;
            nothing_due(session, number)?;
            if session.setup.terms.phases.is_none() || session.lesson.is_some() {
                return Err(wrong("no lesson begins here".to_owned()));
            }
            if session.digest() != *digest {
                return Err(differs(tick));
            }
            session.begin_lesson().map_err(|error| wrong(error.to_string()))?;
            return Ok(Followed::Checksum);
        }
        JournalLine::Clock(note) => {
            go_to(session, number, note.tick)?;
            nothing_due(session, number)?;
            session.clock.push(note.clone());
        }
        JournalLine::Judgement(own) => {
            session.judge(own.clone()).map_err(|error| wrong(error.to_string()))?;
        }
        JournalLine::Journal { .. } | JournalLine::Scenario { .. } | JournalLine::Drawn { .. } => {
            return Err(wrong("this line may only stand at the head of a journal".to_owned()));
        }
    }
    Ok(Followed::Other)
}

/// Lets time pass up to the tick of a line.
fn go_to(session: &mut Session, line: usize, tick: Tick) -> Result<(), JournalError> {
    let differs = || JournalError::Differs { line, seconds: tick.whole_seconds() };
    let ticks = tick.0.checked_sub(session.now().0).ok_or_else(differs)?;
    session.advance(ticks).map_err(|_| differs())
}

/// Refuses a line before which a checksum is missing.
fn nothing_due(session: &mut Session, line: usize) -> Result<(), JournalError> {
    match session.writer.next_due() {
        None => Ok(()),
        Some(due) => Err(JournalError::MissingChecksum { line, seconds: due.tick.whole_seconds() }),
    }
}

/// Compares a checksum of the journal with the one that is due.
fn compare(
    session: &mut Session,
    line: usize,
    tick: Tick,
    digest: &str,
) -> Result<(), JournalError> {
    let seconds = tick.whole_seconds();
    match session.writer.next_due() {
        None => Err(JournalError::NoChecksumDue { line, seconds }),
        Some(due) if due.tick != tick => {
            Err(JournalError::MissingChecksum { line, seconds: due.tick.whole_seconds() })
        }
        Some(due) if due.digest != digest => Err(JournalError::Differs { line, seconds }),
        Some(_) => Ok(()),
    }
}

/// Lines with their numbers in the file.
type Numbered<'a> = &'a [(usize, JournalLine)];

/// The session at its start, from the three lines at the head, and the lines after them.
fn begin_again(journal: &Journal) -> Result<(Session, Numbered<'_>), JournalError> {
    match journal.lines.as_slice() {
        [
            (_, JournalLine::Journal { .. }),
            (line, JournalLine::Scenario { sha256, text }),
            (drawn_line, JournalLine::Drawn { seed, values }),
            rest @ ..,
        ] => {
            let wrong = |what: String| JournalError::Unreadable { line: *line, what };
            if crate::digest::sha256_hex(text.as_bytes()) != *sha256 {
                return Err(wrong("the scenario's text does not match its hash".to_owned()));
            }
            let scenario = crate::scenario::check(text, KnownRules::Any).map_err(|problems| {
                let first = problems.first().map(ToString::to_string).unwrap_or_default();
                wrong(format!("the scenario has a problem: {first}"))
            })?;
            let source = SessionSource {
                text: text.clone(),
                sha256: sha256.clone(),
                seed: *seed,
                drawn: Drawn::from_journal(values.clone()),
            };
            let writer = Writer::replaying();
            let session = Session::at_start(&scenario, source, writer).map_err(|error| {
                JournalError::Unreadable { line: *drawn_line, what: error.to_string() }
            })?;
            Ok((session, rest))
        }
        lines => Err(JournalError::Unreadable {
            line: lines.len(),
            what: "the journal ends before its session begins: there is nothing to replay, so \
                   begin a new session"
                .to_owned(),
        }),
    }
}

/// Length in bytes of the complete lines of a journal.
///
/// # Errors
///
/// The first line that is wrong.
pub fn whole_bytes(text: &str) -> Result<usize, JournalError> {
    journal::read(text).map(|journal| journal.whole_bytes)
}
