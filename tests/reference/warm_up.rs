//! The blower in time: warm-up after a cold start, run-up, a step of the voltage, coasting down.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::Ambient;
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::{Blower, Warmth};
use sim_core::rig::flow::flow_path::{Inlet, Machine, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;

use super::operating_points::{MODEL, calibrated, station};
use super::{number, table};

/// A blower with its flow path, stepped as a session does.
pub struct Bench {
    rig: RigParameters,
    ambient: Ambient,
    inlet: Inlet,
    blower: Blower,
    flow: FlowSolution,
}

impl Bench {
    fn new(opening: f64) -> Self {
        let rig = RigParameters::default();
        let ambient = station("sea_level_20C");
        let inlet = calibrated(&rig, opening, 0.0);
        let blower = Blower::at_rest(ambient.temperature_k);
        Self { rig, ambient, inlet, blower, flow: FlowSolution::still(&ambient) }
    }

    fn warm(mut self) -> Self {
        self.blower.warmth = Warmth::warm(&self.rig.blower);
        self
    }

    fn step(&mut self, dt_s: f64, volts: f64) {
        let machine = Machine { blower: &self.rig.blower, path: &self.rig.flow_path };
        let kelvin = self.ambient.temperature_k;
        self.blower.step(&self.rig.blower, dt_s, volts, &self.flow, kelvin);
        let speed = self.blower.speed_rad_s;
        self.flow = solve(machine, &self.ambient, &self.inlet, speed, Some(&self.flow));
    }

    /// Seconds until the speed has passed `goal`, from either side.
    fn seconds_to(&mut self, volts: f64, goal_rad_s: f64) -> f64 {
        let below = self.blower.speed_rad_s < goal_rad_s;
        for tick in 1..20_000 {
            let before = self.blower.speed_rad_s;
            self.step(0.05, volts);
            let now = self.blower.speed_rad_s;
            if (now < goal_rad_s) != below {
                return 0.05 * (f64::from(tick - 1) + (goal_rad_s - before) / (now - before));
            }
        }
        panic!("the speed never passed {goal_rad_s} rad/s");
    }
}

/// A warm blower that has reached its steady speed.
fn steady_bench() -> Bench {
    let mut bench = Bench::new(1.0);
    for _ in 0..1200 {
        // Held warm: the first second without a stream of air heats the winding a little.
        bench = bench.warm();
        bench.step(0.05, 120.0);
    }
    bench
}

/// Warm-up, in one-tick steps while the rotor settles and whole seconds after.
fn warm_up_rows() -> Vec<Row> {
    let (mut flow, mut pressure, mut chart) = (Worst::new(), Worst::new(), Worst::new());
    for (opening, prefix) in [(1.0, "open"), (0.235, "f0.235")] {
        let mut bench = Bench::new(opening);
        let mut ticks = 0_u32;
        for row in table("warm_up.csv") {
            let until = number(&row, "t_s");
            // The table takes the rotor as run up at once: it begins where that is so.
            if until < 14.0 {
                continue;
            }
            while f64::from(ticks) * 0.05 < until {
                let fine = ticks < 200 || bench.blower.is_settling();
                bench.step(if fine { 0.05 } else { 1.0 }, 120.0);
                ticks += if fine { 1 } else { 20 };
            }
            flow.relative(bench.flow.flow_m3_min(), number(&row, &format!("Q_{prefix}")));
            if prefix == "open" {
                let inches = bench.flow.orifice_drop_pa / 249.08891;
                pressure.relative(inches, number(&row, "dH_open"));
            }
            let root = (bench.flow.exit_pressure_pa / 249.08891).sqrt();
            chart.absolute(24.6 * root, number(&row, &format!("chart_{prefix}")));
        }
    }
    vec![
        flow.row("warm-up, flow", MODEL, Mark::Computed, "relative", 3e-4),
        pressure.row("warm-up, orifice drop", MODEL, Mark::Computed, "relative", 5e-4),
        chart.row("warm-up, chart", MODEL, Mark::Computed, "chart units", 0.02),
    ]
}

/// Times of run-up, voltage step and coasting, which the model states to two digits.
fn transient_rows() -> Vec<Row> {
    let final_speed = steady_bench().blower.speed_rad_s;
    let mut run_up = Worst::new();
    for (share, seconds) in [(0.63, 1.3), (0.90, 3.2), (0.99, 6.6)] {
        run_up.relative(Bench::new(1.0).warm().seconds_to(120.0, share * final_speed), seconds);
    }
    let mut step = Worst::new();
    let mut bench = steady_bench();
    let mut settled = steady_bench();
    for _ in 0..1200 {
        settled.step(0.05, 126.0);
    }
    let goal = final_speed + 0.632 * (settled.blower.speed_rad_s - final_speed);
    step.relative(bench.seconds_to(126.0, goal), 1.6);
    let mut coast = Worst::new();
    let mut bench = steady_bench();
    let half = bench.seconds_to(0.0, 0.5 * final_speed);
    coast.relative(half, 4.6);
    coast.relative(half + bench.seconds_to(0.0, 0.1 * final_speed), 33.0);
    vec![
        run_up.row("run-up, times to 63, 90 and 99 %", MODEL, Mark::Computed, "relative", 0.06),
        step.row("5 % voltage step, time constant", MODEL, Mark::Computed, "relative", 0.10),
        coast.row("coast-down, times to 50 and 10 %", MODEL, Mark::Computed, "relative", 0.06),
    ]
}

pub fn rows() -> Vec<Row> {
    [warm_up_rows(), transient_rows()].concat()
}

#[test]
fn the_blower_warms_and_turns_as_the_tables_say() {
    assert_rows(&rows());
}

#[test]
fn whole_seconds_rest_where_ticks_rest() {
    let fine = steady_bench();
    let mut coarse = steady_bench();
    coarse.blower.speed_rad_s *= 0.9;
    for _ in 0..60 {
        coarse.step(1.0, 120.0);
    }
    assert!(!coarse.blower.is_settling());
    let ratio = coarse.blower.speed_rad_s / fine.blower.speed_rad_s;
    assert!((ratio - 1.0).abs() < 1e-11, "ratio {ratio}");
}

#[test]
fn ticks_follow_the_run_up_and_whole_seconds_the_rest() {
    let run = |seconds: f64, dt_s: f64, mut bench: Bench| {
        for _ in 0..(seconds / dt_s).round() as u32 {
            bench.step(dt_s, 120.0);
        }
        bench
    };
    for seconds in [0.5, 1.0, 2.0, 4.0] {
        let fine = run(seconds, 0.003125, Bench::new(1.0)).blower.speed_rad_s;
        let ticks = run(seconds, 0.05, Bench::new(1.0)).blower.speed_rad_s;
        assert!((ticks / fine - 1.0).abs() < 1e-3, "after {seconds} s: {ticks} and {fine} rad/s");
    }
    // The slowest change that still counts as settling, then a single step of a second.
    let start = || {
        let mut bench = Bench::new(1.0).warm();
        while bench.flow.mass_flow_kg_s <= 0.0 || bench.blower.is_settling() {
            bench.step(0.05, 120.0);
        }
        bench
    };
    let fine = run(1.0, 0.05, start()).blower.speed_rad_s;
    let coarse = run(1.0, 1.0, start()).blower.speed_rad_s;
    assert!((coarse / fine - 1.0).abs() < 1e-5, "{coarse} and {fine} rad/s");
}

#[test]
fn half_a_minute_blocked_is_the_edge_of_harm() {
    let mut bench = steady_bench();
    bench.inlet = calibrated(&bench.rig, 0.0, 0.0);
    let mut smelt_after = None;
    for second in 1..=60 {
        for _ in 0..20 {
            bench.step(0.05, 120.0);
        }
        let blower = bench.blower;
        if blower.smells_hot(&bench.rig.blower) {
            smelt_after.get_or_insert(second);
        }
        match second {
            25 => assert!(!blower.is_harmed(&bench.rig.blower), "harmed too early"),
            35 => assert!(blower.is_harmed(&bench.rig.blower), "not harmed in time"),
            _ => {}
        }
    }
    assert!(smelt_after.is_some_and(|second| (12..22).contains(&second)), "{smelt_after:?}");
    // With air again it cools, but the harm stays done.
    bench.inlet = calibrated(&bench.rig, 1.0, 0.0);
    for _ in 0..1200 {
        bench.step(1.0, 120.0);
    }
    assert!(!bench.blower.smells_hot(&bench.rig.blower));
    assert!(bench.blower.is_harmed(&bench.rig.blower));
}

#[test]
fn a_coasting_rotor_comes_to_rest() {
    let mut bench = steady_bench();
    for _ in 0..120 {
        bench.step(1.0, 0.0);
    }
    assert!(bench.blower.speed_rad_s <= 0.0, "{}", bench.blower.speed_rad_s);
    assert!(bench.flow.mass_flow_kg_s <= 0.0);
    assert!(!bench.blower.is_settling());
}
