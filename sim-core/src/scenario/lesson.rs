//! A lesson: some phases of the work on a rig on which everything before them has been done.

use serde::{Deserialize, Serialize};

use crate::field_book::Field;

/// Which phases of the work belong to a lesson, and how much help there is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LessonPhases {
    /// The phase at whose beginning the trainee takes over.
    pub from: LessonPhase,
    /// The last phase that belongs to the lesson.
    pub to: LessonPhase,
    /// How much help there is.
    #[serde(default)]
    pub help: LessonHelp,
}

impl LessonPhases {
    /// Whether a phase belongs to the lesson.
    pub fn has(self, phase: LessonPhase) -> bool {
        (self.from..=self.to).contains(&phase)
    }

    /// The phases in words, such as "manometer" or "manometer to points".
    pub fn words(self) -> String {
        match self.from == self.to {
            true => self.from.words().to_owned(),
            false => format!("{} to {}", self.from.words(), self.to.words()),
        }
    }
}

/// How much help there is in a lesson. It fades from one lesson to the next.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
pub enum LessonHelp {
    /// The next step is shown all the time.
    Shown,
    /// The next step is told on request, and each request is logged.
    #[default]
    Asked,
    /// There is none.
    Silent,
}

impl LessonHelp {
    /// The help in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Shown => "the next step is always shown",
            Self::Asked => "the next step is told on request",
            Self::Silent => "no help",
        }
    }
}

/// A phase of the work, as lessons divide it: in the order in which the careful operator works.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum LessonPhase {
    /// Roof, papers, certificate.
    Arrival,
    /// The sampler opened, plate and calibrator on.
    Mounting,
    /// The manometer hung, zeroed and connected.
    Manometer,
    /// The blower on the mains, leak check, warm-up, temperature and pressure.
    Power,
    /// The points, and the blower switched off.
    Points,
    /// Flows, calibration line, decision, set point.
    Calculations,
    /// The flow check against the standard.
    FlowCheck,
    /// Everything back as it was.
    Restoring,
    /// Filter, controller, timer and chart for the run, up to the return from it.
    SettingUp,
    /// The sample recovered, and the next run set up where one is ordered.
    Recovery,
    /// The volume, and whether the sample is valid.
    Volume,
}

impl LessonPhase {
    /// Every phase, in the order of the work.
    pub const ALL: [Self; 11] = [
        Self::Arrival,
        Self::Mounting,
        Self::Manometer,
        Self::Power,
        Self::Points,
        Self::Calculations,
        Self::FlowCheck,
        Self::Restoring,
        Self::SettingUp,
        Self::Recovery,
        Self::Volume,
    ];

    /// The phase in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Arrival => "arrival and papers",
            Self::Mounting => "mounting the calibrator",
            Self::Manometer => "manometer",
            Self::Power => "warm-up, air and leak check",
            Self::Points => "points",
            Self::Calculations => "calculations and decision",
            Self::FlowCheck => "flow check",
            Self::Restoring => "restoring the station",
            Self::SettingUp => "setting up the run",
            Self::Recovery => "recovering the sample",
            Self::Volume => "volume",
        }
    }

    /// The phase in which a field of the book is filled in.
    pub const fn of_field(field: Field) -> Self {
        match field {
            Field::CalibratorSerial
            | Field::CertificateSerial
            | Field::CertificateDate
            | Field::CertificateSlope
            | Field::CertificateIntercept => Self::Arrival,
            // The air of the calibration is read while the blower warms up.
            Field::Temperature | Field::Pressure => Self::Power,
            Field::Up(_) | Field::Down(_) | Field::DeltaH(_) | Field::Chart(_) => Self::Points,
            Field::PointFlow(_)
            | Field::ChartTerm(_)
            | Field::Expression
            | Field::Slope
            | Field::Intercept
            | Field::Correlation
            | Field::Decision
            | Field::TargetFlow
            | Field::SetPoint
            | Field::Remarks => Self::Calculations,
            Field::CheckUp(_)
            | Field::CheckDown(_)
            | Field::CheckChart(_)
            | Field::CheckTemperature
            | Field::CheckPressure
            | Field::CheckFlow
            | Field::CheckLineFlow
            | Field::CheckDifference
            | Field::CheckOutcome
            | Field::HistoryPoint
            | Field::HistoryReading => Self::FlowCheck,
            Field::FilterNumber
            | Field::MeterBefore
            | Field::StartChart
            | Field::SecondFilterChart
            | Field::ThirdFilterChart
            | Field::SecondFilterChange
            | Field::ThirdFilterChange
            | Field::FiltersHeld => Self::SettingUp,
            Field::EndChart | Field::MeterAfter | Field::Custody | Field::NextFilterNumber => {
                Self::Recovery
            }
            Field::RunMinutes
            | Field::MeanChart
            | Field::RunPressure
            | Field::RunTemperature
            | Field::RunFlow
            | Field::Volume
            | Field::Concentration
            | Field::Validity
            | Field::PartChart(_)
            | Field::PartMinutes(_) => Self::Volume,
        }
    }
}
