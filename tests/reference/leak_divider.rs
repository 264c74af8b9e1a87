//! A leak on the way to an instrument takes its share of the pressure.

use bench_tests::{Mark, Row, Worst};
use sim_core::rig::manometer::tube::Tube;
use sim_core::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs, RecorderKind, RecorderParameters};

use super::{number, table};

const SOURCE: &str = "computed from two turbulent resistances in series, with an independent tool";

pub fn rows() -> Vec<Row> {
    let (mut valve, mut tube, mut recorder) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("manometer_leak_divider.csv") {
        let ratio = number(&row, "leak_to_tap_conductance_ratio");
        let expected = number(&row, "reading_pct_turbulent(A_l/A_t)");
        valve.absolute(manometer_pct(ratio), expected);

        let mut cracked = Tube::default();
        cracked.connect();
        cracked.crack(ratio);
        tube.absolute(cracked.step(1.0, 1000.0) / 10.0, expected);

        // An even chart shows the pressure itself: 5 inches of water are 50 divisions.
        let mut leaking = FlowRecorder::new(RecorderParameters {
            kind: RecorderKind::Linear,
            backlash_inh2o: 0.0,
            line_leak_ratio: ratio,
            ..Default::default()
        });
        leaking.step(600.0, RecorderInputs { exit_inh2o: 5.0, flow_std_m3_min: 0.0 });
        recorder.absolute(leaking.pen() / 0.5, expected);
    }
    vec![
        valve.row("manometer valve that leaks", SOURCE, Mark::Computed, "percent", 6e-4),
        tube.row("cracked tube", SOURCE, Mark::Computed, "percent", 6e-4),
        recorder.row("recorder line that leaks", SOURCE, Mark::Computed, "percent", 6e-4),
    ]
}

/// Reading of a manometer whose left valve leaks, percent of that of a tight one.
fn manometer_pct(ratio: f64) -> f64 {
    let column = |left_leak_ratio| {
        let mut manometer = Manometer::new(
            ManometerParameters {
                left_leak_ratio,
                initial_valve_quarters: [4, 4],
                ..Default::default()
            },
            101_325.0,
        );
        manometer.hang(0.0);
        let inputs = ManometerInputs { suction_pa: 1500.0, ..ManometerInputs::still(101_325.0) };
        manometer.step(600.0, inputs);
        let [left, right] = manometer.levels_in();
        left - right
    };
    100.0 * column(ratio) / column(0.0)
}

#[test]
fn holds() {
    bench_tests::assert_rows(&rows());
}
