//! What a journal says of itself at its head and its tail. A list of many long journals reads no more
//! of them than this.

use std::io::{self, BufRead, BufReader, Read, Seek, SeekFrom};

use sim_core::VERSION;
use sim_core::session::journal::JournalLine;
use sim_core::time::Tick;

/// Most bytes of a head that are read: a scenario is a few kilobytes, the largest one 4 MiB.
const LONGEST_HEAD: u64 = 16 * 1024 * 1024;
/// Bytes that are read at the tail at first; more only where a line is longer.
const TAIL_STEP: u64 = 4 * 1024;
/// Most bytes of a tail that are read: no entry of the field book is nearly as long.
const LONGEST_TAIL: u64 = 1024 * 1024;

/// What the ends of a journal say.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JournalEnds {
    /// The version of the program that wrote it.
    pub version: String,
    /// The scenario's checksum and text, where they are written as this version writes them.
    pub scenario: Option<(String, String)>,
    /// The seed of its bench.
    pub seed: Option<u64>,
    /// The tick of its last line.
    pub last: Option<Tick>,
    /// Whether it is sealed.
    pub sealed: bool,
}

impl JournalEnds {
    /// Whether this version of the program can open it.
    pub fn is_of_this_version(&self) -> bool {
        self.version == VERSION
    }

    /// Reads the ends of a journal; `None` when it is no journal of a session. Neither the chain nor
    /// anything between the ends is looked at: whoever opens the session does that.
    ///
    /// # Errors
    ///
    /// When it cannot be read.
    pub fn read<J: Read + Seek>(mut journal: J) -> io::Result<Option<Self>> {
        let mut head = BufReader::new((&mut journal).take(LONGEST_HEAD));
        let Some(JournalLine::Journal { version, .. }) = next_line(&mut head)? else {
            return Ok(None);
        };
        let scenario = match next_line(&mut head)? {
            Some(JournalLine::Scenario { sha256, text }) => Some((sha256, text)),
            _ => None,
        };
        let seed = match next_line(&mut head)? {
            Some(JournalLine::Drawn { seed, .. }) => Some(seed),
            _ => None,
        };
        let (last, sealed) = tail(&mut journal)?;
        Ok(Some(Self { version, scenario, seed, last, sealed }))
    }
}

/// The next line that has its line break and can be read.
fn next_line(head: &mut impl BufRead) -> io::Result<Option<JournalLine>> {
    let mut bytes = Vec::new();
    head.read_until(b'\n', &mut bytes)?;
    Ok(bytes.strip_suffix(b"\n").and_then(parsed))
}

/// What stands in a line behind its hash.
fn parsed(line: &[u8]) -> Option<JournalLine> {
    let (_, body) = std::str::from_utf8(line).ok()?.split_once(' ')?;
    ron::from_str(body).ok()
}

/// The tick of the last whole line, and whether the journal is sealed: behind the seal stand notes of
/// the clock on the wall and the trainee's judgement at most.
fn tail<J: Read + Seek>(journal: &mut J) -> io::Result<(Option<Tick>, bool)> {
    let length = journal.seek(SeekFrom::End(0))?;
    let mut step = TAIL_STEP;
    loop {
        let from = length.saturating_sub(step);
        journal.seek(SeekFrom::Start(from))?;
        let mut bytes = Vec::new();
        journal.by_ref().take(step).read_to_end(&mut bytes)?;
        let whole = from == 0;
        if let Some(found) = last_of(&bytes, whole) {
            return Ok(found);
        }
        if whole || step >= LONGEST_TAIL {
            return Ok((None, false));
        }
        step = step.saturating_mul(8);
    }
}

/// The same from the last bytes of a journal; `None` when they do not reach far enough back. A first
/// piece that is not the beginning of the journal may be half a line, and is left out.
fn last_of(bytes: &[u8], whole: bool) -> Option<(Option<Tick>, bool)> {
    let end = bytes.iter().rposition(|&byte| byte == b'\n')?;
    let lines = bytes.get(..end)?.split(|&byte| byte == b'\n');
    let lines: Vec<&[u8]> = lines.skip(usize::from(!whole)).collect();
    let mut last = None;
    for line in lines.into_iter().rev() {
        match parsed(line) {
            Some(JournalLine::Clock(note)) => last = last.or(Some(note.tick)),
            Some(JournalLine::Judgement(_)) => {}
            Some(JournalLine::Sealed { tick, .. }) => return Some((last.or(Some(tick)), true)),
            Some(
                JournalLine::Act { tick, .. }
                | JournalLine::Check { tick, .. }
                | JournalLine::Lesson { tick, .. },
            ) => {
                return Some((last.or(Some(tick)), false));
            }
            // A head without a body, or a line that this version does not read.
            Some(_) | None => return Some((last, false)),
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;
    use std::io::{self, Cursor, Read, Seek, SeekFrom};
    use std::sync::{Arc, Mutex};

    use sim_core::session::Session;
    use sim_core::session::action::Action;
    use sim_core::session::clock::ClockEvent;
    use sim_core::session::journal::{JournalSink, SinkError};
    use sim_core::time::Tick;

    use super::JournalEnds;

    const SCENARIO: &str = include_str!("../../../scenarios/01_first_calibration.ron");

    /// A journal in memory.
    #[derive(Debug, Clone, Default)]
    struct Memory(Arc<Mutex<String>>);

    impl JournalSink for Memory {
        fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
            let mut text = self.0.lock().expect("it is whole");
            text.push_str(line);
            text.push('\n');
            Ok(())
        }
    }

    fn journal(work: impl FnOnce(&mut Session)) -> String {
        let memory = Memory::default();
        let mut session = Session::begin(SCENARIO, 7, Box::new(memory.clone())).expect("a session");
        work(&mut session);
        let text = memory.0.lock().expect("it is whole");
        text.clone()
    }

    fn ends(text: &str) -> JournalEnds {
        JournalEnds::read(Cursor::new(text)).expect("it is read").expect("a journal")
    }

    #[test]
    fn a_journal_says_how_far_it_went_and_whether_it_is_sealed() {
        let begun = ends(&journal(|_| ()));
        assert_eq!((begun.seed, begun.last, begun.sealed), (Some(7), None, false));
        assert!(begun.is_of_this_version());
        assert!(begun.scenario.expect("a scenario").1 == SCENARIO);
        let under_way = journal(|session| {
            session.act(Action::OpenLid).expect("it opens");
            session.advance(20 * 90).expect("time passes");
            session.note_clock(ClockEvent::Left, 1_800_000_000, "put aside").expect("it is noted");
        });
        let left = ends(&under_way);
        assert_eq!((left.last, left.sealed), (Some(Tick(20 * 90)), false));
        let ended = journal(|session| {
            session.advance(400).expect("time passes");
            session.act(Action::Sign).expect("it is signed");
            session.note_clock(ClockEvent::Ended, 1_800_000_000, "signed").expect("it is noted");
        });
        let ended = ends(&ended);
        assert_eq!((ended.last, ended.sealed), (Some(Tick(400)), true));
    }

    #[test]
    fn a_last_line_that_was_broken_off_is_left_out() {
        let text = journal(|session| {
            session.advance(100).expect("time passes");
            session.act(Action::OpenLid).expect("it opens");
            session.advance(100).expect("time passes");
            session.act(Action::CloseLid).expect("it closes");
        });
        let broken = ends(&text[..text.len() - 5]);
        assert_eq!((broken.last, broken.sealed), (Some(Tick(100)), false));
    }

    #[test]
    fn what_is_no_journal_is_none() {
        for text in ["", "no journal", "0123456789abcdef Nothing\n", "\u{0}\n\n"] {
            assert_eq!(JournalEnds::read(Cursor::new(text)).expect("it is read"), None, "{text:?}");
        }
    }

    /// Counts what is read.
    struct Counted<'a> {
        journal: Cursor<Vec<u8>>,
        bytes: &'a Cell<usize>,
    }

    impl Read for Counted<'_> {
        fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
            let read = self.journal.read(buffer)?;
            self.bytes.set(self.bytes.get() + read);
            Ok(read)
        }
    }

    impl Seek for Counted<'_> {
        fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
            self.journal.seek(to)
        }
    }

    #[test]
    fn of_a_long_journal_only_the_ends_are_read() {
        let mut text = journal(|session| {
            session.advance(20).expect("time passes");
            session.act(Action::OpenLid).expect("it opens");
        });
        let line = text.lines().last().expect("a line").to_owned();
        while text.len() < 20_000_000 {
            text.push_str(&line);
            text.push('\n');
        }
        let bytes = Cell::new(0);
        let read = JournalEnds::read(Counted { journal: Cursor::new(text.into()), bytes: &bytes });
        let read = read.expect("it is read").expect("a journal");
        assert_eq!((read.last, read.sealed), (Some(Tick(20)), false));
        assert!(bytes.get() < 100_000, "{} bytes were read", bytes.get());
    }
}
