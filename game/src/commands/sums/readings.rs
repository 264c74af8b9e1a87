//! The readings of a file, complete for what the file asks.

use sim_core::calibration::{
    AirConditions, Expression, FilterMasses, PointReading, RunPart, StandardRun,
};

/// The readings of a file. What it does not ask for is `None`.
#[derive(Debug)]
pub struct Readings {
    /// How the transfer standard is known.
    pub standard: Option<Standard>,
    /// Where the calibration line comes from.
    pub line: Option<LineSource>,
    /// Whether the highest of the points was read with the knob fully open.
    pub fully_open: bool,
    /// The flow for which a set point is wanted, std m3/min, and the air expected.
    pub set_point: Option<(f64, AirConditions)>,
    /// The run, and the air during it.
    pub run: Option<(RunReadings, AirConditions)>,
    /// The masses of the filter.
    pub masses: Option<FilterMasses>,
}

/// How the transfer standard is known.
#[derive(Debug)]
pub enum Standard {
    /// Slope and intercept from a certificate.
    Certificate(f64, f64),
    /// The runs of its certification, and the air during them.
    Runs(Vec<StandardRun>, AirConditions),
}

/// Where the calibration line comes from.
#[derive(Debug)]
pub enum LineSource {
    /// The points of a calibration.
    Points(Vec<PointReading>, Expression),
    /// Slope and intercept of an earlier calibration.
    Given(f64, f64, Expression),
}

impl LineSource {
    /// The expression for the corrected chart reading.
    pub const fn expression(&self) -> Expression {
        match self {
            Self::Points(_, expression) | Self::Given(_, _, expression) => *expression,
        }
    }
}

/// What was read from the chart of a run.
#[derive(Debug)]
pub enum RunReadings {
    /// Mean readings of the whole run, or of its parts.
    Parts(Vec<RunPart>),
    /// The readings at its start and its end, and its minutes.
    StartAndEnd(f64, f64, f64),
}
