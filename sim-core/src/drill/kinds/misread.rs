//! The ways in which any scale is misread.

use super::super::slip::DrillSlip;

/// Answers that follow from counting marks wrongly, on a scale with a mark each `mark` and a number each
/// `number`.
pub(super) fn misread(value: f64, mark: f64, number: f64) -> Vec<(DrillSlip, f64)> {
    let under = (value / number).floor() * number;
    let mut slips = vec![
        (DrillSlip::NeighbouringDivision, value - mark),
        (DrillSlip::NeighbouringDivision, value + mark),
        (DrillSlip::WrongNumber, value - number),
        (DrillSlip::WrongNumber, value + number),
    ];
    for from in [under, under + number] {
        slips.push((DrillSlip::WrongDirection, 2.0 * from - value));
    }
    slips
}
