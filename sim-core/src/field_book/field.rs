//! The places in the field book, and the numbers of its points.

use serde::{Deserialize, Serialize};

/// A place in the field book. Points are numbered from 1 to 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Field {
    /// Serial number of the calibrator, from its plate.
    CalibratorSerial,
    /// Serial number on the certificate in use.
    CertificateSerial,
    /// Date of the certificate in use, `2026-03-17`.
    CertificateDate,
    /// Slope m on the certificate in use (standard conditions).
    CertificateSlope,
    /// Intercept b on the certificate in use.
    CertificateIntercept,
    /// Air temperature, degrees Celsius.
    Temperature,
    /// Station pressure, mmHg.
    Pressure,
    /// Manometer, the leg that went up, inches from zero.
    Up(PointNumber),
    /// Manometer, the leg that went down, inches from zero.
    Down(PointNumber),
    /// The sum of both legs, inches of water.
    DeltaH(PointNumber),
    /// The pen, chart divisions.
    Chart(PointNumber),
    /// Flow at standard conditions calculated for the point, m3/min.
    PointFlow(PointNumber),
    /// Corrected chart reading calculated for the point.
    ChartTerm(PointNumber),
    /// Which expression was used for the corrected chart reading.
    Expression,
    /// Slope of the calibration line.
    Slope,
    /// Intercept of the calibration line.
    Intercept,
    /// Correlation coefficient of the calibration line.
    Correlation,
    /// `accepted` or `refused`, with the reason.
    Decision,
    /// Target flow at standard conditions, m3/min.
    TargetFlow,
    /// Chart reading for the target flow.
    SetPoint,
    /// Air temperature at the check, degrees Celsius.
    CheckTemperature,
    /// Station pressure at the check, mmHg.
    CheckPressure,
    /// Manometer at a reading of the check: the leg that went up, inches from zero.
    CheckUp(PointNumber),
    /// Manometer at a reading of the check: the leg that went down, inches from zero.
    CheckDown(PointNumber),
    /// The pen at a reading of the check, chart divisions.
    CheckChart(PointNumber),
    /// Mean flow of the check by the standard, standard m3/min.
    CheckFlow,
    /// Mean flow of the check by the calibration line, standard m3/min.
    CheckLineFlow,
    /// Percent difference: how much more flow the calibration line gives than the standard.
    CheckDifference,
    /// `passed` or `failed`, and what is to be done.
    CheckOutcome,
    /// Number of the filter that is fitted.
    FilterNumber,
    /// The elapsed-time meter before the run, min.
    MeterBefore,
    /// The pen when the controller was set, chart divisions.
    StartChart,
    /// The pen at the end of the run, with the blower warm, chart divisions.
    EndChart,
    /// The elapsed-time meter after the run, min.
    MeterAfter,
    /// Time of the run, min.
    RunMinutes,
    /// Mean chart reading of the run, chart divisions.
    MeanChart,
    /// Mean chart reading of a part of the run, if the flow changed a lot, chart divisions.
    PartChart(PointNumber),
    /// Time of that part, min.
    PartMinutes(PointNumber),
    /// Mean station pressure of the run, mmHg.
    RunPressure,
    /// Mean air temperature of the run, degrees Celsius.
    RunTemperature,
    /// Mean flow of the run at standard conditions, m3/min.
    RunFlow,
    /// Volume of the run at standard conditions, m3.
    Volume,
    /// Concentration of particulate matter, micrograms per standard m3.
    Concentration,
    /// `valid` or `not valid`, with the reason.
    Validity,
    /// Chain of custody: who has the sample, and since when.
    Custody,
    /// Number of the filter that is fitted for the next run.
    NextFilterNumber,
    /// Today's point on the control chart of the sampler, percent.
    HistoryPoint,
    /// What the control chart shows, and what is to be done.
    HistoryReading,
    /// Remarks in plain words.
    Remarks,
    /// The pen with a second clean filter on the first, chart divisions.
    SecondFilterChart,
    /// The pen with a third one on both, chart divisions.
    ThirdFilterChart,
    /// Percent difference: how much more flow the pen shows with the second filter than with one.
    SecondFilterChange,
    /// The same with the third filter.
    ThirdFilterChange,
    /// The most filters with which the controller holds the flow.
    FiltersHeld,
}

/// Number of a point, 1 to 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct PointNumber(u8);

impl PointNumber {
    /// The largest number of points in a field book.
    pub const MAX: u8 = 12;

    /// Its number, from 1.
    pub const fn number(self) -> u8 {
        self.0
    }

    /// Every point number.
    pub fn all() -> impl Iterator<Item = Self> {
        (1..=Self::MAX).map(Self)
    }
}

impl TryFrom<u8> for PointNumber {
    type Error = String;

    fn try_from(number: u8) -> Result<Self, String> {
        if (1..=Self::MAX).contains(&number) {
            Ok(Self(number))
        } else {
            Err(format!("there is no point {number}: the field book has points 1 to {}", Self::MAX))
        }
    }
}

impl From<PointNumber> for u8 {
    fn from(point: PointNumber) -> Self {
        point.0
    }
}

impl Field {
    /// The fields of a run, in the order in which they are filled in, without those of its parts.
    pub const RUN: [Self; 14] = [
        Self::FilterNumber,
        Self::MeterBefore,
        Self::StartChart,
        Self::EndChart,
        Self::MeterAfter,
        Self::RunMinutes,
        Self::MeanChart,
        Self::RunPressure,
        Self::RunTemperature,
        Self::RunFlow,
        Self::Volume,
        Self::Concentration,
        Self::Validity,
        Self::Custody,
    ];

    /// The fields of a test of the controller with added filters, in the order in which they are
    /// filled in; the readings first.
    pub const ADDED_FILTERS: [Self; 5] = [
        Self::SecondFilterChart,
        Self::ThirdFilterChart,
        Self::SecondFilterChange,
        Self::ThirdFilterChange,
        Self::FiltersHeld,
    ];

    /// The fields of such a test with so many filters on the first, without those of the others.
    pub fn of_added_filters(sheets: u8) -> impl Iterator<Item = Self> {
        let third = [Self::ThirdFilterChart, Self::ThirdFilterChange];
        Self::ADDED_FILTERS.into_iter().filter(move |field| match sheets {
            0 => false,
            1 => !third.contains(field),
            _ => true,
        })
    }

    /// The fields of a flow check, in the order in which they are filled in, without those of its
    /// readings.
    pub const CHECK: [Self; 6] = [
        Self::CheckTemperature,
        Self::CheckPressure,
        Self::CheckFlow,
        Self::CheckLineFlow,
        Self::CheckDifference,
        Self::CheckOutcome,
    ];

    /// The fields of the sampler's history, in the order in which they are filled in.
    pub const HISTORY: [Self; 2] = [Self::HistoryPoint, Self::HistoryReading];

    /// Whether the field shows a decision, which is made and not written.
    pub const fn is_decision(self) -> bool {
        matches!(self, Self::Decision | Self::CheckOutcome | Self::Validity | Self::HistoryReading)
    }

    /// Whether the field takes words rather than a number.
    pub const fn is_words(self) -> bool {
        matches!(
            self,
            Self::CalibratorSerial
                | Self::CertificateSerial
                | Self::CertificateDate
                | Self::Expression
                | Self::Decision
                | Self::CheckOutcome
                | Self::FilterNumber
                | Self::NextFilterNumber
                | Self::Validity
                | Self::Custody
                | Self::HistoryReading
                | Self::Remarks
        )
    }
}
