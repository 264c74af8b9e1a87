//! A manometer out of plumb reads too much, and its zero moves.

use bench_tests::{Mark, Row, Worst};
use sim_core::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};
use sim_core::units::STANDARD_GRAVITY;

use super::{number, table};

const SOURCE: &str = "computed from the geometry of a tilted scale, with an independent tool";

pub fn rows() -> Vec<Row> {
    let (mut reading, mut zero) = (Worst::new(), Worst::new());
    let calm = ManometerInputs::still(101_325.0);
    let suction_pa = 6.0 * 0.0254 * calm.water_density_kg_m3 * STANDARD_GRAVITY;
    let parameters = ManometerParameters { initial_valve_quarters: [4, 4], ..Default::default() };
    for row in table("u_tube_tilt.csv") {
        let mut manometer = Manometer::new(parameters, 101_325.0);
        manometer.hang(number(&row, "tilt_deg"));
        manometer.step(600.0, calm);
        let column = |[left, right]: [f64; 2]| left - right;
        let at_zero = column(manometer.levels_in());
        zero.absolute(at_zero, number(&row, "zero_shift_in_for_50mm_limb_spacing_inplane"));
        zero.absolute(column(manometer.zero_in()), at_zero);
        manometer.step(600.0, ManometerInputs { suction_pa, ..calm });
        let found = column(manometer.levels_in()) - at_zero;
        reading.absolute(found, number(&row, "reading_for_true_6.000_in"));
    }
    vec![
        reading.row("U-tube: reading out of plumb", SOURCE, Mark::Computed, "in", 6e-5),
        zero.row("U-tube: zero out of plumb", SOURCE, Mark::Computed, "in", 6e-5),
    ]
}

#[test]
fn holds() {
    bench_tests::assert_rows(&rows());
}
