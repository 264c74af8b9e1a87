//! The questions that are decided in the field book, and the answers to each.

use sim_core::field_book::Field;

/// A question that is decided in writing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Question {
    /// Whether the calibration line may be used.
    Calibration,
    /// Whether the flow check was passed.
    Check,
    /// Whether the sample is valid.
    Sample,
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
}

/// What follows from a flow check that failed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Consequence {
    /// The sampler has to be calibrated again.
    CalibrateAgain,
    /// The samples since the last good check are not valid.
    SamplesNotValid,
}

impl Question {
    /// The question that a field answers.
    pub const fn of(field: Field) -> Option<Self> {
        match field {
            Field::Decision => Some(Self::Calibration),
            Field::CheckOutcome => Some(Self::Check),
            Field::Validity => Some(Self::Sample),
            _ => None,
        }
    }

    /// The field that shows the answer.
    pub const fn field(self) -> Field {
        match self {
            Self::Calibration => Field::Decision,
            Self::Check => Field::CheckOutcome,
            Self::Sample => Field::Validity,
        }
    }

    /// The heading of its part of the page.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Calibration => "Decision about the calibration",
            Self::Check => "Outcome of the flow check",
            Self::Sample => "Validity of the sample",
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
        }
    }
}
