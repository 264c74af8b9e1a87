//! The chart reading at which the sampler runs at a target flow.

use super::error::positive;
use super::{AirConditions, Curve, SumError};

/// The set point: the chart reading for a target flow at the conditions expected during the run,
/// `I = (M Q + B) / sqrt(Pa/760 298/Ta)` for a square-root scale; with averages built into the line
/// the root is omitted. Q in std m3/min, Pa in mmHg, Ta in K, I in chart divisions.
///
/// Source: the inverse of the calibration line of 40 CFR Part 50 App. B, 9.3 (computed).
///
/// # Errors
///
/// When the target is not above zero, or its corrected chart reading is negative or not finite.
pub fn set_point(
    curve: Curve,
    target_flow_std_m3_min: f64,
    expected: AirConditions,
) -> Result<f64, SumError> {
    let target = positive("the target flow", target_flow_std_m3_min)?;
    curve.expression().chart_for(curve.term_at(target), expected)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calibration::{Expression, RecorderScale};
    use crate::units::{Pressure, Temperature};

    #[test]
    fn the_flow_at_the_set_point_is_the_target() {
        let air =
            AirConditions::new(Pressure::from_mmhg(700.0), Temperature::from_c(12.0)).unwrap();
        for recorder in
            [RecorderScale::SquareRoot, RecorderScale::LinearInPressure, RecorderScale::MassFlow]
        {
            let curve = Curve::new(32.3, 1.3, Expression::actual(recorder)).unwrap();
            let chart = set_point(curve, 1.4, air).unwrap();
            assert!((curve.flow_std_m3_min(chart, air).unwrap() - 1.4).abs() < 1e-12);
        }
    }

    #[test]
    fn a_flow_without_a_chart_reading_is_refused() {
        let air =
            AirConditions::new(Pressure::from_mmhg(760.0), Temperature::from_c(25.0)).unwrap();
        let curve = Curve::new(30.0, -40.0, Expression::actual(RecorderScale::SquareRoot)).unwrap();
        assert!(set_point(curve, 1.1, air).is_err());
        assert!(set_point(curve, 0.0, air).is_err());
        assert!(set_point(curve, f64::NAN, air).is_err());
    }
}
