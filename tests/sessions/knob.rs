//! With the controller on, the calibrator's knob is useless: until the controller has no more
//! voltage to give, and the flow falls as it would on the line.

use proptest::prelude::*;
use sim_core::air::{AirState, Ambient};
use sim_core::operator::{by_name, rehearse};
use sim_core::rig::RigParameters;
use sim_core::rig::flow::calibrator::Calibrator;
use sim_core::rig::flow::flow_path::{Inlet, Machine};
use sim_core::rig::flow::operating_point::{
    OperatingConditions, OperatingPoint, steady, steady_controlled,
};
use sim_core::rig::flow::warmth::Warmth;
use sim_core::rig::power::flow_controller::FlowController;
use sim_core::scenario::setup::Setup;
use sim_core::scenario::{KnownRules, check};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;

use super::recorded::scenario;

const SCENARIOS: [&str; 3] =
    ["01_first_calibration.ron", "05_moved_from_the_coast.ron", "06_october_at_the_substation.ron"];

/// The rig that a scenario draws with a seed.
fn drawn_rig(name: &str, seed: u64) -> RigParameters {
    let scenario = check(&scenario(name), KnownRules::Any).unwrap();
    Setup::build(&scenario, &scenario.draw(seed)).unwrap().rig
}

/// A rig under the controller, its calibrator on.
#[derive(Debug)]
struct Bench {
    rig: RigParameters,
    ambient: Ambient,
    controller: FlowController,
    mains_v: f64,
}

impl Bench {
    fn machine(&self) -> Machine<'_> {
        Machine { blower: &self.rig.blower, path: &self.rig.flow_path }
    }

    fn conditions(&self, opening: f64, leak_cda_m2: f64) -> OperatingConditions {
        let passage = Calibrator { opening, ..Calibrator::default() }.passage(&self.rig.calibrator);
        let inlet = Inlet { calibrator: Some(passage), leak_cda_m2, ..Inlet::default() };
        let warmth = Warmth::warm(&self.rig.blower.motor);
        OperatingConditions {
            ambient: self.ambient,
            inlet,
            volts: self.mains_v,
            warmth,
            probe: 0.0,
        }
    }

    fn on_controller(&self, opening: f64, leak_cda_m2: f64) -> OperatingPoint {
        let conditions = self.conditions(opening, leak_cda_m2);
        let parameters = &self.rig.flow_controller;
        steady_controlled(self.machine(), &conditions, parameters, &self.controller)
    }

    fn on_line(&self, opening: f64, leak_cda_m2: f64) -> OperatingPoint {
        steady(self.machine(), &self.conditions(opening, leak_cda_m2))
    }
}

fn bench() -> impl Strategy<Value = Bench> {
    let rig = (prop::sample::select(&SCENARIOS[..]), any::<u64>());
    let air = (75e3..105e3, 263.0..313.0, 0.0..=1.0);
    (rig, air, 0.8..1.7, 105.0..130.0).prop_map(|((name, seed), air, set_point, mains_v)| {
        let rig = drawn_rig(name, seed);
        let (pressure_pa, temperature_k, humidity) = air;
        let ambient = Ambient::from(AirState { pressure_pa, temperature_k, humidity });
        let turns = FlowController::turns_for(&rig.flow_controller, set_point);
        Bench { rig, ambient, controller: FlowController::new(turns), mains_v }
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn the_knob_is_useless_until_the_controller_saturates(
        bench in bench(), openings in prop::collection::vec(0.02..1.0, 6), leak in 0.0..3e-5
    ) {
        let set_point = bench.controller.set_point_std_m3_min(&bench.rig.flow_controller);
        for opening in openings {
            let point = bench.on_controller(opening, leak);
            let felt = bench.rig.flow_controller.sensed_std_m3_min(point.flow.mass_flow_kg_s);
            let on_line = bench.on_line(opening, leak).flow.mass_flow_kg_s;
            if point.volts < bench.mains_v {
                let off = (felt / set_point - 1.0).abs();
                prop_assert!(off < 1e-8, "opening {opening}: {felt} for {set_point}");
                prop_assert!(point.flow.mass_flow_kg_s <= on_line);
            } else {
                prop_assert!(felt <= set_point * (1.0 + 1e-8), "opening {opening}: {felt}");
                prop_assert!((point.flow.mass_flow_kg_s / on_line - 1.0).abs() < 1e-8);
            }
        }
    }
}

/// The smallest and the largest true flow at the chart readings of a session by an operator, at
/// openings of at least 0.5.
fn flows(operator: &str, name: &str, seed: u64) -> (f64, f64) {
    let mut session = Session::begin(&scenario(name), seed, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name(operator, seed).unwrap().as_mut()).unwrap();
    let signed = session.open().unwrap();
    let wide = signed.events.iter().filter_map(|moment| {
        use sim_core::field_book::Field;
        use sim_core::session::action::Action;
        let chart = matches!(&moment.action, Action::Write { field: Field::Chart(_), .. });
        let truth = &moment.before;
        (chart && truth.opening >= 0.5 && truth.steady_s > 60.0).then_some(truth.flow_std_m3_min)
    });
    wide.fold((f64::MAX, 0.0), |(low, high), flow| (low.min(flow), high.max(flow)))
}

#[test]
fn in_a_session_the_knob_moves_the_flow_on_the_line_and_not_on_the_controller() {
    for name in SCENARIOS {
        for seed in 1..=4 {
            let (low, high) = flows("on-controller", name, seed);
            assert!(high > 0.5 && high / low < 1.02, "{name} {seed}: {low} to {high}");
            let (low, high) = flows("careful", name, seed);
            assert!(high / low > 1.08, "{name} {seed}: {low} to {high}");
        }
    }
}
