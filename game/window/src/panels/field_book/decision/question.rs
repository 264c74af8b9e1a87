//! The questions that are decided in the field book, and the answers to each.

use sim_core::control_chart::ChartReading;
use sim_core::field_book::Field;
use sim_core::time::Date;

/// A question that is decided in writing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Whether the calibration line may be used.
    Calibration,
    /// Whether the flow check was passed.
    Check,
    /// Whether the sample is valid.
    Sample,
    /// What the control chart of the sampler's history shows.
    History,
}

/// An answer to one of the questions.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// The calibration line may be used.
    Accepted,
    /// It may be used, although it has moved since the last calibration.
    AcceptedThoughMoved,
    /// It must not be used.
    Refused,
    /// The flow check was passed.
    Passed,
    /// The flow check failed.
    Failed,
    /// The sample is valid.
    Valid,
    /// The sample is not valid.
    NotValid,
    /// The control chart shows this.
    Shows(ChartReading),
}

/// What follows from a flow check that failed, or from a signal on the control chart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Consequence {
    /// The sampler has to be calibrated again.
    CalibrateAgain,
    /// The samples since the last good check are not valid.
    SamplesNotValid,
    /// The control chart calls for a new calibration.
    CalibrateForChart,
    /// The flows since a day are in doubt.
    InDoubtSince(Date),
}

impl Consequence {
    /// The question to whose answer it belongs.
    pub const fn question(self) -> Question {
        match self {
            Self::CalibrateAgain | Self::SamplesNotValid => Question::Check,
            Self::CalibrateForChart | Self::InDoubtSince(_) => Question::History,
        }
    }
}

impl Question {
    /// The question that a field answers.
    pub const fn of(field: Field) -> Option<Self> {
        match field {
            Field::Decision => Some(Self::Calibration),
            Field::CheckOutcome => Some(Self::Check),
            Field::Validity => Some(Self::Sample),
            Field::HistoryReading => Some(Self::History),
            _ => None,
        }
    }

    /// The field that shows the answer.
    pub const fn field(self) -> Field {
        match self {
            Self::Calibration => Field::Decision,
            Self::Check => Field::CheckOutcome,
            Self::Sample => Field::Validity,
            Self::History => Field::HistoryReading,
        }
    }

    /// The heading of its part of the page.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Calibration => "Decision about the calibration",
            Self::Check => "Outcome of the flow check",
            Self::Sample => "Validity of the sample",
            Self::History => "What the control chart shows",
        }
    }

    /// The answers, in the order in which they are offered.
    pub const fn verdicts(self) -> &'static [Verdict] {
        match self {
            Self::Calibration => {
                &[Verdict::Accepted, Verdict::AcceptedThoughMoved, Verdict::Refused]
            }
            Self::Check => &[Verdict::Passed, Verdict::Failed],
            Self::Sample => &[Verdict::Valid, Verdict::NotValid],
            Self::History => &[
                Verdict::Shows(ChartReading::InControl),
                Verdict::Shows(ChartReading::Drift),
                Verdict::Shows(ChartReading::Jump),
                Verdict::Shows(ChartReading::OutOfLimits),
            ],
        }
    }
}

impl Verdict {
    /// The question that it answers.
    pub const fn question(self) -> Question {
        match self {
            Self::Accepted | Self::AcceptedThoughMoved | Self::Refused => Question::Calibration,
            Self::Passed | Self::Failed => Question::Check,
            Self::Valid | Self::NotValid => Question::Sample,
            Self::Shows(_) => Question::History,
        }
    }

    /// As it is offered.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Accepted => "accepted",
            Self::AcceptedThoughMoved => "accepted though the line has moved",
            Self::Refused => "refused",
            Self::Passed => "passed",
            Self::Failed => "failed",
            Self::Valid => "valid",
            Self::NotValid => "not valid",
            Self::Shows(reading) => reading.words(),
        }
    }
}
