//! What taps leave of the pen's error.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs, RecorderParameters};

/// Error of the pen at 66 divisions after the flow was lowered and the case tapped so often.
fn error_after(taps: u32) -> f64 {
    let mut recorder = FlowRecorder::new(RecorderParameters::default());
    let at = |exit_inh2o| RecorderInputs { exit_inh2o, flow_std_m3_min: 0.0 };
    let root = 66.0 / recorder.parameters.square_root_divisions;
    recorder.step(60.0, at(5.3));
    recorder.step(60.0, at(root * root));
    for _ in 0..taps {
        recorder.tap();
    }
    recorder.pen() - recorder.pen_at_rest(at(root * root))
}

pub fn rows() -> Vec<Row> {
    // The dry-friction model was run for a chart with 24.6 divisions at one inch of water; in
    // pressure the errors are the same.
    let source = "computed from a dry-friction (LuGre) model of pen and linkage, one knock of 0.5 \
                  inH2O, with an independent tool; all magnitudes chosen";
    let mut divisions = Worst::new();
    divisions.absolute(error_after(0), 0.67 * 36.0 / 24.6);
    divisions.absolute(error_after(1), 0.24 * 36.0 / 24.6);
    let mut three = Worst::new();
    three.absolute(100.0 * error_after(3) / error_after(0), 100.0 * 0.35 * 0.35 * 0.35);
    vec![
        divisions.row(
            "recorder: error before and after one tap",
            source,
            Mark::Computed,
            "chart divisions",
            0.01,
        ),
        three.row(
            "recorder: error that three taps leave",
            "computed from 0.35 left by each tap, by hand",
            Mark::Computed,
            "percent",
            0.05,
        ),
    ]
}

#[test]
fn taps_bring_the_pen_home() {
    assert_rows(&rows());
}
