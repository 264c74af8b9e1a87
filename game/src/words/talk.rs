//! A talk: sentences in, sentences out, until the book is signed or the talker leaves.

use std::io::{BufRead, Write};

use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;
use sim_core::session::{ActError, Session};

use super::script::Step;
use super::{Request, caution, help, look, notice, parse, refused};
use crate::commands::drive::{Read, read_line};
use crate::commands::session_files::end_of;
use crate::commands::{CommandError, Outcome};
use crate::report;

/// What is said first.
const WELCOME: &str = "\
A training aid, not a procedure: the site's own rules, the instrument's own instructions, local
codes and licensed practice come first.

Say what you do, in plain words. `help` lists the sentences; `look at work order` is a good start.
";

/// A talk about a session.
#[derive(Debug)]
pub struct Talk {
    session: Session,
    last: Option<String>,
}

impl Talk {
    /// A talk about a session, with what is to be said about how it was opened.
    pub const fn new(session: Session) -> Self {
        Self { session, last: None }
    }

    /// Talks until the end.
    ///
    /// # Errors
    ///
    /// When the journal or the output cannot be written.
    pub fn run(
        mut self,
        notice: Option<&str>,
        input: &mut dyn BufRead,
        out: &mut dyn Write,
    ) -> Result<Outcome, CommandError> {
        writeln!(out, "{WELCOME}")?;
        if let Some(notice) = notice {
            writeln!(out, "Note: {notice}.\n")?;
        }
        let mut line = String::new();
        while self.session.ended().is_none() {
            write!(out, "{} > ", self.session.view().time)?;
            out.flush()?;
            line.clear();
            match read_line(input, &mut line)? {
                Read::End => {
                    writeln!(out, "\nThe session is not signed.")?;
                    return Ok(Outcome::Done);
                }
                Read::TooLong => {
                    writeln!(out, "That is too long: say one thing at a time.")?;
                    continue;
                }
                Read::Line => {}
            }
            if self.hear(line.trim(), out)? == Heard::Leaves {
                writeln!(out, "The session is not signed; its journal can be gone on with.")?;
                return Ok(Outcome::Done);
            }
        }
        let ended = end_of(self.session)?;
        writeln!(out)?;
        report::words::write_debrief(out, &ended)?;
        Ok(if ended.marks.passed { Outcome::Done } else { Outcome::Negative })
    }

    /// Does what one sentence asks for.
    fn hear(&mut self, sentence: &str, out: &mut dyn Write) -> Result<Heard, CommandError> {
        if sentence.is_empty() {
            return Ok(Heard::Stays);
        }
        let request = match parse(sentence, &self.session.view(), self.session.book()) {
            Ok(request) => request,
            Err(error) => {
                writeln!(out, "{error}")?;
                return Ok(Heard::Stays);
            }
        };
        match request {
            Request::Quit => return Ok(Heard::Leaves),
            Request::Help(topic) => writeln!(out, "{}", help(topic))?,
            Request::Book => self.show_book(out)?,
            Request::Again => match self.last.clone() {
                Some(last) => return self.hear(&last, out),
                None => writeln!(out, "Nothing was asked for yet.")?,
            },
            Request::Wait(seconds) => {
                self.last = Some(sentence.to_owned());
                self.step(Step::Wait(seconds), out)?;
            }
            Request::Do(actions) => {
                self.last = Some(sentence.to_owned());
                for action in actions {
                    if !self.step(Step::Do(action), out)? {
                        break;
                    }
                }
            }
        }
        Ok(Heard::Stays)
    }

    /// Takes one step and says what is noticed. `false` when it could not be done.
    fn step(&mut self, step: Step, out: &mut dyn Write) -> Result<bool, CommandError> {
        if let Step::Do(action) = &step
            && let Some(words) = caution(action)
        {
            writeln!(out, "{words}")?;
        }
        let before = self.session.view();
        let sight = match &step {
            Step::Do(Action::Look { at, .. }) => Some(*at),
            _ => None,
        };
        match step.take(&mut self.session) {
            Ok(()) => {}
            Err(ActError::Refused(refusal)) => {
                writeln!(out, "{}", refused(&refusal))?;
                return Ok(false);
            }
            Err(error) => return Err(CommandError::Wrong(error.to_string())),
        }
        self.say(sight, &before, out)?;
        Ok(true)
    }

    /// Says what is seen where the eyes are, and what strikes the senses elsewhere.
    fn say(
        &self,
        sight: Option<Sight>,
        before: &View,
        out: &mut dyn Write,
    ) -> Result<(), CommandError> {
        let view = self.session.view();
        if let Some(sight) = sight {
            writeln!(out, "{}", look(&view, sight, &self.session.papers()))?;
        }
        for words in notice(before, &view) {
            writeln!(out, "{words}")?;
        }
        Ok(())
    }

    /// What stands in the field book.
    fn show_book(&self, out: &mut dyn Write) -> Result<(), CommandError> {
        let book = self.session.book();
        if book.entries().is_empty() {
            writeln!(out, "The field book is empty.")?;
        }
        for entry in book.entries() {
            let standing = book.entry(entry.field).is_some_and(|now| std::ptr::eq(now, entry));
            let struck = if standing { "" } else { "   (struck out)" };
            let time = self.session.papers().station.start.after(entry.tick);
            let field = report::words::field_name(entry.field);
            writeln!(out, "{time}  {field}: {}{struck}", entry.text)?;
        }
        Ok(())
    }
}

/// Whether the talker stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heard {
    /// The talk goes on.
    Stays,
    /// The talker leaves.
    Leaves,
}
