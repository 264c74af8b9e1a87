//! The manometer's filling in whole sessions: water pulled over by a leak check, put right on the roof,
//! and frost.

use sim_core::marking::mark;
use sim_core::operator::{by_name, rehearse};
use sim_core::procedure::findings;
use sim_core::rig::manometer::IceLook;
use sim_core::rig::parts::{BlowerPlug, GaugeFluid, Leg, PartPlace, RigPart};
use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::journal::NullSink;
use sim_core::session::view::View;
use sim_core::session::{ActError, Session};

use crate::sessions::cost::common::scenario;

/// A session on this bench, with hands that are never refused.
struct Roof(Session);

impl Roof {
    fn on(text: &str) -> Self {
        Self(Session::begin(text, 1, Box::new(NullSink)).unwrap())
    }

    fn does(&mut self, action: Action) {
        self.0.act(action.clone()).unwrap_or_else(|error| panic!("{action:?}: {error}"));
    }

    fn refused(&mut self, action: Action) -> String {
        match self.0.act(action) {
            Err(ActError::Refused(why)) => why.to_string(),
            other => panic!("{other:?}"),
        }
    }

    fn waits(&mut self, seconds: u64) {
        self.0.advance(20 * seconds).unwrap();
    }

    fn view(&self) -> View {
        self.0.view()
    }

    fn carries(&mut self, part: RigPart, place: PartPlace) {
        self.does(Action::Take { part });
        self.does(Action::Put { place });
    }

    /// Plate, calibrator and manometer in place, the scale at zero.
    fn sets_up(&mut self) {
        self.does(Action::UnplugSampler);
        self.does(Action::OpenLid);
        for nut in sim_core::rig::parts::Nut::ALL {
            self.does(Action::TurnNut { nut, quarter_turns: -12 });
        }
        self.carries(RigPart::Frame, PartPlace::Ground);
        self.carries(RigPart::Filter, PartPlace::Case);
        self.carries(RigPart::Adapter, PartPlace::Holder);
        for nut in sim_core::rig::parts::Nut::ALL {
            self.does(Action::TurnNut { nut, quarter_turns: 8 });
        }
        self.carries(RigPart::Calibrator, PartPlace::Adapter);
        self.carries(RigPart::Manometer, PartPlace::Hook);
        for leg in [Leg::Left, Leg::Right] {
            self.does(Action::TurnValve { leg, quarter_turns: 4 });
        }
        self.zeroes();
        self.does(Action::ConnectTube);
        self.does(Action::PlugBlower { into: BlowerPlug::LineOutlet });
        self.does(Action::SwitchLine { to: OnOff::On });
        self.waits(60);
    }

    fn zeroes(&mut self) {
        self.waits(60);
        let seen = self.view().manometer;
        let by_in = 0.5 * (seen.left.meniscus_in + seen.right.meniscus_in);
        self.does(Action::SlideScale { by_in });
    }

    fn sum_in(&self) -> f64 {
        let seen = self.view().manometer;
        seen.left.meniscus_in - seen.right.meniscus_in
    }

    fn covers_for(&mut self, seconds: u64) {
        self.does(Action::BlockOpenings);
        self.waits(seconds);
        self.does(Action::FreeOpenings);
    }
}

#[test]
fn a_leak_check_with_the_valves_open_pulls_the_water_over_and_the_roof_can_put_it_right() {
    let mut roof = Roof::on(&scenario("33_new_gaskets"));
    roof.sets_up();
    roof.waits(300);
    let before_in = roof.sum_in();
    roof.covers_for(10);
    roof.waits(60);
    let view = roof.view();
    assert!(view.tube.drops && view.manometer.below_mark_mm > 100.0, "{:?}", view.manometer);
    assert!(roof.sum_in() < 0.5 * before_in, "{} of {before_in}", roof.sum_in());
    // Drained, topped up and zeroed it reads what it read.
    roof.does(Action::DisconnectTube);
    roof.does(Action::DrainTube);
    while roof.view().manometer.below_mark_mm >= 0.5 {
        let by_mm = roof.view().manometer.below_mark_mm.round().min(20.0);
        roof.does(Action::AddFluid { by_mm });
    }
    roof.zeroes();
    roof.does(Action::ConnectTube);
    roof.waits(60);
    assert!((roof.sum_in() - before_in).abs() < 0.05, "{} and {before_in}", roof.sum_in());
}

#[test]
fn one_shut_valve_or_a_tube_off_the_tap_keeps_the_water() {
    for spared in [
        vec![Action::TurnValve { leg: Leg::Left, quarter_turns: -4 }],
        vec![Action::TurnValve { leg: Leg::Right, quarter_turns: -4 }],
        vec![Action::DisconnectTube],
    ] {
        let mut roof = Roof::on(&scenario("33_new_gaskets"));
        roof.sets_up();
        spared.iter().cloned().for_each(|action| roof.does(action));
        roof.covers_for(10);
        roof.waits(30);
        let view = roof.view();
        assert!(!view.tube.drops && view.manometer.below_mark_mm.abs() < 1e-9, "{spared:?}");
    }
}

#[test]
fn water_freezes_on_the_winter_roof_and_antifreeze_does_not() {
    let text = scenario("32_minus_six");
    let mut roof = Roof::on(&text);
    roof.sets_up();
    roof.waits(1800);
    let seen = roof.view().manometer;
    assert_eq!(seen.ice, IceLook::Solid, "{seen:?}");
    assert!(!seen.moving);
    let stands_in = roof.sum_in();
    roof.does(Action::TurnKnob { opening: 0.3 });
    roof.waits(120);
    assert!((roof.sum_in() - stands_in).abs() < 1e-9, "ice does not move");
    assert!(roof.refused(Action::AddFluid { by_mm: 5.0 }).contains("frozen"));
    assert!(roof.refused(Action::ChangeFluid { to: GaugeFluid::Antifreeze }).contains("hook"));
    roof.carries(RigPart::Manometer, PartPlace::Case);
    assert!(roof.refused(Action::ChangeFluid { to: GaugeFluid::GaugeOil }).contains("van"));
    roof.does(Action::ChangeFluid { to: GaugeFluid::Antifreeze });
    roof.carries(RigPart::Manometer, PartPlace::Hook);
    roof.waits(7200);
    let seen = roof.view().manometer;
    assert!(seen.ice == IceLook::None && seen.fluid == GaugeFluid::Antifreeze, "{seen:?}");
}

#[test]
fn what_the_scenarios_are_about_is_found_and_careful_work_passes() {
    for (name, habit, rule) in [
        ("32_minus_six", "leaves-water", "manometer-liquid"),
        ("32_minus_six", "forgets-density", "legs-added"),
        ("33_new_gaskets", "leaves-valves-open", "manometer-spared"),
    ] {
        for (operator, passes) in [("careful", true), (habit, false)] {
            let mut session = Session::begin(&scenario(name), 3, Box::new(NullSink)).unwrap();
            rehearse(&mut session, by_name(operator, 3).unwrap().as_mut()).unwrap();
            let ended = session.open().unwrap();
            let evidence = ended.evidence();
            let found: Vec<_> = findings(&evidence).into_iter().map(|slip| slip.rule).collect();
            let marks = mark(&evidence);
            assert_eq!(marks.passed, passes, "{name} {operator}: {} {found:?}", marks.total);
            assert_eq!(found.contains(&rule), !passes, "{name} {operator}: {found:?}");
        }
    }
}

#[test]
fn mild_air_leaves_a_sound_manometer_as_it_was_filled() {
    let mut roof = Roof::on(&scenario("01_first_calibration"));
    roof.sets_up();
    roof.waits(3600);
    roof.does(Action::Look { at: Sight::Manometer, eye_mm: 0.0 });
    let seen = roof.view().manometer;
    assert!(seen.ice == IceLook::None && !seen.dirty && seen.fluid == GaugeFluid::Water);
    assert!(seen.below_mark_mm.abs() <= 0.0, "{seen:?}");
}
