//! The calibration curve of a sampler in use: from chart readings to flows and back.

use super::error::finite;
use super::{AirConditions, Basis, Expression, RecorderScale, SumError, averages_hold};

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

    /// The same curve with no averages built in: the expression with actual values gives
    /// sqrt(Pa/760 298/Ta) times the corrected chart reading with the averages Pa, Ta, and slope and
    /// intercept grow by the same factor. Readings of a mass flow meter need neither.
    ///
    /// This follows from Table 1 of 40 CFR Part 50 App. B (MEMORY); computed.
    #[must_use]
    pub fn without_averages(self) -> Self {
        let Basis::Averages(averages) = self.expression.basis else { return self };
        let recorder = self.expression.recorder;
        let by = match recorder {
            RecorderScale::MassFlow => 1.0,
            RecorderScale::SquareRoot | RecorderScale::LinearInPressure => {
                averages.to_standard().sqrt()
            }
        };
        Self {
            slope: by * self.slope,
            intercept: by * self.intercept,
            expression: Expression::actual(recorder),
        }
    }

    /// The curve as it is used in this air: with averages built in where the air is near enough to
    /// them, and otherwise without (40 CFR Part 50 App. B, 9.3.9, READ).
    #[must_use]
    pub fn in_air(self, at: AirConditions) -> Self {
        match self.expression.basis {
            Basis::Averages(averages) if averages_hold(averages, at) => self,
            _ => self.without_averages(),
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Averages of 700 mmHg and 290 K: 700/760 298/290 = 0.946460981, its root 0.972862262 (worked out
    /// by hand).
    const ROOT: f64 = 0.972_862_262;

    fn air(mmhg: f64, kelvins: f64) -> AirConditions {
        AirConditions::as_read(mmhg, kelvins - 273.15).unwrap()
    }

    #[test]
    fn a_line_with_averages_gives_the_flow_of_the_plain_one_at_the_averages() {
        let basis = Basis::Averages(air(700.0, 290.0));
        for recorder in [RecorderScale::SquareRoot, RecorderScale::LinearInPressure] {
            let built_in = Curve::new(34.0, -6.0, Expression { recorder, basis }).unwrap();
            let plain = built_in.without_averages();
            assert!((plain.slope() / 34.0 - ROOT).abs() < 1e-8, "{plain:?}");
            assert!((plain.intercept() / -6.0 - ROOT).abs() < 1e-8, "{plain:?}");
            let flow = |curve: Curve| curve.flow_std_m3_min(45.0, air(700.0, 290.0)).unwrap();
            assert!((flow(plain) - flow(built_in)).abs() < 1e-12);
        }
        let mass = Expression { recorder: RecorderScale::MassFlow, basis };
        let meter = Curve::new(34.0, 0.5, mass).unwrap().without_averages();
        assert!((meter.slope() - 34.0).abs() < 1e-12 && (meter.intercept() - 0.5).abs() < 1e-12);
    }

    #[test]
    fn averages_serve_within_sixty_millimetres_and_fifteen_degrees_of_them() {
        let basis = Basis::Averages(air(700.0, 290.0));
        let curve =
            Curve::new(34.0, -6.0, Expression { recorder: RecorderScale::SquareRoot, basis })
                .unwrap();
        for (near, mmhg, kelvins) in [
            (true, 760.0, 305.0),
            (true, 640.0, 275.0),
            (false, 761.0, 290.0),
            (false, 639.0, 290.0),
            (false, 700.0, 305.5),
            (false, 700.0, 274.5),
        ] {
            let used = curve.in_air(air(mmhg, kelvins)).expression().basis;
            assert_eq!(used == Basis::Actual, !near, "{mmhg} mmHg, {kelvins} K");
        }
    }
}
