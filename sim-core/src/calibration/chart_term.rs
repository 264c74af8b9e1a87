//! The corrected chart reading, which is plotted against the flow: its expression for each kind of
//! recorder.

use serde::{Deserialize, Serialize};

use super::error::{finite, not_negative};
use super::{AirConditions, SumError};

/// Kind of flow recorder, which decides the expression of its corrected chart reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename = "Recorder", rename_all = "snake_case")]
pub enum RecorderScale {
    /// A chart with a square-root scale, or a rotameter: the reading is proportional to the flow.
    #[default]
    SquareRoot,
    /// An indicator that is linear in pressure: the root of the reading is proportional to the flow.
    LinearInPressure,
    /// A mass flow meter, which needs no correction.
    MassFlow,
}

/// Which conditions a calibration line is made for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Basis {
    /// Standard conditions: each reading is corrected with the pressure and temperature at its time.
    Actual,
    /// The average pressure of the site and the average temperature of the season are built into the
    /// line, so that readings during a run need no correction. Allowed while the actual values stay
    /// near the averages (READ, 40 CFR Part 50 App. B, 9.3.9).
    Averages(AirConditions),
}

/// The expression of the corrected chart reading: kind of recorder and basis.
///
/// | recorder | calibration, actual | calibration, averages | run, actual | run, averages |
/// |---|---|---|---|---|
/// | square-root scale | I sqrt(P2/760 298/T2) | I sqrt(P2/Pa Ta/T2) | I sqrt(P3/760 298/T3) | I |
/// | linear in pressure | sqrt(I P2/760 298/T2) | sqrt(I P2/Pa Ta/T2) | sqrt(I P3/760 298/T3) | sqrt(I) |
/// | mass flow meter | I | I | I | I |
///
/// I chart divisions, P mmHg, T K; 2 at the calibration, 3 during the run, a the averages. Source:
/// 40 CFR Part 50 App. B, Tables 1 and 2 (MEMORY; the text around them READ).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Expression {
    /// Kind of recorder.
    pub recorder: RecorderScale,
    /// What the line is made for.
    pub basis: Basis,
}

impl Expression {
    /// The expression in which each reading is corrected for the conditions at its time.
    pub const fn actual(recorder: RecorderScale) -> Self {
        Self { recorder, basis: Basis::Actual }
    }

    /// The corrected chart reading of a calibration point, which is plotted against its flow.
    ///
    /// # Errors
    ///
    /// When the chart reading is negative or not finite.
    pub fn calibration_term(self, chart: f64, at: AirConditions) -> Result<f64, SumError> {
        let factor = match self.basis {
            Basis::Actual => at.to_standard(),
            Basis::Averages(averages) => at.relative_to(averages),
        };
        self.term(chart, factor)
    }

    /// The corrected chart reading of a reading during a run.
    ///
    /// # Errors
    ///
    /// When the chart reading is negative or not finite.
    pub fn run_term(self, chart: f64, at: AirConditions) -> Result<f64, SumError> {
        self.term(chart, self.run_factor(at))
    }

    /// The chart reading for a corrected chart reading during a run: the inverse of
    /// [`Self::run_term`].
    ///
    /// # Errors
    ///
    /// When the corrected chart reading is negative or not finite, because no chart reading gives it.
    pub fn chart_for(self, term: f64, at: AirConditions) -> Result<f64, SumError> {
        let term = not_negative("the corrected chart reading", term)?;
        let factor = self.run_factor(at);
        let chart = match self.recorder {
            RecorderScale::SquareRoot => term / factor.sqrt(),
            RecorderScale::LinearInPressure => term * term / factor,
            RecorderScale::MassFlow => term,
        };
        finite("the chart reading", chart)
    }

    fn run_factor(self, at: AirConditions) -> f64 {
        match self.basis {
            Basis::Actual => at.to_standard(),
            Basis::Averages(_) => 1.0,
        }
    }

    fn term(self, chart: f64, factor: f64) -> Result<f64, SumError> {
        let chart = not_negative("the chart reading", chart)?;
        let term = match self.recorder {
            RecorderScale::SquareRoot => chart * factor.sqrt(),
            RecorderScale::LinearInPressure => (chart * factor).sqrt(),
            RecorderScale::MassFlow => chart,
        };
        finite("the corrected chart reading", term)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Pressure, Temperature};

    fn air(mmhg: f64, k: f64) -> AirConditions {
        AirConditions::new(Pressure::from_mmhg(mmhg), Temperature::from_k(k)).unwrap()
    }

    #[test]
    fn a_chart_reading_comes_back_from_its_term() {
        for recorder in
            [RecorderScale::SquareRoot, RecorderScale::LinearInPressure, RecorderScale::MassFlow]
        {
            for basis in [Basis::Actual, Basis::Averages(air(700.0, 290.0))] {
                let expression = Expression { recorder, basis };
                let term = expression.run_term(46.5, air(626.5, 278.0)).unwrap();
                let chart = expression.chart_for(term, air(626.5, 278.0)).unwrap();
                assert!((chart - 46.5).abs() < 1e-12, "{expression:?}");
            }
        }
    }

    #[test]
    fn at_the_averages_both_tables_agree() {
        let averages = air(700.0, 290.0);
        let expression =
            Expression { recorder: RecorderScale::SquareRoot, basis: Basis::Averages(averages) };
        let calibrated = expression.calibration_term(40.0, averages).unwrap();
        assert!((calibrated - expression.run_term(40.0, averages).unwrap()).abs() < 1e-12);
    }

    #[test]
    fn an_impossible_reading_is_refused() {
        let expression = Expression::actual(RecorderScale::LinearInPressure);
        for chart in [-0.5, f64::NAN, f64::INFINITY] {
            assert!(expression.run_term(chart, air(760.0, 298.0)).is_err());
            assert!(expression.calibration_term(chart, air(760.0, 298.0)).is_err());
        }
        assert!(expression.chart_for(-1.0, air(760.0, 298.0)).is_err());
        assert!(expression.chart_for(1e200, air(760.0, 298.0)).is_err());
    }
}
