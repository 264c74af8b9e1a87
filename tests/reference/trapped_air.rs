//! A manometer with the valve on its open leg shut hardly moves.

use bench_tests::{Mark, Row, Worst};
use sim_core::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};
use sim_core::rig::parts::Leg;
use sim_core::units::STANDARD_GRAVITY;

use super::{number, table};

const SOURCE: &str =
    "computed from Boyle's law of trapped air on a U-tube, with an independent tool";

/// Frequency of the swing found from its turning points, rad/s, after a puff of breath.
fn frequency_rad_s(manometer: &mut Manometer, inputs: ManometerInputs) -> f64 {
    let dt_s = 0.0005;
    let mut crossings = Vec::new();
    let mut before = manometer.speed_in_s();
    let mut time_s = 0.0;
    while crossings.len() < 7 && time_s < 60.0 {
        manometer.step(dt_s, inputs);
        time_s += dt_s;
        let speed = manometer.speed_in_s();
        if before * speed < 0.0 {
            crossings.push(time_s - dt_s * speed / (speed - before));
        }
        before = speed;
    }
    3.0 * std::f64::consts::TAU / (crossings[6] - crossings[0])
}

pub fn rows() -> Vec<Row> {
    let (mut reading, mut multiplier) = (Worst::new(), Worst::new());
    for row in table("manometer_trapped_air.csv") {
        let ambient_pa = number(&row, "Pa");
        let parameters = ManometerParameters {
            trapped_length_m: number(&row, "trapped_len_m"),
            initial_valve_quarters: [4, 0],
            ..Default::default()
        };
        let calm = ManometerInputs::still(ambient_pa);
        let mut manometer = Manometer::new(parameters, ambient_pa);
        manometer.hang(0.0);
        let true_in = number(&row, "true_dH_in");
        let suction_pa = true_in * 0.0254 * calm.water_density_kg_m3 * STANDARD_GRAVITY;
        manometer.step(600.0, ManometerInputs { suction_pa, ..calm });
        let [left, right] = manometer.levels_in();
        reading.absolute(100.0 * (left - right) / true_in, number(&row, "reading_pct"));

        manometer.step(600.0, calm);
        multiplier.absolute(manometer.stiffness().sqrt(), number(&row, "freq_multiplier"));
    }
    vec![
        reading.row("U-tube, one valve shut: reading", SOURCE, Mark::Computed, "percent", 2e-3),
        multiplier.row(
            "U-tube, one valve shut: natural frequency over that of the open tube",
            SOURCE,
            Mark::Computed,
            "ratio, rounded to 0.01",
            6e-3,
        ),
    ]
}

#[test]
fn holds() {
    bench_tests::assert_rows(&rows());
}

/// The table leaves friction out; it slows the open column by a tenth and the stiff one by less.
#[test]
fn the_water_truly_swings_that_much_faster() {
    for row in table("manometer_trapped_air.csv") {
        let ambient_pa = number(&row, "Pa");
        let parameters = ManometerParameters {
            trapped_length_m: number(&row, "trapped_len_m"),
            initial_valve_quarters: [4, 0],
            ..Default::default()
        };
        let calm = ManometerInputs::still(ambient_pa);
        let mut shut = Manometer::new(parameters, ambient_pa);
        shut.hang(0.0);
        shut.blow(1.0);
        let mut open = shut.clone();
        open.turn_valve(Leg::Right, 4);
        let found = frequency_rad_s(&mut shut, calm) / frequency_rad_s(&mut open, calm);
        let ratio = found / number(&row, "freq_multiplier");
        assert!(ratio > 1.0 && ratio < 1.1, "{ratio}");
    }
}
