//! The straight line of a certificate through points of a real plate, whose coefficient drifts.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::calibration::{AirConditions, FittedLine, root_term};
use sim_core::units::{Pressure, Temperature};

use super::{number, table};

/// The drops through which the line is laid, inches of water.
const DROPS: [f64; 5] = [1.5, 3.0, 4.5, 6.0, 8.0];

fn line() -> FittedLine {
    let air = AirConditions::new(Pressure::from_mmhg(760.0), Temperature::from_k(298.15)).unwrap();
    let points: Vec<_> = table("orifice_iso5167.csv")
        .iter()
        .map(|row| (number(row, "dH_inH2O"), number(row, "Q_m3min_actual")))
        .filter(|(drop, _)| DROPS.iter().any(|wanted| (wanted - drop).abs() < 1e-9))
        .map(|(drop, flow)| (flow, root_term(drop, air).unwrap()))
        .collect();
    FittedLine::fit(&points).unwrap()
}

pub fn rows() -> Vec<Row> {
    let line = line();
    let (mut same, mut other) = (Worst::new(), Worst::new());
    same.absolute(line.slope, 1.51349);
    same.absolute(line.intercept, -0.02385);
    same.absolute(line.r, 0.999997);
    other.absolute(line.slope, 1.51318);
    other.absolute(line.intercept, -0.0237);
    vec![
        same.row(
            "straight line of 40 CFR Part 50, App. B, 9.2, through five points of an ISO 5167 plate",
            "computed from ISO 5167-2 with fluids 1.3, the line with Python",
            Mark::Computed,
            "1",
            1e-5,
        ),
        other.row(
            "the same line, against five other points",
            "computed from ISO 5167-2 with fluids 1.3, the line with an independent tool",
            Mark::Computed,
            "1",
            5e-4,
        ),
    ]
}

#[test]
fn a_real_plate_has_a_small_intercept() {
    assert_rows(&rows());
}
