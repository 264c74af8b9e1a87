//! What the trainee decides, and what is struck out.

use serde::{Deserialize, Serialize};

use super::field::{Field, PointNumber};
use crate::control_chart::ChartReading;
use crate::time::Date;

/// A decision of the trainee. It has an entry of its own in the field book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Decision {
    /// The calibration line may be used.
    CalibrationAccepted {
        /// Whether the trainee states that it has moved since the last calibration. The reason then
        /// says why it may be used all the same.
        #[serde(default)]
        line_moved: bool,
    },
    /// The calibration line must not be used, or was not made.
    CalibrationRefused,
    /// The flow check was passed.
    CheckPassed,
    /// The flow check failed.
    CheckFailed {
        /// Whether a new calibration is called for.
        #[serde(default)]
        calibrate_again: bool,
        /// The day since which the samples are not valid.
        #[serde(default)]
        not_valid_since: Option<Date>,
    },
    /// The sample is valid.
    SampleValid,
    /// The sample is not valid.
    SampleNotValid,
    /// What the control chart of the sampler's history shows.
    HistoryRead {
        /// What it shows.
        shows: ChartReading,
        /// Whether a new calibration is called for.
        #[serde(default)]
        calibrate_again: bool,
        /// The day since which the flows are in doubt.
        #[serde(default)]
        in_doubt_since: Option<Date>,
    },
}

impl Decision {
    /// The field that shows it.
    pub const fn field(self) -> Field {
        match self {
            Self::CalibrationAccepted { .. } | Self::CalibrationRefused => Field::Decision,
            Self::CheckPassed | Self::CheckFailed { .. } => Field::CheckOutcome,
            Self::SampleValid | Self::SampleNotValid => Field::Validity,
            Self::HistoryRead { .. } => Field::HistoryReading,
        }
    }

    /// The decision as it stands in the field book, before its reason.
    fn words(self) -> String {
        match self {
            Self::CalibrationAccepted { line_moved: false } => "accepted".to_owned(),
            Self::CalibrationAccepted { line_moved: true } => {
                "accepted; the line has moved since the last calibration".to_owned()
            }
            Self::CalibrationRefused => "refused".to_owned(),
            Self::CheckPassed => "passed".to_owned(),
            Self::CheckFailed { calibrate_again, not_valid_since } => {
                let mut words = "failed".to_owned();
                if calibrate_again {
                    words.push_str("; a new calibration is needed");
                }
                if let Some(date) = not_valid_since {
                    words.push_str(&format!("; samples since {date} are not valid"));
                }
                words
            }
            Self::SampleValid => "valid".to_owned(),
            Self::SampleNotValid => "not valid".to_owned(),
            Self::HistoryRead { shows, calibrate_again, in_doubt_since } => {
                let mut words = shows.words().to_owned();
                if calibrate_again {
                    words.push_str("; a new calibration is needed");
                }
                if let Some(date) = in_doubt_since {
                    words.push_str(&format!("; flows since {date} are in doubt"));
                }
                words
            }
        }
    }

    /// The entry in the field book: the decision and its reason.
    pub fn entry(self, reason: &str) -> String {
        match reason.trim() {
            "" => self.words(),
            reason => format!("{}: {reason}", self.words()),
        }
    }
}

/// What is struck out in the field book.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Struck {
    /// One entry.
    Field(Field),
    /// Every entry of a point: readings, flow and corrected chart reading.
    Point(PointNumber),
}

impl Struck {
    /// The fields that are struck out.
    pub fn fields(self) -> Vec<Field> {
        match self {
            Self::Field(field) => vec![field],
            Self::Point(number) => vec![
                Field::Up(number),
                Field::Down(number),
                Field::DeltaH(number),
                Field::Chart(number),
                Field::PointFlow(number),
                Field::ChartTerm(number),
            ],
        }
    }
}
