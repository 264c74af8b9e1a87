//! The calibration line that the rig gives a perfect reader, tight and with a leak: correlation does
//! not show the leak, the intercept does.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::calibration::FittedLine;
use sim_core::rig::RigParameters;
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs};
use sim_core::units::PA_PER_INH2O;

use super::operating_points::{calibrated, station, warm_point};
use super::{number, table};

const OPENINGS: [f64; 5] = [1.0, 0.7, 0.5, 0.35, 0.235];

fn line(site: &str, leak_cda_m2: f64) -> FittedLine {
    let rig = RigParameters::default();
    let ambient = station(site);
    let root = (ambient.pressure_pa / 101_325.0 * 298.15 / ambient.temperature_k).sqrt();
    let recorder = FlowRecorder::new(rig.recorder);
    let points: Vec<_> = OPENINGS
        .iter()
        .map(|&opening| {
            let flow = warm_point(&rig, ambient, calibrated(&rig, opening, leak_cda_m2)).flow;
            let exit_inh2o = flow.exit_pressure_pa / PA_PER_INH2O;
            let pen = recorder.pen_at_rest(RecorderInputs { exit_inh2o, flow_std_m3_min: 0.0 });
            (flow.calibrator_flow_std_m3_min(), pen * root)
        })
        .collect();
    FittedLine::fit(&points).unwrap()
}

pub fn rows() -> Vec<Row> {
    let [mut slope, mut intercept, mut r] = [(); 3].map(|()| Worst::new());
    for row in table("lines_of_the_rig.csv") {
        let leak_cda_m2 = if row["case"] == "clean" { 0.0 } else { 2e-5 };
        let found = line(&row["site"], leak_cda_m2);
        slope.absolute(found.slope, number(&row, "slope"));
        intercept.absolute(found.intercept, number(&row, "intercept"));
        r.absolute(found.r, number(&row, "r"));
    }
    const SOURCE: &str = "computed from the table of operating points with Python";
    vec![
        slope.row("line of the rig, slope", SOURCE, Mark::Computed, "divisions min/m3", 0.05),
        intercept.row("line of the rig, intercept", SOURCE, Mark::Computed, "divisions", 0.05),
        r.row("line of the rig, correlation coefficient", SOURCE, Mark::Computed, "1", 1e-6),
    ]
}

#[test]
fn only_the_intercept_shows_a_leak() {
    assert_rows(&rows());
    let (tight, leaking) = (line("sea_level_20C", 0.0), line("sea_level_20C", 2e-5));
    assert!(leaking.r > 0.9999, "{}", leaking.r);
    assert!(leaking.intercept - tight.intercept > 7.0, "{}", leaking.intercept);
}
