//! The calculations as an operator does them with a pencil, rounded where people round.

use crate::calibration::{AirConditions, Basis, Expression, RecorderScale, TransferStandard};
use crate::rig::recorder::RecorderKind;

/// The expression of the corrected chart reading that belongs to the recorder's plate.
pub(super) const fn expression(scale: RecorderKind) -> Expression {
    Expression::actual(match scale {
        RecorderKind::SquareRoot => RecorderScale::SquareRoot,
        RecorderKind::Linear => RecorderScale::LinearInPressure,
        RecorderKind::MassFlow => RecorderScale::MassFlow,
    })
}

/// How the operator writes that expression.
pub(super) fn words(expression: Expression) -> String {
    let [pressure, temperature] = match expression.basis {
        Basis::Actual => ["760".to_owned(), "298".to_owned()],
        Basis::Averages(air) => {
            [format!("{:.1}", air.pressure().mmhg()), format!("{:.1}", air.temperature().k())]
        }
    };
    match expression.recorder {
        RecorderScale::SquareRoot => format!("I*sqrt(P/{pressure}*{temperature}/T)"),
        RecorderScale::LinearInPressure => format!("sqrt(I*P/{pressure}*{temperature}/T)"),
        RecorderScale::MassFlow => "I".to_owned(),
    }
}

/// Flow at standard conditions, m3/min; NaN if the reading gives none.
pub(super) fn flow(delta_h_in: f64, air: AirConditions, standard: TransferStandard) -> f64 {
    standard.flow_std_m3_min(delta_h_in, air).unwrap_or_default()
}

/// The corrected chart reading; NaN if the reading gives none.
pub(super) fn term(expression: Expression, chart: f64, air: AirConditions) -> f64 {
    expression.calibration_term(chart, air).unwrap_or_default()
}

/// A value rounded to this many decimals.
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
