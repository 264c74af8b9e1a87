//! The pen's play, down the chart and up again.

use bench_tests::{Mark, Row, Worst};
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs, RecorderParameters};

use super::{number, table};

const SOURCE: &str = "computed from a play operator behind a square-root chart, with SciPy";

pub fn rows() -> Vec<Row> {
    let (mut pen, mut at_rest, mut error) = (Worst::new(), Worst::new(), Worst::new());
    let mut recorder = FlowRecorder::new(RecorderParameters::default());
    for row in table("pen_play.csv") {
        let inputs = RecorderInputs { exit_inh2o: number(&row, "P_true"), flow_std_m3_min: 0.0 };
        for _ in 0..30 {
            recorder.step(1.0, inputs);
        }
        pen.absolute(recorder.pen(), number(&row, "I_pen"));
        at_rest.absolute(recorder.pen_at_rest(inputs), number(&row, "I_true"));
        error.absolute(recorder.pen() - recorder.pen_at_rest(inputs), number(&row, "I_err"));
    }
    vec![
        pen.row("recorder: pen with play", SOURCE, Mark::Computed, "chart divisions", 6e-4),
        at_rest.row("recorder: pen at rest", SOURCE, Mark::Computed, "chart divisions", 6e-4),
        error.row("recorder: error of the play", SOURCE, Mark::Computed, "chart divisions", 6e-4),
    ]
}

#[test]
fn holds() {
    bench_tests::assert_rows(&rows());
}
