//! The flow controller's loop: start from rest, then a filter that suddenly loads.

use bench_tests::{Mark, Row, Worst, assert_rows};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::Blower;
use sim_core::rig::flow::flow_path::{Inlet, Machine, Rotor, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;
use sim_core::rig::flow::operating_point::{
    OperatingConditions, OperatingPoint, steady_controlled,
};
use sim_core::rig::flow::warmth::Warmth;
use sim_core::rig::power::flow_controller::{FlowController, FlowControllerParameters};

use super::operating_points::{MODEL, station, warm_point};
use super::{number, table};

const SET_POINT: f64 = 1.13;

/// What a run of the loop came to.
struct Course {
    overshoot_pct: f64,
    settle_s: f64,
    dip_pct: f64,
    recover_s: f64,
    volts_before: f64,
    volts_after: f64,
    speed_rpm: f64,
}

/// A blower that has run for long at 120 V behind a clean filter, and was switched off just now.
fn warmed(rig: &RigParameters) -> Warmth {
    let filter_pa_s_m3 = Some(10_400.0 / rig.filter.exposed_area_m2);
    let inlet = Inlet { filter_pa_s_m3, ..Inlet::default() };
    warm_point(rig, station("sea_level_20C"), inlet).warmth(&rig.blower)
}

/// Thirty seconds from rest with one filter, thirty more with another, in single ticks.
fn run(gain: f64, integral_s: f64) -> Course {
    let mut rig = RigParameters::default();
    rig.flow_controller.gain_v_min_m3 = gain;
    rig.flow_controller.integral_s = integral_s;
    let ambient = station("sea_level_20C");
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let mut blower = Blower::at_rest(ambient.temperature_k);
    blower.warmth = warmed(&rig);
    let turns = FlowController::turns_for(&rig.flow_controller, SET_POINT);
    let mut controller = FlowController::new(turns);
    let mut flow = FlowSolution::still(&ambient);
    let (mut flows, mut volts) = (Vec::new(), Vec::new());
    let mut speed_rpm = 0.0;
    for tick in 0..1200 {
        let resistance = if tick < 600 { 10_400.0 } else { 14_000.0 };
        let inlet = Inlet {
            filter_pa_s_m3: Some(resistance / rig.filter.exposed_area_m2),
            ..Inlet::default()
        };
        flow = {
            let rotor = Rotor { speed_rad_s: blower.speed_rad_s, warmth: &blower.warmth };
            solve(machine, &ambient, &inlet, rotor, Some(&flow))
        };
        if tick == 600 {
            // The table takes the reference speed as 18 000 rpm.
            speed_rpm = 18_000.0 * blower.speed_ratio(&rig.blower);
        }
        let v = controller.step(&rig.flow_controller, 0.05, flow.mass_flow_kg_s, 120.0);
        flows.push(flow.flow_std_m3_min() / SET_POINT - 1.0);
        volts.push(v);
        blower.step(&rig.blower, 0.05, v, &flow, ambient.temperature_k);
    }
    let (first, second) = flows.split_at(600);
    let last_outside = |flows: &[f64], band: f64| {
        flows.iter().rposition(|e| e.abs() > band).map_or(0.0, |i| 0.05 * (i as f64 + 1.0))
    };
    Course {
        overshoot_pct: 100.0 * first.iter().copied().fold(f64::MIN, f64::max),
        settle_s: last_outside(first, 0.02),
        dip_pct: 100.0 * second.iter().copied().fold(f64::MAX, f64::min),
        recover_s: last_outside(second, 0.01),
        volts_before: volts[599],
        volts_after: volts[1199],
        speed_rpm,
    }
}

pub fn rows() -> Vec<Row> {
    let [mut percent, mut seconds, mut volts, mut speed] = [(); 4].map(|()| Worst::new());
    for row in table("flow_controller_loop.csv") {
        let course = run(number(&row, "Kp_V_per_m3min"), number(&row, "Ti_s"));
        percent.absolute(course.overshoot_pct, number(&row, "overshoot_pct"));
        percent.absolute(course.dip_pct, number(&row, "dip_pct_on_filter_step"));
        seconds.absolute(course.settle_s, number(&row, "settle2pct_s"));
        seconds.absolute(course.recover_s, number(&row, "recover1pct_s"));
        volts.absolute(course.volts_before, number(&row, "V_before"));
        volts.absolute(course.volts_after, number(&row, "V_after"));
        speed.relative(course.speed_rpm, number(&row, "rpm"));
    }
    vec![
        percent.row("flow controller, overshoot and dip", MODEL, Mark::Computed, "%", 0.1),
        seconds.row("flow controller, settling and recovery", MODEL, Mark::Computed, "s", 0.5),
        volts.row("flow controller, voltage", MODEL, Mark::Computed, "V", 0.1),
        speed.row("flow controller, speed", MODEL, Mark::Computed, "relative", 1e-3),
    ]
}

#[test]
fn the_loop_settles_as_the_table_says() {
    assert_rows(&rows());
}

/// The controlled steady state with a filter.
fn held(set_point: f64, resistance_pa_s_m: f64) -> OperatingPoint {
    let rig = RigParameters::default();
    let turns = FlowController::turns_for(&rig.flow_controller, set_point);
    let filter_pa_s_m3 = Some(resistance_pa_s_m / rig.filter.exposed_area_m2);
    let conditions = OperatingConditions {
        ambient: station("sea_level_20C"),
        inlet: Inlet { filter_pa_s_m3, ..Inlet::default() },
        volts: 120.0,
        warmth: Warmth::warm(&rig.blower.motor),
        probe: 0.0,
    };
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    steady_controlled(machine, &conditions, &rig.flow_controller, &FlowController::new(turns))
}

/// Where the controller runs out of voltage, from the same model.
#[test]
fn the_controller_holds_until_the_filter_is_too_tight() {
    for row in table("flow_controller_limits.csv") {
        let (set_point, tightest) = (number(&row, "Qstd"), number(&row, "R_Pa_s_m"));
        let holds = held(set_point, tightest - 60.0);
        assert!((holds.flow.flow_std_m3_min() - set_point).abs() < 1e-9, "{holds:?}");
        assert!(holds.volts < 120.0);
        let falls = held(set_point, tightest + 60.0);
        assert!(falls.flow.flow_std_m3_min() < set_point, "{falls:?}");
    }
}

/// Half a kelvin of the ambient sensor is 3.1 % of flow at 1.13, one kelvin 6.2 %.
#[test]
fn an_error_of_the_ambient_sensor_moves_the_flow() {
    let mass_flow = 1.13 / 60.0 * sim_core::air::STANDARD_DRY_DENSITY_KG_M3;
    for (error_k, excess) in [(0.5, 0.031), (1.0, 0.062)] {
        let parameters = FlowControllerParameters {
            ambient_sensor_error_k: error_k,
            ..FlowControllerParameters::default()
        };
        let sensed = parameters.sensed_std_m3_min(mass_flow);
        assert!((sensed / 1.13 - 1.0 - excess).abs() < 0.002, "{sensed}");
    }
}
