//! A talk: sentences in, sentences out, until the book is signed or the talker leaves.

mod back;
mod echo;
mod form;
mod judging;
mod lesson;
mod question;
#[cfg(test)]
mod tests;
mod undone;

use std::io::{BufRead, Write};
use std::path::PathBuf;

use sessions::{FrontEndError, InputLine, LiveSession, Opened, read_line, wall_clock_s};
use sim_core::session::ActError;
use sim_core::session::action::{Action, HelpTopic, Sight};
use sim_core::session::clock::ClockEvent;
use sim_core::session::view::View;

use super::advice::History;
use super::briefing::{briefing, briefing_text};
use super::caution::{cautions, cautions_on_arrival};
use super::checklist::checklist;
use super::help::help;
use super::musts::{beneath_order, explained};
use super::parse::parse;
use super::printable::printable;
use super::request::{Request, Settling};
use super::say::{history_page, listen, look, notice, refused};
use super::script::{Step, settle};
use super::service::shown_step;
use super::topic::Topic;
use super::{advice, own_sums};
use echo::Stale;

/// What is said first.
const WELCOME: &str = "\
This is a training aid, not a procedure: the site's own rules, the instrument's own instructions,
local codes and licensed practice come first.
";
/// What is said before the first sentence.
const START: &str = "\
Say what you do in plain words. `help` lists the sentences; `look at work order` is a good start.
";
/// What is said first where no journal is kept.
const NO_JOURNAL: &str = "No journal is kept, so your work is lost when you leave. To keep it, start with --journal FILE.";

/// A talk about a session.
#[derive(Debug)]
pub struct Talk {
    session: Box<dyn LiveSession>,
    notice: Option<String>,
    journal: Option<PathBuf>,
    /// What the visit is for, said to somebody who begins.
    situation: Option<String>,
    last: Option<String>,
    /// What was cautioned about already.
    cautions: Vec<&'static str>,
    stale: Stale,
    /// What was asked about once more and not yet answered.
    asked: Option<Action>,
    /// The next step as it was shown last.
    shown: Option<String>,
}

impl Talk {
    /// A talk about a session that was opened.
    pub fn new(opened: Opened) -> Self {
        let Opened { session, notice, journal, situation } = opened;
        let mut stale = Stale::default();
        for (_, action) in session.done() {
            stale.after(action);
        }
        let (last, cautions, asked) = (None, Vec::new(), None);
        let shown = None;
        Self { session, notice, journal, situation, last, cautions, stale, asked, shown }
    }

    /// Talks until the end: gives the session back when it has ended, and nothing when the talker
    /// has left before.
    ///
    /// # Errors
    ///
    /// When the journal or the output cannot be written.
    pub fn run(
        mut self,
        input: &mut dyn BufRead,
        out: &mut dyn Write,
    ) -> Result<Option<Box<dyn LiveSession>>, FrontEndError> {
        self.greet(out)?;
        let ends_now = self.session.ended().is_none();
        let mut line = String::new();
        while self.session.ended().is_none() {
            self.show_next(out)?;
            write!(out, "{} > ", self.session.view().time)?;
            out.flush()?;
            line.clear();
            match read_line(input, &mut line)? {
                InputLine::End => {
                    writeln!(out)?;
                    self.leave(out)?;
                    return Ok(None);
                }
                InputLine::TooLong => {
                    writeln!(out, "That is too long. Say one thing at a time.")?;
                    continue;
                }
                InputLine::Line => {}
            }
            if self.hear(line.trim(), out)? == Heard::Leaves {
                self.leave(out)?;
                return Ok(None);
            }
        }
        if ends_now && self.session.judgement().is_none() {
            judging::judge(self.session.as_mut(), input, out)?;
        }
        Ok(Some(self.session))
    }

    /// Says the next step where a lesson shows it all the time, unless it is the one that was said last.
    fn show_next(&mut self, out: &mut dyn Write) -> Result<(), FrontEndError> {
        let next = shown_step(self.session.as_ref());
        if next != self.shown {
            if let Some(words) = &next {
                writeln!(out, "Next: {words}")?;
            }
            self.shown = next;
        }
        Ok(())
    }

    /// Says the first words; to somebody who comes back, where the work stands.
    fn greet(&mut self, out: &mut dyn Write) -> Result<(), FrontEndError> {
        writeln!(out, "{WELCOME}")?;
        if let Some(situation) = &self.situation {
            writeln!(out, "{}\n", printable(situation))?;
        }
        // Who comes back is on the roof already.
        if back::is_fresh(self.session.as_ref()) {
            writeln!(out, "{}\n", briefing_text(&briefing(&self.session.papers())))?;
            writeln!(out, "Before you go up:")?;
            for caution in cautions_on_arrival() {
                self.cautions.push(caution.about);
                writeln!(out, "  Caution: {}", caution.whole)?;
            }
            writeln!(out)?;
        }
        if let Some(words) = lesson::told(self.session.as_ref()) {
            writeln!(out, "{words}\n")?;
        }
        writeln!(out, "{START}")?;
        if let Some(notice) = &self.notice {
            writeln!(out, "Note: {}.\n", printable(notice))?;
        }
        if self.journal.is_none() {
            writeln!(out, "{NO_JOURNAL}\n")?;
        }
        if let Some(words) = back::welcome_back(self.session.as_ref()) {
            writeln!(out, "{words}\n")?;
        }
        Ok(())
    }

    /// Says the last words of a session that is not signed.
    fn leave(&mut self, out: &mut dyn Write) -> Result<(), FrontEndError> {
        if self.journal.is_some() {
            let left =
                self.session.note_clock(ClockEvent::Left, wall_clock_s(), "the talk was left");
            left.map_err(|error| FrontEndError::Wrong(error.to_string()))?;
        }
        match &self.journal {
            Some(path) => writeln!(
                out,
                "The session is not signed. To continue it: steady-draw drive --words --resume {}",
                printable(&path.display().to_string())
            )?,
            None => writeln!(out, "The session is not signed, and no journal of it was kept.")?,
        }
        Ok(())
    }

    /// Does what one sentence asks for.
    fn hear(&mut self, sentence: &str, out: &mut dyn Write) -> Result<Heard, FrontEndError> {
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
            Request::Help(Some(Topic::Musts)) => {
                writeln!(out, "{}", explained(Some(&self.session.papers())))?;
            }
            Request::Help(topic) => writeln!(out, "{}", help(topic))?,
            Request::Book => writeln!(out, "{}", form::form(self.session.as_ref()))?,
            Request::Checklist => {
                let done = self.session.done().map(|(_, action)| action);
                writeln!(out, "{}", checklist(&self.session.papers(), done))?;
            }
            Request::History => {
                let (papers, book) = (self.session.papers(), self.session.book());
                writeln!(out, "{}", history_page(&papers, book))?;
            }
            Request::Again => match self.last.clone() {
                Some(last) => return self.hear(&last, out),
                None => writeln!(out, "There is nothing to repeat yet.")?,
            },
            Request::Undone => writeln!(out, "{}", undone::answer(self.session.as_ref()))?,
            Request::Anyway(actions) => {
                self.asked = actions.first().cloned();
                self.act(actions, out)?;
            }
            Request::Settle(settling) => {
                self.last = Some(sentence.to_owned());
                self.settle(settling, out)?;
            }
            Request::Wait(seconds) => {
                self.last = Some(sentence.to_owned());
                self.step(Step::Wait(seconds), Echo::Said, out)?;
            }
            Request::Do(actions) => {
                self.last = Some(sentence.to_owned());
                self.act(actions, out)?;
            }
        }
        Ok(Heard::Stays)
    }

    /// Does the actions of one sentence, as far as they can be done; `false` where not all of them
    /// could be.
    fn act(
        &mut self,
        mut actions: Vec<Action>,
        out: &mut dyn Write,
    ) -> Result<bool, FrontEndError> {
        // What cannot be undone is asked about when all that was said before it is done.
        if let [_, .., Action::Sign | Action::LeaveSite] = actions.as_slice() {
            let last = actions.split_off(actions.len() - 1);
            return Ok(self.act(actions, out)? && self.act(last, out)?);
        }
        if self.asks_once_more(&actions, out)? {
            return Ok(true);
        }
        let together = echo::together(&actions);
        let note = actions.iter().find_map(|action| self.stale.note(action));
        let echo = if together.is_some() { Echo::Silent } else { Echo::Said };
        let mut all = true;
        for action in actions {
            if !self.step(Step::Do(action), echo, out)? {
                all = false;
                break;
            }
        }
        if let Some(words) = together.filter(|_| all) {
            writeln!(out, "{words}")?;
        }
        if let Some(note) = note {
            writeln!(out, "{note}")?;
        }
        Ok(all)
    }

    /// Asks once more before what cannot be undone, where something is plainly missing. `true` when it has
    /// asked: the same again right after it is the answer.
    fn asks_once_more(
        &mut self,
        actions: &[Action],
        out: &mut dyn Write,
    ) -> Result<bool, FrontEndError> {
        let asked = self.asked.take();
        let [action] = actions else { return Ok(false) };
        if asked.as_ref() == Some(action) {
            return Ok(false);
        }
        let Some(question) = question::before(self.session.as_ref(), action) else {
            return Ok(false);
        };
        self.asked = Some(action.clone());
        writeln!(out, "{question}")?;
        Ok(true)
    }

    /// Takes one step and says what is noticed. `false` when it could not be done.
    fn step(&mut self, step: Step, echo: Echo, out: &mut dyn Write) -> Result<bool, FrontEndError> {
        let action = match &step {
            Step::Do(action) => action.clone(),
            Step::Wait(seconds) => Action::Wait { seconds: *seconds },
            Step::Settle(settling) => return self.settle(*settling, out).map(|()| true),
        };
        for caution in cautions(&action) {
            if !self.cautions.contains(&caution.about) {
                self.cautions.push(caution.about);
                writeln!(out, "Caution: {}", caution.whole)?;
            }
        }
        let before = self.session.view();
        match step.take(self.session.as_mut()) {
            Ok(()) => {}
            Err(ActError::Refused(refusal)) => {
                writeln!(out, "{}", refused(&refusal))?;
                return Ok(false);
            }
            Err(error) => return Err(FrontEndError::Wrong(error.to_string())),
        }
        self.stale.after(&action);
        self.say(&action, &before, echo, out)?;
        Ok(true)
    }

    /// Waits until something has come to rest, and says what is noticed.
    fn settle(&mut self, settling: Settling, out: &mut dyn Write) -> Result<(), FrontEndError> {
        let before = self.session.view();
        match settle(self.session.as_mut(), settling) {
            Ok(rests) => {
                let view = self.session.view();
                for words in notice(&before, &view) {
                    writeln!(out, "{words}")?;
                }
                let end = if rests { "At rest" } else { "Still not at rest after two minutes" };
                writeln!(out, "{end}: it is {}.", view.time)?;
                Ok(())
            }
            Err(ActError::Refused(refusal)) => Ok(writeln!(out, "{}", refused(&refusal))?),
            Err(error) => Err(FrontEndError::Wrong(error.to_string())),
        }
    }

    /// Says what is seen where the eyes are, and what is noticed elsewhere.
    fn say(
        &self,
        action: &Action,
        before: &View,
        echo: Echo,
        out: &mut dyn Write,
    ) -> Result<(), FrontEndError> {
        let (view, papers) = (self.session.view(), self.session.papers());
        let mut said = true;
        match action {
            Action::Look { at, .. } => {
                writeln!(out, "{}", look(&view, *at, &papers))?;
                if *at == Sight::WorkOrder {
                    writeln!(out, "{}", beneath_order(&papers))?;
                }
            }
            Action::Listen => writeln!(out, "{}", listen(&view))?,
            Action::ReadInWords => {
                let read = self.session.read_in_words().unwrap_or_else(|| view.clone());
                writeln!(out, "{}", look(&read, read.focus, &papers))?;
            }
            Action::AskHelp { topic } => writeln!(out, "{}", self.answer(*topic))?,
            Action::Write { .. } | Action::Report(_) | Action::Tap if echo == Echo::Said => {
                writeln!(out, "{}", echo::echo(action))?;
            }
            Action::Sign | Action::LeaveRoof => {}
            _ => said = false,
        }
        let noticed = notice(before, &view);
        if noticed.is_empty() && !said && echo == Echo::Said {
            writeln!(out, "{}", echo::echo(action))?;
        }
        for words in noticed {
            writeln!(out, "{words}")?;
        }
        if let Some(words) = echo::pencilled(action, &view) {
            writeln!(out, "{words}")?;
        }
        Ok(())
    }

    /// The answer to a question about the work.
    fn answer(&self, topic: HelpTopic) -> String {
        let (session, view) = (&self.session, self.session.view());
        let advice = || {
            let history = History::of(session.done());
            advice::what_now(&view, session.book(), &session.papers(), &history)
        };
        let averages = session.papers().work_order.averages;
        let answer = match topic {
            HelpTopic::WhatNow => advice::step(&view, &advice()),
            HelpTopic::Why => advice::why(&advice()),
            HelpTopic::ShowMe => format!("Say: {}", quoted(&advice::sentences(&view, &advice()))),
            HelpTopic::Sums => own_sums::sums(session.book(), averages),
            HelpTopic::Plot => own_sums::plot(session.book(), averages),
        };
        format!("{answer}\n(Your request is logged.)")
    }
}

/// Sentences to be said one after the other.
fn quoted(sentences: &[String]) -> String {
    let quoted: Vec<String> = sentences.iter().map(|sentence| format!("`{sentence}`")).collect();
    quoted.join(", then ")
}

/// Whether what was done is said back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Echo {
    /// It is.
    Said,
    /// The whole sentence is said back at its end.
    Silent,
}

/// Whether the talker stays.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Heard {
    /// The talk goes on.
    Stays,
    /// The talker leaves.
    Leaves,
}
