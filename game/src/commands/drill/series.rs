//! A series of questions in a terminal: asked, answered, judged.

use std::io::{BufRead, Write};
use std::path::{Path, PathBuf};
use std::time::Instant;

use serde_json::json;
use sessions::{
    Durability, FrontEndError, InputLine, JournalFile, Outcome, printable_path, read_line,
    wall_clock_s,
};
use sim_core::drill::{Answer, DrillError, DrillKind, DrillMove, DrillSeries, Judged};
use sim_core::session::journal::{JournalSink, NullSink};
use words::drill::{
    DrillRequest, asked, heard, help, reading, seen, standard_words, summary, told,
};

use super::super::json::print_object;
use super::said::Said;
use super::{json, kept, pictures};

/// In which form a drill talks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// Plain sentences.
    Words,
    /// One object a line.
    Json,
}

/// The clocks of this machine.
#[derive(Debug)]
pub(super) struct Clock {
    began: Instant,
}

impl Default for Clock {
    fn default() -> Self {
        Self { began: Instant::now() }
    }
}

impl Clock {
    /// Seconds since the drill began.
    fn seconds(&self) -> f64 {
        self.began.elapsed().as_secs_f64()
    }
}

/// The series that is asked for.
#[derive(Debug)]
pub(super) struct Order {
    /// The drill.
    pub(super) kind: DrillKind,
    /// The seed of its questions.
    pub(super) seed: u64,
    /// How many.
    pub(super) count: u32,
    /// In which form it talks.
    pub(super) form: Form,
    /// Where its journal is kept.
    pub(super) journal: Option<PathBuf>,
    /// Where its questions are drawn.
    pub(super) pictures: Option<PathBuf>,
}

/// Asks the questions of a series.
pub(super) fn run(
    order: &Order,
    clock: &Clock,
    input: &mut dyn BufRead,
    out: &mut dyn Write,
) -> Result<Outcome, FrontEndError> {
    let ink: Box<dyn JournalSink> = match &order.journal {
        Some(path) => Box::new(new_journal(path)?),
        None => Box::new(NullSink),
    };
    let series = DrillSeries::begin(order.kind, order.seed, wall_clock_s(), ink).map_err(wrong)?;
    let pictures = order.pictures.as_deref();
    let mut talk = Talk { series, form: order.form, pictures, clock, out };
    talk.greet(order.count)?;
    for number in 0..order.count {
        if number > 0 {
            talk.series.go_on().map_err(wrong)?;
        }
        if talk.ask(input)? == Went::Left {
            break;
        }
    }
    talk.end()
}

/// A journal in a new file.
fn new_journal(path: &Path) -> Result<JournalFile, FrontEndError> {
    if path.exists() {
        return Err(FrontEndError::File {
            doing: "create",
            path: path.to_owned(),
            reason: "it already exists: choose another name".to_owned(),
        });
    }
    JournalFile::create(path, Durability::EachLine)
}

/// What became of a question.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Went {
    /// It was answered.
    Answered,
    /// The person left.
    Left,
}

/// A drill under way.
struct Talk<'a> {
    series: DrillSeries,
    form: Form,
    pictures: Option<&'a Path>,
    clock: &'a Clock,
    out: &'a mut dyn Write,
}

impl Talk<'_> {
    fn greet(&mut self, count: u32) -> Result<(), FrontEndError> {
        if self.form == Form::Words {
            let kind = self.series.kind();
            writeln!(self.out, "{} Seed {}.", kept::titled(kind), self.series.seed())?;
            writeln!(self.out, "{}", standard_words(kind))?;
            let questions = if count == 1 { "1 question" } else { &format!("{count} questions") };
            writeln!(self.out, "{questions}; `help` says what you can say.")?;
        }
        Ok(())
    }

    /// Asks one question until it is answered.
    fn ask(&mut self, input: &mut dyn BufRead) -> Result<Went, FrontEndError> {
        self.show()?;
        let since = self.clock.seconds();
        let mut line = String::new();
        loop {
            if self.form == Form::Words {
                write!(self.out, "> ")?;
                self.out.flush()?;
            }
            line.clear();
            match read_line(input, &mut line)? {
                InputLine::End => {
                    if self.form == Form::Words {
                        writeln!(self.out)?;
                    }
                    return Ok(Went::Left);
                }
                InputLine::TooLong => {
                    self.refuse("the line is longer than 64 KiB: give one answer per line")?;
                    continue;
                }
                InputLine::Line if line.trim().is_empty() => continue,
                InputLine::Line => {}
            }
            let asked = match self.form {
                Form::Words => match heard(line.trim(), self.series.question()) {
                    Ok(request) => Said::Request(request),
                    Err(why) => Said::NotUnderstood(why),
                },
                Form::Json => json::said(line.trim()),
            };
            match asked {
                Said::NotUnderstood(why) => self.not_understood(&why)?,
                Said::Request(DrillRequest::Quit) => return Ok(Went::Left),
                Said::Request(DrillRequest::Help) => {
                    writeln!(self.out, "{}", help(self.series.question()))?;
                }
                Said::Request(DrillRequest::Again) => self.show()?,
                Said::Request(DrillRequest::Move(made)) => self.make(made)?,
                Said::Request(DrillRequest::Answer(answer)) => {
                    if self.answer(answer, self.clock.seconds() - since)? {
                        return Ok(Went::Answered);
                    }
                }
            }
        }
    }

    /// Shows the question as it stands.
    fn show(&mut self) -> Result<(), FrontEndError> {
        let question = self.series.question();
        let drawn = match self.pictures {
            Some(folder) => pictures::draw(question, folder)?,
            None => Vec::new(),
        };
        match self.form {
            Form::Words => {
                writeln!(self.out, "\nQuestion {}", question.number() + 1)?;
                writeln!(self.out, "{}", seen(question))?;
                if let Some(reading) = reading(question) {
                    writeln!(self.out, "Read out: {reading}")?;
                }
                for path in &drawn {
                    writeln!(self.out, "Picture: {}", printable_path(path))?;
                }
                writeln!(self.out, "{}", asked(question))?;
            }
            Form::Json => self.say(&json::question(self.series.question(), &drawn))?,
        }
        Ok(())
    }

    /// Does something to see better, and shows the question again.
    fn make(&mut self, made: DrillMove) -> Result<(), FrontEndError> {
        match self.series.make(made) {
            Ok(()) => self.show(),
            Err(DrillError::Refused(why)) => self.refuse(&why),
            Err(error) => Err(wrong(error)),
        }
    }

    /// Takes an answer; whether it was one.
    fn answer(&mut self, answer: Answer, seconds: f64) -> Result<bool, FrontEndError> {
        match self.series.answer(answer, seconds, wall_clock_s()) {
            Ok(judged) => {
                self.tell(&judged, seconds)?;
                Ok(true)
            }
            Err(DrillError::Refused(why)) => {
                self.refuse(&why)?;
                Ok(false)
            }
            Err(error) => Err(wrong(error)),
        }
    }

    fn tell(&mut self, judged: &Judged, seconds: f64) -> Result<(), FrontEndError> {
        match self.form {
            Form::Words => {
                writeln!(self.out, "{}", told(self.series.question(), judged, seconds))?;
            }
            Form::Json => {
                let result = self.series.results().last();
                let object = json::judged(self.series.question(), judged, result);
                self.say(&object)?;
            }
        }
        Ok(())
    }

    /// Says that something cannot be done; nothing has changed.
    fn refuse(&mut self, why: &str) -> Result<(), FrontEndError> {
        match self.form {
            Form::Words => writeln!(self.out, "That cannot be done: {why}.")?,
            Form::Json => self.say(&json!({ "refused": why }))?,
        }
        Ok(())
    }

    fn not_understood(&mut self, why: &str) -> Result<(), FrontEndError> {
        match self.form {
            Form::Words => writeln!(self.out, "{why}.")?,
            Form::Json => self.say(&json!({ "error": why }))?,
        }
        Ok(())
    }

    /// Ends the series and says how the skill stands.
    fn end(mut self) -> Result<Outcome, FrontEndError> {
        self.series.end(wall_clock_s()).map_err(wrong)?;
        let (kind, results) = (self.series.kind(), self.series.results());
        match self.form {
            Form::Words => writeln!(self.out, "\n{}", summary(kind, results))?,
            Form::Json => {
                let object = json::summary(kind, results, Some(&self.series.head()));
                self.say(&object)?;
            }
        }
        Ok(kept::outcome(self.series.standing()))
    }

    /// Writes one object on one line and delivers it at once: the other program waits for it.
    fn say(&mut self, object: &serde_json::Value) -> Result<(), FrontEndError> {
        print_object(self.out, object)?;
        self.out.flush()?;
        Ok(())
    }
}

/// What could not be done.
fn wrong(error: DrillError) -> FrontEndError {
    FrontEndError::Wrong(error.to_string())
}
