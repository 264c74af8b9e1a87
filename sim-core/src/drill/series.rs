//! A series of questions of one kind: each is asked, answered, kept and judged.

use super::answer::{Answer, DrillMove};
use super::error::DrillError;
use super::journal::{DRILL_FORM, DrillLine, DrillWriter};
use super::judged::Judged;
use super::kind::DrillKind;
use super::question::Question;
use super::result::DrillResult;
use super::standard::Standing;
use crate::session::journal::JournalSink;

/// A series of questions under way.
#[derive(Debug)]
pub struct DrillSeries {
    kind: DrillKind,
    seed: u64,
    question: Question,
    /// Whether the present question was answered.
    answered: bool,
    ended: bool,
    results: Vec<DrillResult>,
    writer: DrillWriter,
}

impl DrillSeries {
    /// Begins a series; `unix_s` is the wall clock of the front end.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written or the first question cannot be drawn.
    pub fn begin(
        kind: DrillKind,
        seed: u64,
        unix_s: u64,
        ink: Box<dyn JournalSink>,
    ) -> Result<Self, DrillError> {
        let question = Question::draw(kind, seed, 0)?;
        let mut writer = DrillWriter::new(ink);
        let version = crate::VERSION.to_owned();
        writer.write(&DrillLine::Drill { form: DRILL_FORM, version })?;
        writer.write(&DrillLine::Series { kind, seed, unix_s })?;
        Ok(Self {
            kind,
            seed,
            question,
            answered: false,
            ended: false,
            results: Vec::new(),
            writer,
        })
    }

    /// The kind.
    pub const fn kind(&self) -> DrillKind {
        self.kind
    }

    /// The seed.
    pub const fn seed(&self) -> u64 {
        self.seed
    }

    /// The present question; the last one, once it was answered.
    pub const fn question(&self) -> &Question {
        &self.question
    }

    /// What came of the questions so far.
    pub fn results(&self) -> &[DrillResult] {
        &self.results
    }

    /// How the attempts of this series compare with the standard.
    pub fn standing(&self) -> Standing {
        self.kind.standard().standing(&self.results)
    }

    /// The head of the journal: it stands for every line so far.
    pub fn head(&self) -> String {
        self.writer.head()
    }

    /// Does something to see better. It is in the journal before it is done.
    ///
    /// # Errors
    ///
    /// When it cannot be done with this question, or the journal cannot be written. Nothing has changed
    /// then.
    pub fn make(&mut self, made: DrillMove) -> Result<(), DrillError> {
        self.is_open()?;
        self.question.allows(made)?;
        self.writer.write(&DrillLine::Moved { number: self.question.number(), made })?;
        self.question.make(made)
    }

    /// Answers the present question. The answer is in the journal before it is judged. `seconds` is the
    /// time since the question was asked, and `unix_s` the wall clock, both by the front end.
    ///
    /// # Errors
    ///
    /// When the answer has not the form that is asked for, or the journal cannot be written. The
    /// question stays open then.
    pub fn answer(
        &mut self,
        answer: Answer,
        seconds: f64,
        unix_s: u64,
    ) -> Result<Judged, DrillError> {
        self.is_open()?;
        // What has not the right form is no answer; this says nothing about what is right.
        let judged = self.question.judge(&answer).map_err(DrillError::Refused)?;
        let seconds = if seconds.is_finite() { seconds.max(0.0) } else { 0.0 };
        let number = self.question.number();
        self.writer.write(&DrillLine::Answered { number, answer, seconds, unix_s })?;
        self.answered = true;
        let result = result(&self.question, &judged, seconds, unix_s);
        self.results.push(result.clone());
        self.writer.write(&DrillLine::Judged(result))?;
        Ok(judged)
    }

    /// Goes on to the next question.
    ///
    /// # Errors
    ///
    /// When the present one was not answered, or the next one cannot be drawn.
    pub fn go_on(&mut self) -> Result<(), DrillError> {
        if !self.answered || self.ended {
            let why = "answer this question first: none is passed over";
            return Err(DrillError::Refused(why.to_owned()));
        }
        let number = self.question.number().saturating_add(1);
        self.question = Question::draw(self.kind, self.seed, number)?;
        self.answered = false;
        Ok(())
    }

    /// Ends the series.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written.
    pub fn end(&mut self, unix_s: u64) -> Result<(), DrillError> {
        if !self.ended {
            self.writer.write(&DrillLine::Ended { unix_s })?;
            self.ended = true;
        }
        Ok(())
    }

    /// Refuses what needs an open question.
    fn is_open(&self) -> Result<(), DrillError> {
        let why = match (self.ended, self.answered) {
            (true, _) => "the series has ended",
            (false, true) => "this question was answered: go on to the next one",
            (false, false) => return Ok(()),
        };
        Err(DrillError::Refused(why.to_owned()))
    }
}

/// What came of a question.
pub(super) fn result(
    question: &Question,
    judged: &Judged,
    seconds: f64,
    unix_s: u64,
) -> DrillResult {
    DrillResult {
        kind: question.kind(),
        seed: question.seed(),
        number: question.number(),
        unix_s,
        seconds,
        error: judged.error,
        right: judged.right,
        slip: judged.slip,
        in_words: question.was_read_in_words(),
    }
}
