//! The trainee's own record: what was written, where, when, as typed. It computes nothing.

mod label;

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::text::printable;
use crate::time::Tick;

/// A place in the field book. Points are numbered from 1 to 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum Field {
    /// Serial number of the calibrator, from its plate.
    CalibratorSerial,
    /// Serial number on the certificate that is used.
    CertificateSerial,
    /// Date of the certificate that is used, `2026-03-17`.
    CertificateDate,
    /// Slope m of the certificate that is used (standard conditions).
    CertificateSlope,
    /// Intercept b of the certificate that is used.
    CertificateIntercept,
    /// Air temperature, degrees Celsius.
    Temperature,
    /// Station pressure, mmHg.
    Pressure,
    /// Manometer, the leg that went up, inches from zero.
    Up(PointNumber),
    /// Manometer, the leg that went down, inches from zero.
    Down(PointNumber),
    /// The sum of both, inches of water.
    DeltaH(PointNumber),
    /// The pen, chart divisions.
    Chart(PointNumber),
    /// Flow at standard conditions worked out for the point, m3/min.
    PointFlow(PointNumber),
    /// Chart term worked out for the point.
    ChartTerm(PointNumber),
    /// Which expression was used for the chart term.
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
    /// Chart reading to be held for it.
    SetPoint,
    /// Air temperature at the check, degrees Celsius.
    CheckTemperature,
    /// Station pressure at the check, mmHg.
    CheckPressure,
    /// Manometer at a reading of the check, the leg that went up, inches from zero.
    CheckUp(PointNumber),
    /// Manometer at a reading of the check, the leg that went down, inches from zero.
    CheckDown(PointNumber),
    /// The pen at a reading of the check, chart divisions.
    CheckChart(PointNumber),
    /// Mean flow of the check by the standard, standard m3/min.
    CheckFlow,
    /// Mean flow of the check by the line, standard m3/min.
    CheckLineFlow,
    /// By how much the line tells more than the standard, percent.
    CheckDifference,
    /// `passed` or `failed`, with what follows.
    CheckOutcome,
    /// Number of the filter that is fitted.
    FilterNumber,
    /// The timer's meter before the run, min.
    MeterBefore,
    /// The pen when the controller was set, chart divisions.
    StartChart,
    /// The pen at the end of the run, the blower warm, chart divisions.
    EndChart,
    /// The timer's meter after the run, min.
    MeterAfter,
    /// Time of the run, min.
    RunMinutes,
    /// Mean chart reading of the run, chart divisions.
    MeanChart,
    /// Mean chart reading of a part of the run, where the flow changed much, chart divisions.
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
    /// Concentration of particulate matter, micrograms for each standard m3.
    Concentration,
    /// `valid` or `not valid`, with the reason.
    Validity,
    /// Who has the sample, from when on.
    Custody,
    /// Number of the filter that is fitted for the next run.
    NextFilterNumber,
    /// Remarks in plain words.
    Remarks,
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
            Err(format!("there is no point {number}: the book has points 1 to {}", Self::MAX))
        }
    }
}

impl From<PointNumber> for u8 {
    fn from(point: PointNumber) -> Self {
        point.0
    }
}

impl Field {
    /// The fields of a run, in the order in which they are filled in. Those of its parts are left out.
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

    /// The fields of a flow check, in the order in which they are filled in. Those of its readings
    /// are left out.
    pub const CHECK: [Self; 6] = [
        Self::CheckTemperature,
        Self::CheckPressure,
        Self::CheckFlow,
        Self::CheckLineFlow,
        Self::CheckDifference,
        Self::CheckOutcome,
    ];

    /// Whether words stand in it, and not a number.
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
                | Self::Remarks
        )
    }
}

/// One line written, never erased.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BookEntry {
    /// When.
    pub tick: Tick,
    /// Where.
    pub field: Field,
    /// What, as typed.
    pub text: String,
}

/// The whole record in the order of writing. A later entry in a field strikes the earlier ones out.
///
/// Copies share their lines until one of them gets more: a state is copied at every action.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FieldBook {
    entries: Arc<Vec<BookEntry>>,
}

impl FieldBook {
    /// Writes a line.
    pub fn write(&mut self, tick: Tick, field: Field, text: &str) {
        Arc::make_mut(&mut self.entries).push(BookEntry { tick, field, text: text.to_owned() });
    }

    /// Every line, struck out or not, in the order of writing.
    pub fn entries(&self) -> &[BookEntry] {
        &self.entries
    }

    /// What stands in a field now.
    pub fn entry(&self, field: Field) -> Option<&BookEntry> {
        self.entries.iter().rev().find(|entry| entry.field == field)
    }

    /// What stands in a field now, as text; empty entries count as absent.
    pub fn text(&self, field: Field) -> Option<&str> {
        self.entry(field).map(|entry| entry.text.trim()).filter(|text| !text.is_empty())
    }

    /// The number that stands in a field now, if it is one.
    pub fn number(&self, field: Field) -> Option<f64> {
        self.text(field).and_then(|text| number_as_written(text).ok())
    }

    /// How many points have both legs, or one leg, or a chart reading written.
    pub fn points(&self) -> Vec<PointNumber> {
        PointNumber::all()
            .filter(|&point| {
                [Field::Up(point), Field::Down(point), Field::DeltaH(point), Field::Chart(point)]
                    .iter()
                    .any(|&field| self.text(field).is_some())
            })
            .collect()
    }
}

/// The largest number that the field book takes for one: far beyond any gauge and unit, and small
/// enough that no sum made with it overflows.
pub const LARGEST_NUMBER: f64 = 1e9;

/// The text is no number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is no number: write it in digits, such as 3.1, 56 1/2 or 56½", printable(.0))]
pub struct NotANumber(String);

/// Reads a number as people write it: `3.1`, `3,1`, `-0.02`, `56½`, `56 1/2`, with spaces about it.
///
/// # Errors
///
/// When the text is no number, or one larger than [`LARGEST_NUMBER`].
pub fn number_as_written(text: &str) -> Result<f64, NotANumber> {
    let wrong = || NotANumber(text.chars().take(40).collect());
    let tidy = text.trim().replace(',', ".").replace('\u{2212}', "-");
    let tidy = tidy.replace('½', " 1/2").replace('¼', " 1/4").replace('¾', " 3/4");
    let mut words = tidy.split_whitespace();
    let first = words.next().ok_or_else(wrong)?;
    let value = match (first.split_once('/'), words.next(), words.next()) {
        (None, None, _) => plain(first).ok_or_else(wrong)?,
        (Some(_), None, _) => fraction(first).ok_or_else(wrong)?,
        (None, Some(second), None) => {
            let whole = plain(first).ok_or_else(wrong)?;
            let part = fraction(second).ok_or_else(wrong)?;
            if first.starts_with('-') { whole - part } else { whole + part }
        }
        _ => return Err(wrong()),
    };
    if value.abs() <= LARGEST_NUMBER { Ok(value) } else { Err(wrong()) }
}

/// A decimal number; no `inf`, no `nan`.
fn plain(text: &str) -> Option<f64> {
    let decimal =
        text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-' | '+' | 'e' | 'E'));
    if decimal { text.parse().ok() } else { None }
}

/// A fraction such as `1/2`.
fn fraction(text: &str) -> Option<f64> {
    let (above, below) = text.split_once('/')?;
    let (above, below) = (plain(above)?, plain(below)?);
    if below > 0.0 { Some(above / below) } else { None }
}
