//! How far the volumes of careful operators scatter, within one laboratory's certificates and between
//! laboratories, against what the method itself promises.

use std::sync::LazyLock;

use bench_tests::{Mark, Row, assert_rows};
use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::scenario::{KnownRules, check};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;

/// Laboratories, each of which certified one calibrator.
const LABORATORIES: u64 = 20;
/// Careful operators with calibrators of each.
const OPERATORS: u64 = 10;

/// Errors of volumes at the ordered flow, percent, for each laboratory. The bias of the method, which
/// comes from the controller after the calibration, is not in them.
static VOLUMES: LazyLock<Vec<Vec<f64>>> = LazyLock::new(|| {
    let path = bench_tests::repository().join("scenarios/01_first_calibration.ron");
    let text = std::fs::read_to_string(path).unwrap();
    let drawn = check(&text, KnownRules::Any).unwrap();
    let of_one = |laboratory: u64| {
        let bias_pct = drawn
            .draw(laboratory)
            .iter()
            .find_map(|(name, value)| name.starts_with("laboratory").then_some(value));
        let stated = format!("\", laboratory_bias_pct: Fixed({:e}), date: ", bias_pct.unwrap());
        let text = text.replace("\", date: ", &stated);
        (0..OPERATORS).map(|operator| error_pct(&text, OPERATORS * laboratory + operator)).collect()
    };
    (0..LABORATORIES).map(of_one).collect()
});

/// The error of a careful operator's volumes, percent.
fn error_pct(text: &str, seed: u64) -> f64 {
    let mut session = Session::begin(text, seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name("careful", seed).unwrap().as_mut()).unwrap();
    mark(&session.open().unwrap().evidence()).set_point_flow_error_pct.unwrap()
}

fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// The standard deviation about the mean.
fn sd(values: &[f64]) -> f64 {
    let middle = mean(values);
    let squares = values.iter().map(|value| (value - middle) * (value - middle));
    (squares.sum::<f64>() / (values.len() as f64 - 1.0)).sqrt()
}

/// The standard deviation within a laboratory, all laboratories together.
fn within() -> f64 {
    let variances: Vec<f64> = VOLUMES.iter().map(|errors| sd(errors) * sd(errors)).collect();
    mean(&variances).sqrt()
}

pub fn rows() -> Vec<Row> {
    let row = |law, source, tolerance, worst| {
        let figures = VOLUMES.iter().map(Vec::len).sum();
        Row { law, source, mark: Mark::FromMemory, figures, measure: "percent", tolerance, worst }
    };
    vec![
        row(
            "volumes of careful operators: spread with one laboratory's certificates",
            "40 CFR Part 50, App. B, 4.1: repeatability of the method",
            3.0,
            within(),
        ),
        row(
            "volumes of careful operators: spread between laboratories",
            "40 CFR Part 50, App. B, 4.1: reproducibility of the method",
            3.7,
            sd(&VOLUMES.concat()),
        ),
    ]
}

#[test]
fn careful_volumes_scatter_as_laboratories_do() {
    assert_rows(&rows());
    let all = VOLUMES.concat();
    let (between, within, off) = (sd(&all), within(), mean(&all));
    assert!((0.7..1.5).contains(&between), "{between} %");
    assert!(within < between, "{within} % within a laboratory, {between} % between them");
    assert!(off.abs() < 0.5, "{off} %");
}
