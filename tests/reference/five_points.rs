//! Three invented calibrations of five points, from the readings to the prediction interval.

use std::collections::BTreeMap;

use bench_tests::{Mark, Row, Worst};
use sim_core::calibration::{
    AirConditions, Calibration, Expression, PointReading, RecorderScale, TransferStandard,
    calibrate, student_t_two_sided,
};
use sim_core::units::{Pressure, Temperature};

use super::{number, table};

/// The rows of one set, and the calibration worked out from their readings. The sheet converts
/// degrees Celsius with 273, so the kelvins are given.
fn calibration(set: &str) -> (Vec<BTreeMap<String, String>>, Calibration) {
    let rows: Vec<_> =
        table("five_point_sets.csv").into_iter().filter(|row| row["set"] == set).collect();
    let first = &rows[0];
    let standard =
        TransferStandard::new(number(first, "orifice_m"), number(first, "orifice_b")).unwrap();
    let readings: Vec<_> = rows
        .iter()
        .map(|row| PointReading {
            delta_h_inh2o: number(row, "dH_inH2O"),
            chart: number(row, "chart_I"),
            conditions: AirConditions::new(
                Pressure::from_mmhg(number(row, "P_mmHg")),
                Temperature::from_k(number(row, "t_C") + 273.0),
            )
            .unwrap(),
        })
        .collect();
    let found =
        calibrate(&readings, standard, Expression::actual(RecorderScale::SquareRoot)).unwrap();
    (rows, found)
}

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let source = "computed from 40 CFR Part 50, App. B, 9.3, in exact rational arithmetic, checked \
                  with SciPy and statsmodels; invented readings";
    let (mut points, mut fits, mut predictions) = (Worst::new(), Worst::new(), Worst::new());
    for fit in table("five_point_fits.csv") {
        let (readings, found) = calibration(&fit["set"]);
        for (point, row) in found.points.iter().zip(&readings) {
            points.relative(point.flow_std_m3_min, number(row, "Qstd_m3min"));
            points.relative(point.chart_term, number(row, "chart_term"));
        }
        let line = &found.line;
        for (value, column) in [
            (line.slope, "slope"),
            (line.intercept, "intercept"),
            (line.r, "r"),
            (line.r2, "r2"),
            (line.residual_sd, "resid_sd"),
            (line.se_slope, "se_slope"),
            (line.se_intercept, "se_intercept"),
            (line.x_mean, "xbar"),
            (line.sxx, "sxx"),
        ] {
            fits.relative(value, number(&fit, column));
        }
        predictions.relative(student_t_two_sided(0.95, 3).unwrap(), number(&fit, "t_0.975_df3"));
        if fit["set"].starts_with("S1") {
            let at = line.prediction_interval(1.13, 0.95).unwrap();
            predictions.relative(at.middle, 38.098_140_910_2);
            predictions.relative(at.low, 36.664_025_28);
            predictions.relative(at.high, 39.532_256_54);
        }
    }
    vec![
        points.row(
            "calibration point: flow and corrected chart reading",
            source,
            Mark::Computed,
            "relative",
            1e-9,
        ),
        fits.row("calibration line of five points", source, Mark::Computed, "relative", 1e-9),
        predictions.row(
            "Student's t and prediction interval of a corrected chart reading",
            "computed with SciPy and statsmodels; invented readings",
            Mark::Computed,
            "relative",
            1e-9,
        ),
    ]
}

#[test]
fn three_calibrations() {
    let rows = rows();
    bench_tests::assert_rows(&rows);
    assert_eq!((rows[0].figures, rows[1].figures, rows[2].figures), (30, 27, 6));
}

#[test]
fn they_break_no_limit() {
    for fit in table("five_point_fits.csv") {
        let (_, found) = calibration(&fit["set"]);
        // The second set is of thin air, in which the blower gave no more.
        assert_eq!(found.problems(true), [], "{}", fit["set"]);
    }
}
