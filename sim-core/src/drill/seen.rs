//! What can be seen of a question, and what is asked.

use serde::Serialize;

use crate::calibration::{CalibratedPoint, FittedLine};
use crate::rig::parts::Leg;
use crate::scenario::setup::CertificatePair;
use crate::session::view::View;
use crate::time::Date;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub enum Asked {
    /// What one leg reads with the eye level with it, inches, negative below zero.
    Leg(Leg),
    /// The pressure by both legs, inches of water.
    Difference,
    /// What the pen reads, chart divisions.
    Pen,
    /// The station pressure, mmHg.
    StationPressure,
    /// The temperature, degrees Celsius.
    Temperature,
    /// The mean of the trace of a run, chart divisions.
    ChartMean,
    /// The running time on the elapsed-time meter, minutes.
    ElapsedTime,
    /// Whether the water is at rest at the last look.
    WaterAtRest(Leg),
    /// Whether the pen is at rest at the last look.
    PenAtRest,
    /// Which certificate is valid.
    ValidCertificate {
        /// The serial number on the calibrator's plate.
        plate: String,
        /// Today.
        today: Date,
    },
    /// What is wrong at the station.
    WhatIsWrong,
    /// The flow of a point, std m3/min.
    PointFlow,
    /// The corrected chart reading of a point.
    PointTerm,
    /// Whether a calibration line can be accepted.
    LineVerdict,
}

/// One look: what could be seen at one moment.
#[derive(Debug, Clone, PartialEq)]
pub struct DrillLook {
    /// When, s after the first look.
    pub at_s: f64,
    /// What could be seen. The eyes are on what is asked about.
    pub view: View,
}

/// Numbers on a sheet of paper.
#[derive(Debug, Clone, PartialEq)]
pub enum DrillSheet {
    /// The readings of a point.
    Point(PointSheet),
    /// The points of a line.
    Line(LineSheet),
}

/// The readings of a point, as they stand in a field book, and the certificate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PointSheet {
    /// Station pressure, mmHg.
    pub pressure_mmhg: f64,
    /// Air temperature, degrees Celsius.
    pub temperature_c: f64,
    /// Rise of the left leg, in.
    pub rise_in: f64,
    /// Fall of the right leg, in.
    pub fall_in: f64,
    /// The pen on a square-root chart, chart divisions.
    pub chart: f64,
    /// The certificate's pair for standard conditions.
    #[serde(serialize_with = "as_pair")]
    pub standard: CertificatePair,
    /// The certificate's pair for actual conditions.
    #[serde(serialize_with = "as_pair")]
    pub actual: CertificatePair,
}

/// A pair as two numbers with names.
fn as_pair<S: serde::Serializer>(pair: &CertificatePair, to: S) -> Result<S::Ok, S::Error> {
    use serde::ser::SerializeStruct as _;
    let mut fields = to.serialize_struct("Pair", 2)?;
    fields.serialize_field("slope", &pair.slope)?;
    fields.serialize_field("intercept", &pair.intercept)?;
    fields.end()
}

/// A calibration as it was calculated.
#[derive(Debug, Clone, PartialEq)]
pub struct LineSheet {
    /// The points: flow, corrected chart reading, and distance from the line.
    pub points: Vec<CalibratedPoint>,
    /// The line.
    pub line: FittedLine,
}
