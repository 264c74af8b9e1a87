//! The flow path makes sense whatever stands at the inlet.

use proptest::prelude::*;
use sim_core::air::{AirState, Ambient};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::blower::Blower;
use sim_core::rig::flow::calibrator::Calibrator;
use sim_core::rig::flow::flow_path::{Inlet, Machine, Rotor, solve};
use sim_core::rig::flow::flow_solution::FlowSolution;
use sim_core::rig::flow::operating_point::{OperatingConditions, steady, steady_controlled};
use sim_core::rig::flow::warmth::Warmth;
use sim_core::rig::power::flow_controller::{FlowController, FlowControllerParameters};

/// Air that a station can have.
fn air() -> impl Strategy<Value = Ambient> {
    (60e3..110e3, 240.0..325.0, 0.0..=1.0).prop_map(|(pressure_pa, temperature_k, humidity)| {
        Ambient::from(AirState { pressure_pa, temperature_k, humidity })
    })
}

/// An opening, with the ends and hair-thin gaps among them.
fn opening() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), Just(1.0), Just(1e-9), 1e-6..1e-2, 0.0..1.0]
}

/// A leak's CdA, m2.
fn leak() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), 1e-12..1e-7, 0.0..6e-5, 0.0..1e-2]
}

/// A filter's resistance, Pa s/m3.
fn filter() -> impl Strategy<Value = Option<f64>> {
    prop_oneof![Just(None), Just(Some(0.0)), (1e4..1e7).prop_map(Some)]
}

/// What can stand at the inlet.
fn inlet() -> impl Strategy<Value = Inlet> {
    let calibrator = prop_oneof![
        Just(None),
        opening().prop_map(|opening| Some(passage(opening, false))),
        Just(Some(passage(1.0, true))),
    ];
    (calibrator, filter(), leak()).prop_map(|(calibrator, filter_pa_s_m3, leak_cda_m2)| Inlet {
        calibrator,
        filter_pa_s_m3,
        leak_cda_m2,
        ..Inlet::default()
    })
}

/// A rotor's speed, rad/s.
fn speed() -> impl Strategy<Value = f64> {
    prop_oneof![Just(0.0), 1e-6..1.0, 1.0..4000.0]
}

fn passage(opening: f64, blocked: bool) -> sim_core::rig::flow::calibrator::CalibratorPassage {
    Calibrator { opening, blocked, ..Calibrator::default() }
        .passage(&RigParameters::default().calibrator)
}

fn flow(ambient: &Ambient, inlet: &Inlet, speed_rad_s: f64) -> FlowSolution {
    flow_near(ambient, inlet, speed_rad_s, None)
}

fn flow_near(
    ambient: &Ambient,
    inlet: &Inlet,
    speed_rad_s: f64,
    near: Option<&FlowSolution>,
) -> FlowSolution {
    let rig = RigParameters::default();
    let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
    let warmth = &Warmth::warm(&rig.blower.motor);
    solve(machine, ambient, inlet, Rotor { speed_rad_s, warmth }, near)
}

/// Every number of a solution.
fn numbers(flow: &FlowSolution) -> [f64; 13] {
    [
        flow.mass_flow_kg_s,
        flow.calibrator_mass_flow_kg_s,
        flow.leak_mass_flow_kg_s,
        flow.orifice_drop_pa,
        flow.plenum_suction_pa,
        flow.filter_drop_pa,
        flow.inlet_suction_pa,
        flow.inlet_density_kg_m3,
        flow.rise_pa,
        flow.exit_pressure_pa,
        flow.exit_temperature_k,
        flow.torque_n_m,
        flow.flow_std_m3_min(),
    ]
}

proptest! {
    #[test]
    fn pressures_close_and_mass_is_kept(
        ambient in air(), inlet in inlet(), speed_rad_s in speed()
    ) {
        let found = flow(&ambient, &inlet, speed_rad_s);
        prop_assert!(numbers(&found).iter().all(|n| n.is_finite() && *n >= 0.0), "{found:?}");
        let left = found.rise_pa - found.inlet_suction_pa - found.exit_pressure_pa;
        prop_assert!(left.abs() <= 1e-9 * found.rise_pa, "{left} Pa left of {found:?}");
        let parts = found.calibrator_mass_flow_kg_s + found.leak_mass_flow_kg_s;
        if inlet.calibrator.is_some() {
            prop_assert!((parts - found.mass_flow_kg_s).abs() <= 1e-15, "{found:?}");
        } else {
            prop_assert!(parts <= found.mass_flow_kg_s, "{found:?}");
        }
    }

    #[test]
    fn the_way_to_the_solution_does_not_matter(
        ambient in air(), inlet in inlet(), before in inlet(), speed in 1.0..4000.0, other in 1.0..4000.0
    ) {
        let near = flow(&ambient, &before, other);
        let (direct, led) =
            (flow(&ambient, &inlet, speed), flow_near(&ambient, &inlet, speed, Some(&near)));
        for (a, b) in numbers(&direct).into_iter().zip(numbers(&led)) {
            prop_assert!((a - b).abs() <= 1e-11 * a.abs().max(b.abs()), "{direct:?} {led:?}");
        }
    }

    #[test]
    fn more_opening_is_never_less_flow(
        ambient in air(), filter_pa_s_m3 in filter(), leak_cda_m2 in leak(),
        opening in opening(), more in 0.0..1.0, speed in 1.0..3500.0
    ) {
        let at = |opening| Inlet {
            calibrator: Some(passage(opening, false)), filter_pa_s_m3, leak_cda_m2, gust_pa: 0.0
        };
        let (less, more) =
            (flow(&ambient, &at(opening), speed), flow(&ambient, &at(opening + more), speed));
        let slack = 1.0 - 1e-11;
        prop_assert!(more.mass_flow_kg_s >= less.mass_flow_kg_s * slack);
        prop_assert!(more.orifice_drop_pa >= less.orifice_drop_pa * slack);
        prop_assert!(more.calibrator_mass_flow_kg_s >= less.calibrator_mass_flow_kg_s * slack);
    }

    #[test]
    fn a_leak_never_raises_the_orifice_drop(
        ambient in air(), filter_pa_s_m3 in filter(), opening in opening(),
        leak in leak(), more in leak(), volts in 60.0..140.0
    ) {
        let rig = RigParameters::default();
        let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
        let at = |leak_cda_m2| {
            let calibrator = Some(passage(opening, false));
            let inlet = Inlet { calibrator, filter_pa_s_m3, leak_cda_m2, gust_pa: 0.0 };
            let warmth = Warmth::warm(&rig.blower.motor);
            steady(machine, &OperatingConditions { ambient, inlet, volts, warmth, probe: 0.0 }).flow
        };
        let (tight, leaky) = (at(leak), at(leak + more));
        let slack = 1.0 + 1e-10;
        prop_assert!(leaky.orifice_drop_pa <= tight.orifice_drop_pa * slack);
        prop_assert!(leaky.mass_flow_kg_s * slack >= tight.mass_flow_kg_s);
    }

    #[test]
    fn a_gust_on_the_inlet_never_gives_less_flow(
        ambient in air(), inlet in inlet(), speed in 1.0..3500.0,
        gust_pa in -60.0..60.0, more_pa in 0.0..60.0
    ) {
        let at = |gust_pa| flow(&ambient, &Inlet { gust_pa, ..inlet }, speed);
        let (less, more) = (at(gust_pa), at(gust_pa + more_pa));
        prop_assert!(more.mass_flow_kg_s >= less.mass_flow_kg_s * (1.0 - 1e-11));
        // None is none: not a bit is moved.
        prop_assert_eq!(at(0.0), flow(&ambient, &inlet, speed));
        prop_assert!(numbers(&less).iter().chain(&numbers(&more)).all(|n| n.is_finite()));
    }

    #[test]
    fn a_faster_rotor_draws_more(
        ambient in air(), inlet in inlet(), speed in 1.0..3500.0, faster in 1.0..1.2
    ) {
        let (slow, fast) =
            (flow(&ambient, &inlet, speed), flow(&ambient, &inlet, speed * faster));
        prop_assert!(fast.mass_flow_kg_s >= slow.mass_flow_kg_s * (1.0 - 1e-11));
        prop_assert!(fast.torque_n_m >= slow.torque_n_m * (1.0 - 1e-11));
    }

    #[test]
    fn the_blower_stays_finite_and_rests_where_the_sums_say(
        ambient in air(), inlet in inlet(), volts in 60.0..150.0, dt_s in 0.05..1.0
    ) {
        let rig = RigParameters::default();
        let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
        let warmth = Warmth::warm(&rig.blower.motor);
        let point = steady(machine, &OperatingConditions { ambient, inlet, volts, warmth, probe: 0.0 });
        let mut blower = Blower::at_rest(ambient.temperature_k);
        let mut flow = FlowSolution::still(&ambient);
        for _ in 0..(200.0 / dt_s) as u32 {
            blower.warmth = warmth;
            blower.step(&rig.blower, dt_s, volts, &flow, ambient.temperature_k);
            prop_assert!(blower.speed_rad_s.is_finite() && blower.warmth.winding_k.is_finite());
            let rotor = Rotor { speed_rad_s: blower.speed_rad_s, warmth: &warmth };
            flow = solve(machine, &ambient, &inlet, rotor, Some(&flow));
        }
        let ratio = blower.speed_rad_s / point.flow.speed_rad_s;
        prop_assert!((ratio - 1.0).abs() < 1e-5, "{ratio}");
    }

    #[test]
    fn the_controller_holds_what_it_feels(
        ambient in air(), set_point in 0.8..1.4, error_k in -2.0..2.0, fouling in 0.0..0.3
    ) {
        let rig = RigParameters::default();
        let parameters = FlowControllerParameters {
            ambient_sensor_error_k: error_k, fouling, ..FlowControllerParameters::default()
        };
        let controller = FlowController::new(FlowController::turns_for(&parameters, set_point));
        let inlet = Inlet { filter_pa_s_m3: Some(256e3), ..Inlet::default() };
        let warmth = Warmth::warm(&rig.blower.motor);
        let conditions = OperatingConditions { ambient, inlet, volts: 120.0, warmth, probe: 0.0 };
        let machine = Machine { blower: &rig.blower, path: &rig.flow_path };
        let point = steady_controlled(machine, &conditions, &parameters, &controller);
        let felt = parameters.sensed_std_m3_min(point.flow.mass_flow_kg_s);
        if point.volts < 120.0 {
            prop_assert!((felt - set_point).abs() < 1e-8, "{felt} for {set_point}");
        } else {
            prop_assert!(felt <= set_point, "{felt} for {set_point}");
        }
    }

    #[test]
    fn nonsense_stays_finite(
        state in (any::<f64>(), any::<f64>(), any::<f64>()),
        areas in (any::<f64>(), any::<f64>(), any::<f64>()),
        speed_rad_s in any::<f64>(),
        volts in any::<f64>(),
        gust_pa in any::<f64>(),
    ) {
        let (pressure_pa, temperature_k, humidity) = state;
        let ambient = Ambient::from(AirState { pressure_pa, temperature_k, humidity });
        let calibrator = Some(passage(areas.0, false));
        let (filter_pa_s_m3, leak_cda_m2) = (Some(areas.1), areas.2);
        let inlet = Inlet { calibrator, filter_pa_s_m3, leak_cda_m2, gust_pa };
        let found = flow(&ambient, &inlet, speed_rad_s);
        prop_assert!(numbers(&found).iter().all(|n| n.is_finite()), "{found:?}");
        let rig = RigParameters::default();
        let mut blower = Blower::at_rest(ambient.temperature_k);
        blower.step(&rig.blower, 1.0, volts, &found, ambient.temperature_k);
        prop_assert!(blower.speed_rad_s.is_finite() && blower.warmth.winding_k.is_finite());
    }
}
