//! The U-tube's frequency and decay against the table of oscillating laminar pipe flow.

use bench_tests::{Mark, Row, Worst};
use sim_core::rig::manometer::water_column::WaterColumn;
use sim_core::rig::manometer::{Manometer, ManometerInputs, ManometerParameters};
use sim_core::rig::parts::Leg;
use sim_core::units::PA_PER_INH2O;

use super::{number, table};

const SOURCE: &str =
    "computed from oscillating laminar pipe flow (Womersley) with an independent tool";

/// Kinematic viscosity of water at the table's temperatures, m2/s (IAPWS, computed).
fn viscosity_m2_s(celsius: f64) -> f64 {
    match celsius as i64 {
        5 => 1.51822e-6,
        20 => 1.00340e-6,
        40 => 6.57849e-7,
        other => panic!("no viscosity at {other} degrees Celsius"),
    }
}

/// A hung manometer with open valves and the scale at its zero.
fn hung() -> Manometer {
    let parameters = ManometerParameters {
        initial_scale_in: 0.0,
        initial_valve_quarters: [4, 4],
        ..Default::default()
    };
    let mut manometer = Manometer::new(parameters, 101_325.0);
    manometer.hang(0.0);
    manometer
}

/// The left leg's levels, inches, under a sudden suction of 4 inches of water, every `dt_s`.
fn left_leg_after_a_jump(dt_s: f64, steps: usize) -> Vec<f64> {
    let mut manometer = hung();
    let suction_pa = 4.0 * PA_PER_INH2O;
    let inputs = ManometerInputs { suction_pa, ..ManometerInputs::still(101_325.0) };
    (0..steps)
        .map(|_| {
            manometer.step(dt_s, inputs);
            manometer.seen(Leg::Left, 0.0).meniscus_in
        })
        .collect()
}

pub fn rows() -> Vec<Row> {
    let (mut frequency, mut decay) = (Worst::new(), Worst::new());
    for row in table("u_tube_dynamics.csv") {
        let column = WaterColumn::new(
            number(&row, "L_m"),
            number(&row, "bore_mm") * 1e-3,
            viscosity_m2_s(number(&row, "t_C")),
        );
        let swing = column.swing(1.0, 0.0);
        frequency.relative(swing.damped_rad_s(), number(&row, "wd_exact"));
        decay.relative(swing.decay_1_s, number(&row, "sigma_exact_1_s"));
    }

    // A decaying oscillation e about its rest obeys e[n+1] = p e[n] - q e[n-1] with
    // p = 2 exp(-s h) cos(w h) and q = exp(-2 s h): two such equations give w and s.
    let h = 0.05;
    let levels = left_leg_after_a_jump(h, 4000);
    let rest = levels.last().copied().unwrap_or_default();
    let e: Vec<f64> = levels.iter().take(4).map(|level| level - rest).collect();
    let q = (e[2] * e[2] - e[1] * e[3]) / (e[1] * e[1] - e[0] * e[2]);
    let p = (e[2] + q * e[0]) / e[1];
    let found_decay = -q.ln() / (2.0 * h);
    let found_frequency = (p / (2.0 * q.sqrt())).acos() / h;
    let (mut stepped_frequency, mut stepped_decay) = (Worst::new(), Worst::new());
    let mut overshoot = Worst::new();
    for row in table("u_tube_dynamics.csv") {
        let default = [("t_C", 20.0), ("L_m", 1.35), ("bore_mm", 6.5)]
            .iter()
            .all(|&(column, value)| (number(&row, column) - value).abs() < 1e-9);
        if default {
            stepped_frequency.relative(found_frequency, number(&row, "wd_exact"));
            stepped_decay.relative(found_decay, number(&row, "sigma_exact_1_s"));
            let levels = left_leg_after_a_jump(0.005, 400);
            let peak = levels.iter().copied().fold(f64::MIN, f64::max);
            overshoot.absolute(100.0 * (peak / rest - 1.0), number(&row, "overshoot_exact_pct"));
        }
    }
    vec![
        frequency.row("U-tube: frequency", SOURCE, Mark::Computed, "relative", 1e-5),
        decay.row("U-tube: decay", SOURCE, Mark::Computed, "relative", 2e-5),
        stepped_frequency.row(
            "U-tube: frequency of the stepped manometer",
            SOURCE,
            Mark::Computed,
            "relative",
            2e-4,
        ),
        stepped_decay.row(
            "U-tube: decay of the stepped manometer",
            SOURCE,
            Mark::Computed,
            "relative",
            1.5e-3,
        ),
        overshoot.row(
            "U-tube: first overshoot of a sudden pressure",
            SOURCE,
            Mark::Computed,
            "percent of the step",
            0.15,
        ),
    ]
}

#[test]
fn holds() {
    bench_tests::assert_rows(&rows());
}

#[test]
fn steps_of_any_length_give_the_same_motion() {
    let suction_pa = 3.0 * PA_PER_INH2O;
    let inputs = ManometerInputs { suction_pa, ..ManometerInputs::still(101_325.0) };
    for right_quarters in [0, -1, -2, -3, -4] {
        let mut short = hung();
        short.turn_valve(Leg::Right, right_quarters);
        let mut long = short.clone();
        for second in 0..5 {
            for _ in 0..20 {
                short.step(0.05, inputs);
            }
            long.step(1.0, inputs);
            let [[a, b], [c, d]] = [short.levels_in(), long.levels_in()];
            assert!((a - c).abs() < 1e-9 && (b - d).abs() < 1e-9, "second {second}: {a} and {c}");
        }
    }
}
