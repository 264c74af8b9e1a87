//! Two exam questions with printed answers.

use bench_tests::{Mark, Row, Worst};
use sim_core::calibration::{AirConditions, FilterMasses, RunVolume, concentration};
use sim_core::units::{Pressure, Temperature};

use super::{number, table};

/// Rows of the qualification page.
pub fn rows() -> Vec<Row> {
    let standard =
        AirConditions::new(Pressure::from_mmhg(760.0), Temperature::from_k(298.0)).unwrap();
    let mut printed = Worst::new();
    let mut recomputed = Worst::new();
    for row in table("published_concentration.csv") {
        let flow = (number(&row, "flow_start_m3min") + number(&row, "flow_end_m3min")) / 2.0;
        let run = RunVolume::from_flow(flow, number(&row, "hours") * 60.0, standard).unwrap();
        let masses = FilterMasses {
            before_g: number(&row, "mass_before_g"),
            after_g: number(&row, "mass_after_g"),
        };
        let found = concentration(masses, &run).unwrap();
        printed.absolute(found.ug_std_m3, number(&row, "printed_ug_m3"));
        recomputed.absolute(found.ug_std_m3, number(&row, "recomputed_ug_m3"));
        recomputed.absolute(found.ug_actual_m3, found.ug_std_m3);
    }
    vec![
        printed.row(
            "concentration from masses, flow and time, as printed",
            "two published exam questions (weak sources)",
            Mark::Published,
            "ug/m3",
            0.05,
        ),
        recomputed.row(
            "concentration from masses, flow and time, recomputed",
            "computed from the figures of the same questions",
            Mark::Computed,
            "ug/m3",
            1e-6,
        ),
    ]
}

#[test]
fn printed_answers() {
    bench_tests::assert_rows(&rows());
}
