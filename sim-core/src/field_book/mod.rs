//! The trainee's record: what was written, where and when, as typed. It computes nothing.

mod label;

use std::sync::Arc;

use serde::{Deserialize, Serialize};

use crate::digest::{digest_fields, digest_names};
use crate::text::printable;
use crate::time::Tick;

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
                | Self::Remarks
        )
    }
}

digest_names!(Field, PointNumber);

/// One entry, which is never erased.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BookEntry {
    /// When it was written.
    pub tick: Tick,
    /// Where it was written.
    pub field: Field,
    /// What was written, as typed.
    pub text: String,
}

digest_fields!(BookEntry { tick, field, text });

/// The whole record in the order of writing. A later entry in a field strikes out the earlier ones.
///
/// Copies share their entries until one of them is written to, because a state is copied at every
/// action.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct FieldBook {
    entries: Arc<Vec<BookEntry>>,
}

// An entry is struck out by a later one in its field, so the row of entries tells that as well.
digest_fields!(FieldBook { entries });

impl FieldBook {
    /// Writes an entry.
    pub fn write(&mut self, tick: Tick, field: Field, text: &str) {
        Arc::make_mut(&mut self.entries).push(BookEntry { tick, field, text: text.to_owned() });
    }

    /// Every entry, struck out or not, in the order of writing.
    pub fn entries(&self) -> &[BookEntry] {
        &self.entries
    }

    /// The current entry in a field.
    pub fn entry(&self, field: Field) -> Option<&BookEntry> {
        self.entries.iter().rev().find(|entry| entry.field == field)
    }

    /// The current text in a field; an empty entry counts as absent.
    pub fn text(&self, field: Field) -> Option<&str> {
        self.entry(field).map(|entry| entry.text.trim()).filter(|text| !text.is_empty())
    }

    /// The current number in a field, if the entry is a number.
    pub fn number(&self, field: Field) -> Option<f64> {
        self.text(field).and_then(|text| number_as_written(text).ok())
    }

    /// The points for which a leg, a sum of legs or a chart reading is written.
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

/// The largest value that the field book accepts as a number: far beyond any gauge and unit, and
/// small enough that no calculation with it overflows.
pub const LARGEST_NUMBER: f64 = 1e9;

/// The text is not a number.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("`{}` is not a number: write it in digits, such as 3.1, 56 1/2 or 56½", printable(.0))]
pub struct NotANumber(String);

/// Reads a number as people write it: `3.1`, `3,1`, `-0.02`, `56½`, `56 1/2`, with or without
/// spaces around it.
///
/// # Errors
///
/// When the text is not a number, or the number is larger than [`LARGEST_NUMBER`].
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

/// A decimal number; neither `inf` nor `nan`.
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
