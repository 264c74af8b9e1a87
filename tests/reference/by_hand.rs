//! Errors of the trade that anybody can work out with a pocket calculator.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::atmosphere;
use sim_core::calibration::{AirConditions, TransferStandard, root_term};
use sim_core::rig::station::barometer::Barometer;
use sim_core::session::action::BarometerReference;
use sim_core::units::{Pressure, Temperature};

fn air(pressure: Pressure) -> AirConditions {
    AirConditions::new(pressure, Temperature::from_k(298.0)).unwrap()
}

/// How far one flow lies over another, percent.
fn over_pct(found: f64, right: f64) -> f64 {
    100.0 * (found / right - 1.0)
}

pub fn rows() -> Vec<Row> {
    let standard = TransferStandard::new(1.5, 0.0).unwrap();
    let sea_level = air(Pressure::from_mmhg(760.0));
    let mut one_leg = Worst::new();
    for whole in [2.0, 4.0, 6.5] {
        let flow = |delta_h| standard.flow_std_m3_min(delta_h, sea_level).unwrap();
        one_leg.absolute(over_pct(flow(whole / 2.0), flow(whole)), -29.289);
    }
    // 760 mmHg where 674.127 mmHg belong: sqrt(760 / 674.127) = 1.06178.
    let station_pa = atmosphere::pressure_pa(1000.0);
    let (mut reduced, mut shown) = (Worst::new(), Worst::new());
    let term = |pressure| root_term(4.0, air(pressure)).unwrap();
    let wrong = term(Pressure::from_mmhg(760.0));
    reduced.absolute(over_pct(wrong, term(Pressure::from_pa(station_pa))), 6.178);
    let mut barometer = Barometer::new(1000.0, BarometerReference::Station);
    shown.absolute(barometer.pointer_mmhg(station_pa), 674.127);
    barometer.set(BarometerReference::SeaLevel);
    shown.absolute(barometer.pointer_mmhg(station_pa), 760.0);
    const ROOT: &str = "computed by hand from sqrt(1/2) - 1";
    const STANDARD: &str =
        "computed by hand from the US Standard Atmosphere 1976, 674.127 mmHg at 1000 m";
    vec![
        one_leg.row("one leg taken for the whole: flow", ROOT, Mark::Computed, "percent", 1e-3),
        reduced.row(
            "sea-level pressure at 1000 m: root term",
            STANDARD,
            Mark::Computed,
            "percent",
            2e-3,
        ),
        shown.row("barometer at 1000 m, both settings", STANDARD, Mark::Computed, "mmHg", 0.02),
    ]
}

#[test]
fn slips_cost_what_a_pocket_calculator_says() {
    assert_rows(&rows());
}
