//! A sampler's calibration with actual conditions, with averages built in, and with the wrong
//! expression.

use bench_tests::{Mark, Row, Worst};
use sim_core::calibration::{
    AirConditions, Basis, Calibration, Curve, Expression, PointReading, RecorderScale,
    TransferStandard, calibrate, root_term,
};
use sim_core::units::{Pressure, Temperature};

use super::{number, table};

fn air(mmhg: f64, k: f64) -> AirConditions {
    AirConditions::new(Pressure::from_mmhg(mmhg), Temperature::from_k(k)).unwrap()
}

/// Works the table's readings out. Its comment lines hold the conditions, the standard and the fits.
fn calibration(expression: Expression) -> Calibration {
    let readings: Vec<_> = table("worked_sampler.csv")
        .iter()
        .map(|row| PointReading {
            delta_h_inh2o: number(row, "dH_inH2O"),
            chart: number(row, "chart"),
            conditions: air(748.0, 301.0),
        })
        .collect();
    calibrate(&readings, TransferStandard::new(1.49307, -0.00550).unwrap(), expression).unwrap()
}

fn actual() -> Calibration {
    calibration(Expression::actual(RecorderScale::SquareRoot))
}

/// The wrong expression: a root too many, as if the chart were linear in pressure.
fn extra_root() -> Calibration {
    calibration(Expression::actual(RecorderScale::LinearInPressure))
}

fn averages() -> Calibration {
    let basis = Basis::Averages(air(750.0, 293.0));
    calibration(Expression { recorder: RecorderScale::SquareRoot, basis })
}

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let source =
        "computed from the equations of 40 CFR Part 50, App. B, 9.3, with an independent tool";
    let (actual, extra_root, averages) = (actual(), extra_root(), averages());
    let mut points = Worst::new();
    for (index, row) in table("worked_sampler.csv").iter().enumerate() {
        let term = root_term(number(row, "dH_inH2O"), air(748.0, 301.0)).unwrap();
        points.relative(term, number(row, "y"));
        points.relative(actual.points[index].flow_std_m3_min, number(row, "Qstd_m3min"));
        for (found, column) in [
            (&actual, "chart_term_actual"),
            (&extra_root, "chart_term_extra_root"),
            (&averages, "chart_term_averages"),
        ] {
            points.relative(found.points[index].chart_term, number(row, column));
        }
    }
    let mut lines = Worst::new();
    for (found, slope, intercept, r) in [
        (&actual, 35.048_847_310_9, -6.341_200_682_6, 0.999_926_063_3),
        (&averages, 34.984_492_804_5, -6.329_557_365_6, 0.999_926_063_3),
        (&extra_root, 2.742_995_141_2, 2.625_476_025_0, 0.998_646_821_1),
    ] {
        lines.relative(found.line.slope, slope);
        lines.relative(found.line.intercept, intercept);
        lines.relative(found.line.r, r);
    }
    lines.relative(actual.line.residual_sd, 0.126_045_709_2);
    vec![
        points.row(
            "sampler: flow and corrected chart reading by each expression",
            source,
            Mark::Computed,
            "relative",
            1e-9,
        ),
        lines.row("sampler: line by each expression", source, Mark::Computed, "relative", 1e-9),
    ]
}

#[test]
fn a_sampler() {
    let rows = rows();
    bench_tests::assert_rows(&rows);
    assert_eq!((rows[0].figures, rows[1].figures), (25, 10));
}

/// The line with averages built in, freed of them, is the line that the independent tool fitted to the
/// readings corrected with the actual values (slope and intercept of the table's comment lines), and
/// both give the same flow at the averages.
#[test]
fn a_line_is_freed_of_its_averages() {
    let plain = averages().curve.without_averages();
    assert!((plain.slope() / 35.048_847_310_9 - 1.0).abs() < 1e-9, "{plain:?}");
    assert!((plain.intercept() / -6.341_200_682_6 - 1.0).abs() < 1e-9, "{plain:?}");
    let at = air(750.0, 293.0);
    let flow = |curve: Curve| curve.flow_std_m3_min(40.0, at).unwrap();
    assert!((flow(plain) / flow(averages().curve) - 1.0).abs() < 1e-12);
    // Five degrees and ten millimetres away the line with averages is used as it is.
    let near = averages().curve.in_air(air(760.0, 298.0));
    assert_eq!(near.expression().basis, averages().curve.expression().basis);
}

#[test]
fn no_limit_sees_the_wrong_expression() {
    let largest = |found: &Calibration| {
        found.points.iter().map(|point| point.residual_m3_min.abs()).fold(0.0, f64::max)
    };
    assert_eq!(actual().problems(false), []);
    assert_eq!(extra_root().problems(false), []);
    assert!(extra_root().line.r > 0.990);
    // Only the distances from the line grow: they bend, where the right ones scatter.
    assert!(largest(&extra_root()) > 2.0 * largest(&actual()));
}
