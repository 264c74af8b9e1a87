//! The calibration of a sampler: points, calibration line, and the distance of each point from it.

use super::error::finite;
use super::validity::calibration_problems;
use super::{
    AirConditions, CalibratedPoint, Curve, Expression, FittedLine, SumError, TransferStandard,
    ValidityProblem,
};

/// The readings of one calibration point.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PointReading {
    /// The sum of both legs of the manometer, inches of water.
    pub delta_h_inh2o: f64,
    /// The pen, chart divisions.
    pub chart: f64,
    /// The air at the time of the readings.
    pub conditions: AirConditions,
}

/// A sampler's calibration.
#[derive(Debug, Clone, PartialEq)]
pub struct Calibration {
    /// The points, in the order of the readings.
    pub points: Vec<CalibratedPoint>,
    /// The line of the corrected chart reading against the flow.
    pub line: FittedLine,
    /// The calibration curve for later use.
    pub curve: Curve,
}

impl Calibration {
    /// Every limit that the calibration does not meet. Where its highest flow was read with the knob
    /// fully open, its range ends where the blower does.
    pub fn problems(&self, fully_open: bool) -> Vec<ValidityProblem> {
        calibration_problems(&self.line, &self.points, fully_open)
    }
}

impl PointReading {
    /// Flow and corrected chart reading: x and y of the calibration line (40 CFR Part 50 App. B,
    /// 9.3.7 to 9.3.9).
    ///
    /// # Errors
    ///
    /// When a reading is negative or not finite, or the transfer standard gives no flow for it.
    pub fn flow_and_term(
        &self,
        standard: TransferStandard,
        expression: Expression,
    ) -> Result<(f64, f64), SumError> {
        let flow = standard.flow_std_m3_min(self.delta_h_inh2o, self.conditions)?;
        let term = expression.calibration_term(self.chart, self.conditions)?;
        Ok((flow, term))
    }
}

/// Calculates a calibration: the flow and the corrected chart reading of each point, and their line
/// `corrected chart reading = M Qstd + B`.
///
/// # Errors
///
/// When a point cannot be calculated (the error names it), no line can be fitted, or the line does
/// not rise. Limits that a finished calibration does not meet are not errors: see
/// [`Calibration::problems`].
pub fn calibrate(
    readings: &[PointReading],
    standard: TransferStandard,
    expression: Expression,
) -> Result<Calibration, SumError> {
    let pairs = readings
        .iter()
        .enumerate()
        .map(|(index, reading)| {
            reading.flow_and_term(standard, expression).map_err(|error| error.at("point", index))
        })
        .collect::<Result<Vec<_>, _>>()?;
    let line = FittedLine::fit(&pairs)?;
    let curve = Curve::new(line.slope, line.intercept, expression)?;
    let points = pairs
        .into_iter()
        .map(|(flow_std_m3_min, chart_term)| {
            let off = line.off_along_x((flow_std_m3_min, chart_term));
            let residual_m3_min = finite("the distance from the line", off)?;
            Ok(CalibratedPoint { flow_std_m3_min, chart_term, residual_m3_min })
        })
        .collect::<Result<Vec<_>, SumError>>()?;
    Ok(Calibration { points, line, curve })
}
