//! The least squares line against the certified values of the "Norris" data set.

use bench_tests::{Mark, Row, Worst};
use sim_core::calibration::FittedLine;

use super::{number, table};

fn points() -> Vec<(f64, f64)> {
    table("nist_norris_points.csv").iter().map(|row| (number(row, "x"), number(row, "y"))).collect()
}

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let source = "NIST Statistical Reference Datasets, linear regression, Norris";
    let points = points();
    let line = FittedLine::fit(&points).unwrap();
    let mut worst = Worst::new();
    for row in table("nist_norris_certified.csv") {
        let found = match row["stat"].as_str() {
            "b0" => line.intercept,
            "b1" => line.slope,
            "se_b0" => line.se_intercept,
            "se_b1" => line.se_slope,
            "s" => line.residual_sd,
            "r2" => line.r2,
            "ssr" => line.sum_squares_regression,
            "sse" => line.sum_squares_residual,
            other => panic!("unknown figure {other}"),
        };
        worst.relative(found, number(&row, "certified"));
    }
    vec![worst.row(
        "least squares line: every certified statistic",
        source,
        Mark::Published,
        "relative",
        1e-9,
    )]
}

#[test]
fn every_certified_value() {
    bench_tests::assert_rows(&rows());
    assert_eq!(rows()[0].figures, 8);
}

#[test]
fn the_fit_agrees_with_itself() {
    let line = FittedLine::fit(&points()).unwrap();
    assert!((line.r * line.r - line.r2).abs() < 1e-14);
    let residuals = line.residuals(&points());
    assert_eq!(residuals.len(), 36);
    assert!(residuals.iter().sum::<f64>().abs() < 1e-9);
    let squares: f64 = residuals.iter().map(|residual| residual * residual).sum();
    assert!((squares / line.sum_squares_residual - 1.0).abs() < 1e-9);
}
