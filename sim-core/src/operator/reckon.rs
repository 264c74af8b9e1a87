//! The sums, as an operator does them with a pencil: a square-root scale, rounded where people round.

use crate::calibration::{Conditions, Expression, Recorder, TransferStandard};

/// The expression of the chart term.
pub(super) const EXPRESSION: Expression = Expression::actual(Recorder::SquareRoot);

/// Flow at standard conditions, m3/min; none where the reading gives none.
pub(super) fn flow(delta_h_in: f64, air: Conditions, standard: TransferStandard) -> f64 {
    standard.flow_std_m3_min(delta_h_in, air).unwrap_or_default()
}

/// The chart term; none where the reading gives none.
pub(super) fn term(chart: f64, air: Conditions) -> f64 {
    EXPRESSION.calibration_term(chart, air).unwrap_or_default()
}

/// A number with so many decimals.
pub(super) fn rounded(value: f64, decimals: u32) -> f64 {
    let scale = f64::from(10_u32.saturating_pow(decimals));
    (value * scale).round() / scale
}

#[cfg(test)]
mod tests {
    use super::rounded;

    #[test]
    fn a_number_is_rounded_to_its_decimals() {
        assert!((rounded(1.23456, 3) - 1.235).abs() < 1e-12);
    }
}
