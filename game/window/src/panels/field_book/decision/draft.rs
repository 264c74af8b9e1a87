//! Decisions that are not written into the field book yet.

use bevy::prelude::*;
use sim_core::control_chart::ChartReading;
use sim_core::field_book::Decision;
use sim_core::time::Date;

use super::question::{Consequence, Question, Verdict};

/// A decision that is not written yet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Draft {
    /// The answer that is chosen.
    pub verdict: Option<Verdict>,
    /// The reason, as typed.
    pub reason: String,
    consequences: Vec<Consequence>,
}

/// The drafts of all decisions. They are kept while other pages are open.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub struct Drafts {
    calibration: Draft,
    check: Draft,
    sample: Draft,
    history: Draft,
}

impl Drafts {
    /// The draft that answers a question.
    pub const fn about(&self, question: Question) -> &Draft {
        match question {
            Question::Calibration => &self.calibration,
            Question::Check => &self.check,
            Question::Sample => &self.sample,
            Question::History => &self.history,
        }
    }

    /// The same, to be changed.
    pub const fn about_mut(&mut self, question: Question) -> &mut Draft {
        match question {
            Question::Calibration => &mut self.calibration,
            Question::Check => &mut self.check,
            Question::Sample => &mut self.sample,
            Question::History => &mut self.history,
        }
    }
}

impl Draft {
    /// Chooses an answer. Only a check that failed and a signal on the chart have consequences.
    pub fn choose(&mut self, verdict: Verdict) {
        self.verdict = Some(verdict);
        let signal = matches!(verdict, Verdict::Shows(shows) if shows != ChartReading::InControl);
        if verdict != Verdict::Failed && !signal {
            self.consequences.clear();
        }
    }

    /// States a consequence, or takes it back. To state one is to call the check failed, or the chart
    /// not in control. The flows are in doubt since one day alone.
    pub fn toggle(&mut self, consequence: Consequence) {
        if self.states(consequence) {
            self.consequences.retain(|one| *one != consequence);
            return;
        }
        if let Consequence::InDoubtSince(_) = consequence {
            self.consequences.retain(|one| !matches!(one, Consequence::InDoubtSince(_)));
        }
        self.consequences.push(consequence);
        if consequence.question() == Question::Check {
            self.verdict = Some(Verdict::Failed);
        } else if self.verdict == Some(Verdict::Shows(ChartReading::InControl)) {
            self.verdict = None;
        }
    }

    /// Whether a consequence is stated.
    pub fn states(&self, consequence: Consequence) -> bool {
        self.consequences.contains(&consequence)
    }

    /// The decision, once an answer is chosen; `last_good` is the day of the last good check.
    pub fn decision(&self, last_good: Option<Date>) -> Option<Decision> {
        Some(match self.verdict? {
            Verdict::Accepted => Decision::CalibrationAccepted { line_moved: false },
            Verdict::AcceptedThoughMoved => Decision::CalibrationAccepted { line_moved: true },
            Verdict::Refused => Decision::CalibrationRefused,
            Verdict::Passed => Decision::CheckPassed,
            Verdict::Failed => Decision::CheckFailed {
                calibrate_again: self.states(Consequence::CalibrateAgain),
                not_valid_since: last_good.filter(|_| self.states(Consequence::SamplesNotValid)),
            },
            Verdict::Valid => Decision::SampleValid,
            Verdict::NotValid => Decision::SampleNotValid,
            Verdict::Shows(shows) => Decision::HistoryRead {
                shows,
                calibrate_again: self.states(Consequence::CalibrateForChart),
                in_doubt_since: self.consequences.iter().find_map(|one| match one {
                    Consequence::InDoubtSince(date) => Some(*date),
                    _ => None,
                }),
            },
        })
    }
}
