//! The program against a plain loop in C that does the same work: the same flows, and how much longer
//! the program takes. `cargo test --release … plain -- --nocapture` prints the ratios.
#![allow(clippy::print_stdout, reason = "what was measured is there to be looked at")]

use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

use bench_tests::tests_folder;
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::Blower;
use sim_core::rig::flow::flow_path::{Machine, Rotor, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;
use sim_core::rig::flow::operating_point::OperatingPoint;
use sim_core::rig::manometer::water_column::WaterColumn;
use sim_core::rig::manometer::{Manometer, ManometerInputs};
use sim_core::rig::parts::Leg;
use sim_core::rig::recorder::{FlowRecorder, RecorderInputs};
use sim_core::units::{PA_PER_INH2O, STANDARD_GRAVITY};

use super::operating_points::{calibrated, station, warm_point};

const OPENINGS: [f64; 7] = [1.0, 0.7, 0.5, 0.4, 0.3, 0.235, 0.2];
const SITES: [&str; 2] = ["sea_level_20C", "1600m_5C"];
/// Ticks of the cold start, each of 0.05 s.
const TICKS: usize = 2400;
const TICK_S: f64 = 0.05;
/// Density of the manometer's water at 20 degrees Celsius, kg/m3, and its viscosity on the manometer's
/// grid, m2/s.
const DENSITY_KG_M3: f64 = 998.207;
const VISCOSITY_M2_S: f64 = 1.005e-6;
/// How often each is measured; the fastest counts.
const TIMES: usize = 30;
/// Largest relative difference between the two.
const AGREED: f64 = 1e-9;

/// The least time of some runs, s, and what the last one found.
fn timed<T>(run: impl Fn() -> T) -> (f64, T) {
    let mut least = f64::INFINITY;
    let mut found = black_box(run());
    for _ in 1..TIMES {
        let begun = Instant::now();
        found = black_box(run());
        least = least.min(begun.elapsed().as_secs_f64());
    }
    (least, found)
}

fn points(rig: &RigParameters) -> Vec<OperatingPoint> {
    let at = |site: &str, opening| warm_point(rig, station(site), calibrated(rig, opening, 0.0));
    SITES.iter().flat_map(|site| OPENINGS.map(|opening| at(site, opening))).collect()
}

/// A cold start with manometer and recorder: the flow, the travel of the water in m, the bellows'
/// linkage by its pen, and the heat of the windings in W.
fn cold_start(rig: &RigParameters) -> (FlowSolution, f64, f64, f64) {
    let ambient = station(SITES[0]);
    let inlet = calibrated(rig, 0.5, 0.0);
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let mut blower = Blower::at_rest(ambient.temperature_k);
    let mut flow = FlowSolution::still(&ambient);
    let mut manometer = Manometer::new(rig.manometer, ambient.pressure_pa);
    manometer.hang(0.0);
    manometer.turn_valve(Leg::Left, 4);
    manometer.turn_valve(Leg::Right, 4);
    let mut recorder = FlowRecorder::new(rig.recorder);
    for _ in 0..TICKS {
        blower.step(&rig.blower, TICK_S, 120.0, &flow, ambient.temperature_k);
        let rotor = Rotor { speed_rad_s: blower.speed_rad_s, warmth: &blower.warmth };
        flow = solve(machine, &ambient, &inlet, rotor, Some(&flow));
        let inputs = ManometerInputs {
            suction_pa: flow.orifice_drop_pa,
            water_density_kg_m3: DENSITY_KG_M3,
            ..ManometerInputs::still(ambient.pressure_pa)
        };
        manometer.step(TICK_S, inputs);
        recorder.step(TICK_S, RecorderInputs::from(&flow));
    }
    let [left_in, right_in] = manometer.levels_in();
    let travel_m = 0.5 * (left_in - right_in) * 0.0254;
    (flow, travel_m, recorder.pen(), blower.warmth.heat_w(f64::NAN))
}

/// What the C program prints: times in s, then what it found.
fn plain(rig: &RigParameters) -> (Vec<f64>, Vec<Vec<f64>>) {
    let folder = tempfile::tempdir().expect("a folder");
    let program = folder.path().join("rig");
    let built = Command::new("gcc")
        .args(["-O2", "-o"])
        .arg(&program)
        .arg(tests_folder().join("reference/plain/rig.c"))
        .arg("-lm")
        .output()
        .expect("gcc, which `.ci/setup` installs");
    assert!(built.status.success(), "{}", String::from_utf8_lossy(&built.stderr));
    let manometer = rig.manometer;
    let column =
        WaterColumn::new(manometer.column_length_m, manometer.left_bore_mm * 1e-3, VISCOSITY_M2_S);
    let swing = column.swing(1.0, 0.0);
    let arguments = [swing.natural_rad_s, swing.decay_1_s, DENSITY_KG_M3].map(|n| format!("{n:e}"));
    let said = Command::new(program)
        .arg(TIMES.to_string())
        .args(arguments)
        .output()
        .expect("the program that was just built");
    let text = String::from_utf8(said.stdout).expect("numbers");
    let mut lines = text
        .lines()
        .map(|line| line.split(' ').map(|word| word.parse().expect("a number")).collect());
    (lines.next().expect("the times"), lines.collect())
}

fn assert_agree(what: &str, found: f64, expected: f64) {
    let off = found / expected - 1.0;
    assert!(off.abs() < AGREED, "{what}: {found} here, {expected} in the plain loop, {off:e} off");
}

#[test]
fn the_program_does_the_work_of_a_plain_loop() {
    let rig = RigParameters::default();
    let (times, mut found) = plain(&rig);
    let (points_s, points) = timed(|| points(&rig));
    let (start_s, (flow, travel_m, pen, heat_w)) = timed(|| cold_start(&rig));
    assert_eq!(found.len(), points.len() + 2);
    let at_end = found.split_off(points.len());
    for (number, (point, plain)) in points.iter().zip(&found).enumerate() {
        let here = point.flow;
        assert_agree(&format!("speed at point {number}"), here.speed_rad_s, plain[0]);
        assert_agree(&format!("flow at point {number}"), here.mass_flow_kg_s, plain[1]);
        assert_agree(&format!("exit at point {number}"), here.exit_pressure_pa, plain[2]);
    }
    assert_agree("speed after the start", flow.speed_rad_s, at_end[0][0]);
    assert_agree("flow after the start", flow.mass_flow_kg_s, at_end[0][1]);
    assert_agree("travel after the start", travel_m, at_end[1][0]);
    let divisions = rig.recorder.square_root_divisions * at_end[1][1].sqrt();
    assert_agree("pen after the start", pen, divisions + rig.recorder.pen_zero_divisions);
    assert_agree("heat after the start", heat_w, at_end[1][2]);
    // The column rests where the drop lifts it: the plain loop has nothing of its own to be wrong in.
    let rest_m = flow.orifice_drop_pa / (2.0 * DENSITY_KG_M3 * STANDARD_GRAVITY);
    assert!((travel_m - rest_m).abs() < 1e-5, "{travel_m} m against {rest_m} m at rest");
    assert!(flow.exit_pressure_pa > PA_PER_INH2O);
    let point = points_s / points.len() as f64 / times[0];
    let tick = start_s / TICKS as f64 / times[1];
    println!(
        "operating point: {:.2} us in the plain loop, {point:.2} times as long here; attended tick: \
         {:.2} us, {tick:.2} times",
        1e6 * times[0],
        1e6 * times[1],
    );
}
