//! The constant-area orifice against a plate of ISO 5167-2, whose coefficient drifts.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::DRY_AIR_J_KG_K;
use sim_core::rig::flow::calibrator::CalibratorParameters;
use sim_core::rig::flow::orifice;

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut flow, mut eps) = (Worst::new(), Worst::new());
    let cda = CalibratorParameters::default().orifice_cda_m2;
    let (pressure, temperature) = (101_325.0, 298.15);
    let density = pressure / (DRY_AIR_J_KG_K * temperature);
    for row in table("orifice_iso5167.csv") {
        let drop = number(&row, "dP_Pa");
        let mass_flow = orifice::mass_flow_kg_s(cda, pressure, temperature, DRY_AIR_J_KG_K, drop);
        flow.relative(60.0 * mass_flow / density, number(&row, "Q_m3min_actual"));
        eps.absolute(orifice::expansibility(drop / pressure), number(&row, "eps_ISO5167_2003"));
    }
    const ISO: &str = "computed from ISO 5167-2 with fluids 1.3";
    vec![
        flow.row("orifice, flow with a constant area", ISO, Mark::Computed, "relative", 0.011),
        // The rig's plate has no upstream pipe: the terms of the diameter ratio are left out.
        eps.row("orifice, expansibility", ISO, Mark::Computed, "1", 2e-4),
    ]
}

#[test]
fn the_orifice_is_near_the_standard_plate() {
    assert_rows(&rows());
}
