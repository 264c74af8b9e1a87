//! The calibration curve of a sampler in use: from chart readings to flows and back.

use super::error::finite;
use super::{AirConditions, Expression, SumError};

/// The calibration curve: corrected chart reading = slope * flow + intercept, and the expression of
/// the corrected chart reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve {
    slope: f64,
    intercept: f64,
    expression: Expression,
}

impl Curve {
    /// From slope M, chart divisions over std m3/min, intercept B, chart divisions (for an indicator
    /// linear in pressure their roots), and the expression that the line was made with.
    ///
    /// # Errors
    ///
    /// When one is not finite or the slope is not above zero.
    pub fn new(slope: f64, intercept: f64, expression: Expression) -> Result<Self, SumError> {
        finite("the slope of the calibration line", slope)?;
        finite("the intercept of the calibration line", intercept)?;
        if slope > 0.0 {
            Ok(Self { slope, intercept, expression })
        } else {
            Err(SumError::SlopeNotPositive { slope })
        }
    }

    /// Slope M.
    pub const fn slope(self) -> f64 {
        self.slope
    }

    /// Intercept B.
    pub const fn intercept(self) -> f64 {
        self.intercept
    }

    /// The expression of the corrected chart reading.
    pub const fn expression(self) -> Expression {
        self.expression
    }

    /// The corrected chart reading at a flow, std m3/min.
    pub fn term_at(self, flow_std_m3_min: f64) -> f64 {
        self.slope * flow_std_m3_min + self.intercept
    }

    /// The flow during a run at standard conditions, std m3/min, from a chart reading:
    /// `Q = (I sqrt(P3/760 298/T3) - B) / M` for a square-root scale (40 CFR Part 50 App. B, 10.1
    /// and Table 2, MEMORY).
    ///
    /// # Errors
    ///
    /// When the chart reading is negative or not finite, or below the intercept.
    pub fn flow_std_m3_min(self, chart: f64, at: AirConditions) -> Result<f64, SumError> {
        let term = self.expression.run_term(chart, at)?;
        let flow = finite("the flow", (term - self.intercept) / self.slope)?;
        if flow > 0.0 {
            Ok(flow)
        } else {
            Err(SumError::NoFlow { term, intercept: self.intercept })
        }
    }
}
