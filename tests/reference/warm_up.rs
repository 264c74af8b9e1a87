//! The blower in time: warm-up after a cold start, run-up, a step of the voltage, coasting down.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::air::Ambient;
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::Blower;
use sim_core::rig::flow::flow_path::{Inlet, Machine, Rotor, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;

use sim_core::rig::recorder::{FlowRecorder, RecorderInputs};
use sim_core::units::PA_PER_INH2O;

use super::operating_points::{MODEL, calibrated, station, warm_point};
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
        let point = warm_point(&self.rig, self.ambient, self.inlet);
        self.blower.warmth = point.warmth(&self.rig.blower);
        self
    }

    fn step(&mut self, dt_s: f64, volts: f64) {
        let machine = Machine { blower: &self.rig.blower, path: &self.rig.flow_path };
        let kelvin = self.ambient.temperature_k;
        self.blower.step(&self.rig.blower, dt_s, volts, &self.flow, kelvin);
        let speed = self.blower.speed_rad_s;
        self.flow = {
            let rotor = Rotor { speed_rad_s: speed, warmth: &self.blower.warmth };
            solve(machine, &self.ambient, &self.inlet, rotor, Some(&self.flow))
        };
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

/// Warm-up of a cold blower, in one-tick steps while the rotor settles and whole seconds after, with
/// a recorder that nobody taps.
fn warm_up_rows() -> Vec<Row> {
    let [mut flow, mut pressure, mut chart, mut warm, mut heat] = [(); 5].map(|()| Worst::new());
    for (opening, prefix) in [(1.0, "open"), (0.235, "f0.235")] {
        let mut bench = Bench::new(opening);
        let mut recorder = FlowRecorder::new(bench.rig.recorder);
        let mut ticks = 0_u32;
        for row in table("warm_up.csv") {
            let until = number(&row, "t_s");
            if until < 1.0 {
                continue;
            }
            while f64::from(ticks) * 0.05 < until {
                let fine = ticks < 200 || bench.blower.is_settling();
                let dt_s = if fine { 0.05 } else { 1.0 };
                bench.step(dt_s, 120.0);
                recorder.step(dt_s, RecorderInputs::from(&bench.flow));
                ticks += if fine { 1 } else { 20 };
            }
            let column = |what: &str| number(&row, &format!("{what}_{prefix}"));
            flow.relative(bench.flow.flow_m3_min(), column("Q"));
            if prefix == "open" {
                let inches = bench.flow.orifice_drop_pa / PA_PER_INH2O;
                pressure.relative(inches, number(&row, "dH_open"));
                heat.absolute(bench.blower.warmth.heat_w(f64::NAN), number(&row, "heat_given_W"));
            }
            warm.absolute(
                bench.flow.heating_k(&bench.ambient),
                number(&row, &format!("exhaust_rise_{prefix}_K")),
            );
            let inputs = RecorderInputs::from(&bench.flow);
            chart.absolute(recorder.pen_at_rest(inputs), column("chart"));
            chart.absolute(recorder.pen(), column("pen"));
        }
    }
    vec![
        flow.row("warm-up, flow", MODEL, Mark::Computed, "relative", 3e-4),
        pressure.row("warm-up, orifice drop", MODEL, Mark::Computed, "relative", 5e-4),
        chart.row(
            "warm-up, chart and untapped pen",
            MODEL,
            Mark::Computed,
            "chart divisions",
            0.03,
        ),
        warm.row("warm-up, exhaust above the air", MODEL, Mark::Computed, "K", 0.05),
        heat.row("warm-up, heat of the windings", MODEL, Mark::Computed, "W", 0.3),
    ]
}

/// Times of run-up, voltage step and coasting.
fn transient_rows() -> Vec<Row> {
    let steady = steady_bench();
    let final_speed = steady.blower.speed_rad_s;
    let mut settled = steady_bench();
    for _ in 0..1200 {
        settled.blower.warmth = steady.blower.warmth;
        settled.step(0.05, 126.0);
    }
    let faster = settled.blower.speed_rad_s;
    let [mut run_up, mut step, mut coast] = [(); 3].map(|()| Worst::new());
    for row in table("run_up.csv") {
        let (share, seconds) = (number(&row, "share"), number(&row, "t_s"));
        match row["what"].as_str() {
            "run-up" => {
                let found = Bench::new(1.0).warm().seconds_to(120.0, share * final_speed);
                run_up.relative(found, seconds);
            }
            "5 % more voltage" => {
                let goal = final_speed + share * (faster - final_speed);
                step.relative(steady_bench().seconds_to(126.0, goal), seconds);
            }
            "coasting" => {
                coast.relative(steady_bench().seconds_to(0.0, share * final_speed), seconds);
            }
            other => panic!("unknown {other}"),
        }
    }
    vec![
        run_up.row("run-up, times to 63, 90 and 99 %", MODEL, Mark::Computed, "relative", 0.02),
        step.row("5 % voltage step, time constant", MODEL, Mark::Computed, "relative", 0.02),
        coast.row("coast-down, times to 50 and 10 %", MODEL, Mark::Computed, "relative", 0.02),
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
        // Held warm: while it runs up again its windings give more heat.
        coarse.blower.warmth = fine.blower.warmth;
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
