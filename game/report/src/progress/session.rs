//! One session, as far as it shows how the person works.

use serde::Serialize;
use sim_core::generator::{self, Level};
use sim_core::marking::own_judgement::{OwnJudged, judged};
use sim_core::marking::readings::Instrument;
use sim_core::marking::{FaultVerdict, MarkPartName, Marks, ReadingJudged};
use sim_core::plan::{Practice, Practised};
use sim_core::session::SessionSource;
use sim_core::session::action::{Action, HelpTopic};
use sim_core::session::clock::ClockEvent;
use sim_core::session::ended_session::EndedSession;

/// A session in brief.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SessionSummary {
    /// The journal.
    pub file: String,
    /// Title of the scenario.
    pub scenario: String,
    /// SHA-256 of its text.
    pub scenario_sha256: String,
    /// The seed.
    pub seed: u64,
    /// When it was begun, if its journal says so, seconds since 1970-01-01 00:00 UTC.
    pub begun_unix_s: Option<u64>,
    /// Whether it was passed.
    pub passed: bool,
    /// Marks in all, in percent of what could be given.
    pub total: f64,
    /// Marks needed.
    pub pass_mark: f64,
    /// Each part in percent of what it could give.
    pub parts: [PartPercent; 6],
    /// Rules that were broken.
    pub broken: Vec<&'static str>,
    /// How well each instrument was read.
    pub readings: Vec<ReadingErrors>,
    /// Faults that were not found, by their names.
    pub missed: Vec<&'static str>,
    /// What the person said of the work, beside what is true.
    pub judgement: Option<OwnJudged>,
    /// Whether it was done without asking for help.
    pub unaided: bool,
    /// The level of the drawn rig, if it was one.
    pub drawn_level: Option<u8>,
    /// Head of the journal's chain.
    pub journal_head: String,
}

/// A part of the marks in percent of what it could give.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct PartPercent {
    /// The part.
    pub part: MarkPartName,
    /// Percent; none where the part has no weight or was not assessed.
    pub percent: Option<f64>,
}

/// What is read. Both legs of the manometer count as one: they are read in the same way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ReadScale {
    /// The legs of the manometer.
    Legs,
    /// The pen.
    Pen,
    /// Barometer and thermometer.
    Air,
}

/// How far the readings of a scale were off, divisions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ReadingErrors {
    /// The scale.
    pub scale: ReadScale,
    /// How many readings.
    pub count: usize,
    /// Their mean distance from what was visible.
    pub mean_off: f64,
    /// The same with its sign: plus when too much was written.
    pub mean_signed: f64,
}

impl ReadScale {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Legs, Self::Pen, Self::Air];

    /// What is read, in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Legs => "manometer legs",
            Self::Pen => "pen",
            Self::Air => "barometer and thermometer",
        }
    }

    /// The scale of an instrument; none for a counter, whose digits are copied.
    const fn of(instrument: Instrument) -> Option<Self> {
        match instrument {
            Instrument::LegUp | Instrument::LegDown | Instrument::Display => Some(Self::Legs),
            Instrument::Pen => Some(Self::Pen),
            Instrument::Barometer | Instrument::Thermometer => Some(Self::Air),
            Instrument::ElapsedTimeMeter => None,
        }
    }
}

impl SessionSummary {
    /// The summary of a session.
    pub fn of(file: String, scenario: String, session: &EndedSession, marks: &Marks) -> Self {
        let mut broken: Vec<&'static str> = marks.findings.iter().map(|found| found.rule).collect();
        broken.sort_unstable();
        broken.dedup();
        let missed = marks.faults.iter().filter(|judged| {
            matches!(judged.verdict, FaultVerdict::Missed | FaultVerdict::OnlySaid)
        });
        let begun = session.clock.iter().find(|note| note.what == ClockEvent::Begun);
        Self {
            file,
            scenario,
            scenario_sha256: session.source.sha256.clone(),
            seed: session.source.seed,
            begun_unix_s: begun.map(|note| note.unix_s),
            passed: marks.passed,
            total: marks.percent(),
            pass_mark: marks.pass_mark,
            parts: marks.parts.each_ref().map(|part| PartPercent {
                part: part.name,
                percent: (part.assessed && part.weight > 0.0)
                    .then(|| 100.0 * part.got / part.weight),
            }),
            broken,
            readings: reading_errors(&marks.readings),
            missed: missed.filter_map(|judged| Some(judged.fault?.name())).collect(),
            judgement: session.judgement.as_ref().map(|own| judged(own, marks)),
            drawn_level: drawn_level(&session.source),
            unaided: !session.events.iter().any(|event| asks_for_help(&event.action)),
            journal_head: session.head.clone(),
        }
    }

    /// The session as a lesson plan counts it.
    pub fn practice(&self) -> Practice {
        Practice {
            what: match self.drawn_level {
                Some(level) => Practised::Drawn { level },
                None => Practised::Scenario { sha256: self.scenario_sha256.clone() },
            },
            unix_s: self.begun_unix_s,
            passed: self.passed,
            marks: Some(self.total),
            unaided: self.unaided,
        }
    }

    /// How well a scale was read, if it was.
    pub fn errors(&self, scale: ReadScale) -> Option<&ReadingErrors> {
        self.readings.iter().find(|errors| errors.scale == scale)
    }
}

/// The level of a drawn rig: the one of which this seed draws this very scenario.
fn drawn_level(source: &SessionSource) -> Option<u8> {
    let is_drawn = |level: &Level| generator::draw(*level, source.seed).text == source.text;
    Level::ALL.into_iter().find(is_drawn).map(Level::number)
}

/// Whether an action asks how to go on. The calculations and the plot are tools, not help with the work.
const fn asks_for_help(action: &Action) -> bool {
    matches!(
        action,
        Action::AskHelp { topic: HelpTopic::WhatNow | HelpTopic::Why | HelpTopic::ShowMe }
    )
}

/// How well each scale was read.
pub fn reading_errors(readings: &[ReadingJudged]) -> Vec<ReadingErrors> {
    let of = |scale: ReadScale| {
        let is_of = |reading: &&ReadingJudged| ReadScale::of(reading.instrument) == Some(scale);
        let own: Vec<&ReadingJudged> = readings.iter().filter(is_of).collect();
        let count = own.len();
        let mean = |off: &dyn Fn(&ReadingJudged) -> f64| {
            own.iter().map(|reading| off(reading)).sum::<f64>() / count as f64
        };
        let signed = |reading: &ReadingJudged| {
            let less = reading.written.abs() < reading.seen.abs();
            if less { -reading.off_divisions } else { reading.off_divisions }
        };
        (count > 0).then(|| ReadingErrors {
            scale,
            count,
            mean_off: mean(&|reading| reading.off_divisions),
            mean_signed: mean(&signed),
        })
    };
    ReadScale::ALL.into_iter().filter_map(of).collect()
}

#[cfg(test)]
pub(super) mod tests {
    use super::*;
    use crate::trial::PARTS;

    /// A session in which these rules were broken.
    pub fn summary(file: &str, broken: &[&'static str]) -> SessionSummary {
        SessionSummary {
            file: file.to_owned(),
            scenario: "First calibration".to_owned(),
            scenario_sha256: "00".repeat(32),
            seed: 1,
            begun_unix_s: None,
            passed: broken.is_empty(),
            total: 90.0,
            pass_mark: 75.0,
            parts: PARTS.map(|part| PartPercent { part, percent: Some(90.0) }),
            broken: broken.to_vec(),
            readings: Vec::new(),
            missed: Vec::new(),
            judgement: None,
            unaided: true,
            drawn_level: None,
            journal_head: sim_core::digest::sha256_hex(file.as_bytes()),
        }
    }
}
