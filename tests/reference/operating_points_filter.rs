//! Steady operating points with a filter in place of the calibrator.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::filter::Filter;
use sim_core::rig::flow::flow_path::Inlet;

use super::operating_points::{MODEL, station, warm_point};
use super::{number, table};

pub fn rows() -> Vec<Row> {
    let mut rig = RigParameters::default();
    let (mut flow, mut pressure, mut speed) = (Worst::new(), Worst::new(), Worst::new());
    for row in table("operating_points_filter.csv") {
        let ambient = station(&row["site"]);
        rig.filter.clean_pa_s_m = number(&row, "R_Pa_s_m");
        let resistance = Filter::default().resistance_pa_s_m3(&rig.filter, ambient.temperature_k);
        let inlet = Inlet { filter_pa_s_m3: Some(resistance), ..Inlet::default() };
        let point = warm_point(&rig, ambient, inlet);
        flow.relative(point.flow.flow_m3_min(), number(&row, "Q_true"));
        flow.relative(point.flow.flow_std_m3_min(), number(&row, "Qstd"));
        pressure.relative(point.flow.exit_pressure_pa, number(&row, "dpx_Pa"));
        if resistance > 0.0 {
            pressure.relative(point.flow.filter_drop_pa, number(&row, "dpf_Pa"));
        }
        speed.relative(point.current_a, number(&row, "I_A"));
    }
    const LAWS: [&str; 3] = [
        "operating points with a filter, flow",
        "operating points with a filter, pressures",
        "operating points with a filter, current",
    ];
    vec![
        flow.row(LAWS[0], MODEL, Mark::Computed, "relative", 0.003),
        pressure.row(LAWS[1], MODEL, Mark::Computed, "relative", 0.005),
        speed.row(LAWS[2], MODEL, Mark::Computed, "relative", 0.003),
    ]
}

#[test]
fn the_rig_draws_through_a_filter_as_the_tables_say() {
    assert_rows(&rows());
}
