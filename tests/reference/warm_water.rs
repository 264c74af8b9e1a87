//! Warm water stands higher: what a manometer's inch is worth at its temperature.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::water;
use sim_core::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};

use super::{number, table};

pub fn rows() -> Vec<Row> {
    let (mut head, mut flow, mut inch) = (Worst::new(), Worst::new(), Worst::new());
    let at = |celsius: f64| water::density_kg_m3(celsius + 273.15);
    for row in table("water_density.csv") {
        let celsius = number(&row, "t_C");
        let ratio = at(celsius) / at(4.0);
        head.absolute(100.0 * (ratio - 1.0), number(&row, "head_corr_pct"));
        flow.absolute(100.0 * (ratio.sqrt() - 1.0), number(&row, "flow_corr_pct_sqrt"));
        inch.absolute(1500.0 / read_in(celsius, 1500.0), number(&row, "Pa_per_inch_column"));
    }
    const SOURCE: &str = "computed from IAPWS-95";
    vec![
        head.row("water head against 4 degrees", SOURCE, Mark::Computed, "percent", 1e-3),
        flow.row("water head: its part in the flow", SOURCE, Mark::Computed, "percent", 1e-3),
        inch.row("manometer: pressure of an inch read", SOURCE, Mark::Computed, "Pa", 2e-3),
    ]
}

/// Both legs of a plumb manometer with water of a temperature, under a suction.
fn read_in(celsius: f64, suction_pa: f64) -> f64 {
    let parameters = ManometerParameters { initial_valve_quarters: [4, 4], ..Default::default() };
    let mut manometer = Manometer::new(parameters, 101_325.0);
    manometer.hang(0.0);
    let kelvin = celsius + 273.15;
    let calm = ManometerInputs {
        water_density_kg_m3: water::density_kg_m3(kelvin),
        water_viscosity_m2_s: water::kinematic_viscosity_m2_s(kelvin),
        ..ManometerInputs::still(101_325.0)
    };
    let column = |manometer: &Manometer| {
        let [left, right] = manometer.levels_in();
        left - right
    };
    manometer.step(600.0, calm);
    let zero = column(&manometer);
    manometer.step(600.0, ManometerInputs { suction_pa, ..calm });
    column(&manometer) - zero
}

#[test]
fn warm_water_stands_higher() {
    assert_rows(&rows());
}
