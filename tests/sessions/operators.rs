//! Scripted operators at work: the careful one comes to the end, and every habit leaves its trace.

use sim_core::field_book::{Field, PointNumber};
use sim_core::operator::{NAMES, by_name, rehearse};
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::Session;
use sim_core::session::action::{Action, FaultPlace};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::ending::Ending;
use sim_core::session::ground_truth::EventRecord;
use sim_core::session::journal::NullSink;

const CLEAN: &str = "01_first_calibration.ron";

/// A whole session by an operator, and what was refused on the way.
pub(super) fn session_of(scenario: &str, operator: &str, seed: u64) -> (EndedSession, Vec<String>) {
    struct Listening {
        inner: Box<dyn sim_core::operator::Operator>,
        refused: Vec<String>,
    }
    impl sim_core::operator::Operator for Listening {
        fn next(
            &mut self,
            scene: &sim_core::operator::Observation<'_>,
        ) -> sim_core::operator::OperatorStep {
            self.inner.next(scene)
        }
        fn refused(&mut self, action: &Action, reason: &str) {
            self.refused.push(format!("{action:?}: {reason}"));
            self.inner.refused(action, reason);
        }
    }
    let path = bench_tests::repository().join("scenarios").join(scenario);
    let text = std::fs::read_to_string(&path).unwrap();
    let mut session = Session::begin_unrecorded(&text, seed).unwrap();
    let mut operator = Listening { inner: by_name(operator, seed).unwrap(), refused: Vec::new() };
    rehearse(&mut session, &mut operator).unwrap();
    (session.open().unwrap(), operator.refused)
}

pub(super) fn point(number: u8) -> PointNumber {
    PointNumber::try_from(number).unwrap()
}

/// The moments at which chart readings were written.
fn chart_readings(signed: &EndedSession) -> Vec<&EventRecord> {
    let is_chart = |action: &Action| matches!(action, Action::Write { field: Field::Chart(_), .. });
    signed.events.iter().filter(|moment| is_chart(&moment.action)).collect()
}

pub(super) fn reported(signed: &EndedSession) -> Vec<FaultPlace> {
    let place = |moment: &EventRecord| match &moment.action {
        Action::Report(remark) => Some(remark.place),
        _ => None,
    };
    signed.events.iter().filter_map(place).collect()
}

fn decision(signed: &EndedSession) -> &str {
    signed.book.text(Field::Decision).unwrap_or_default()
}

#[test]
fn the_careful_one_does_the_whole_job_without_a_refusal() {
    for seed in 1..=5 {
        let (signed, refused) = session_of(CLEAN, "careful", seed);
        assert_eq!(refused, Vec::<String>::new(), "seed {seed}");
        assert_eq!(signed.ended, Ending::Signed);
        // A hook that hangs the manometer askew is no fault of the scenario, and worth a word.
        let alarms: Vec<_> =
            reported(&signed).into_iter().filter(|&place| place != FaultPlace::Manometer).collect();
        assert_eq!(alarms, Vec::new(), "seed {seed}: a false alarm");
        assert_eq!(decision(&signed), "accepted", "seed {seed}");
        assert_eq!(signed.book.points().len(), 7);
        let minutes = signed.end_tick.seconds() / 60.0;
        assert!((25.0..=50.0).contains(&minutes), "seed {seed}: {minutes} min");
        for moment in chart_readings(&signed) {
            let facts = &moment.before;
            assert!(facts.steady_s >= 120.0 && facts.running_s >= 300.0 && facts.taps >= 3);
            assert!((facts.pen - facts.pen_at_rest).abs() < 0.3);
        }
        let end = &signed.end;
        assert_eq!(
            end.places,
            [
                PartPlace::Holder,
                PartPlace::Holder,
                PartPlace::Case,
                PartPlace::Case,
                PartPlace::Case
            ]
        );
        assert_eq!((end.blower_plug, end.sampler_cord_in), (BlowerPlug::Controller, true));
        assert!(end.capped && !end.powered && !end.lid_open && !end.tube_on_tap);
        assert!(end.longest_blocked_s <= 30.0, "{} s blocked", end.longest_blocked_s);
    }
}

#[test]
fn hands_go_in_only_when_the_rotor_stands() {
    for (name, _) in NAMES {
        let (signed, _) = session_of("03_a_new_blower.ron", name, 4);
        assert_eq!(hand_in_danger(&signed), None, "{name}");
    }
    // Only a leak that is heard while the blower runs tempts a hand in.
    let (signed, _) = session_of("15_beside_the_crusher.ron", "careful", 4);
    assert_eq!(hand_in_danger(&signed), None);
    let (signed, _) = session_of("15_beside_the_crusher.ron", "reaches-in", 4);
    assert!(hand_in_danger(&signed).is_some());
}

/// The first moment at which a hand went in while the rotor turned.
fn hand_in_danger(signed: &EndedSession) -> Option<&EventRecord> {
    signed.events.iter().find(|moment| {
        let inside = matches!(
            moment.action,
            Action::OpenLid
                | Action::TurnNut { .. }
                | Action::FitGasket { .. }
                | Action::Take { part: RigPart::Frame | RigPart::Adapter | RigPart::Calibrator }
        );
        let facts = &moment.before;
        inside && (facts.powered || facts.speed_ratio >= 0.05)
    })
}

#[test]
fn readings_depend_on_the_seed_alone() {
    let texts = |seed| {
        let (signed, _) = session_of(CLEAN, "careful", seed);
        signed.book.entries().iter().map(|entry| entry.text.clone()).collect::<Vec<_>>()
    };
    assert_eq!(texts(3), texts(3));
    assert_ne!(texts(3), texts(4));
}

#[test]
fn every_operator_comes_to_an_end() {
    for (name, _) in NAMES {
        let (signed, refused) = session_of(CLEAN, name, 2);
        assert_eq!(refused, Vec::<String>::new(), "{name}");
        assert_eq!(signed.ended, Ending::Signed, "{name}");
        assert!(!decision(&signed).is_empty(), "{name}");
    }
}

#[test]
fn the_hurried_one_neither_waits_nor_taps() {
    let (signed, _) = session_of(CLEAN, "hurried", 1);
    let readings = chart_readings(&signed);
    assert!(readings.iter().skip(1).all(|moment| moment.before.steady_s < 30.0));
    assert!(readings.iter().all(|moment| moment.before.taps == 0));
    assert!(!signed.events.iter().any(|moment| moment.action == Action::Tap));
}

#[test]
fn one_leg_is_written_as_the_whole() {
    let (signed, _) = session_of(CLEAN, "one-leg", 1);
    let first = point(1);
    assert_eq!(signed.book.text(Field::Down(first)), None);
    assert_eq!(signed.book.number(Field::DeltaH(first)), signed.book.number(Field::Up(first)));
}

#[test]
fn without_warming_up_the_first_point_comes_early() {
    let (signed, _) = session_of(CLEAN, "skips-warm-up", 1);
    let first = chart_readings(&signed)[0];
    assert!(first.before.running_s < 300.0, "{} s", first.before.running_s);
}

#[test]
fn the_motor_stays_on_the_controller() {
    let (signed, _) = session_of(CLEAN, "on-controller", 1);
    for moment in chart_readings(&signed) {
        assert_eq!(moment.before.blower_plug, BlowerPlug::Controller);
        assert!(moment.before.powered);
    }
}

#[test]
fn the_scale_is_never_slid() {
    let slides = |name| {
        let (signed, _) = session_of(CLEAN, name, 1);
        signed.events.iter().any(|m| matches!(m.action, Action::SlideScale { .. }))
    };
    assert!(slides("careful"));
    assert!(!slides("never-zeroes"));
}

#[test]
fn the_top_certificate_is_taken_unread() {
    let scenario = "04_the_firehouse.ron";
    let (trusting, _) = session_of(scenario, "trusts-certificates", 1);
    let (careful, _) = session_of(scenario, "careful", 1);
    let date = |signed: &EndedSession| signed.book.text(Field::CertificateDate).map(str::to_owned);
    let top = trusting.setup.certificates[0].date.to_string();
    assert_eq!(date(&trusting), Some(top.clone()));
    assert_ne!(date(&careful), Some(top));
    assert!(reported(&careful).contains(&FaultPlace::Certificate));
}

#[test]
fn faults_are_seen_everywhere() {
    let (signed, _) = session_of(CLEAN, "sees-faults", 1);
    assert_eq!(reported(&signed).len(), 13);
}

#[test]
fn legs_are_read_at_a_slant() {
    let (signed, _) = session_of(CLEAN, "slant-reader", 1);
    let up = |m: &&EventRecord| matches!(m.action, Action::Write { field: Field::Up(_), .. });
    assert!(signed.events.iter().filter(up).all(|m| (m.before.eye_mm - 60.0).abs() < 1e-9));
}

#[test]
fn the_barometer_is_taken_as_it_shows() {
    let scenario = "05_moved_from_the_coast.ron";
    let (trusting, _) = session_of(scenario, "trusts-barometer", 1);
    let (careful, _) = session_of(scenario, "careful", 1);
    let off = |signed: &EndedSession| {
        signed.book.number(Field::Pressure).unwrap() - signed.end.pressure_mmhg
    };
    assert!(off(&trusting) > 20.0, "{}", off(&trusting));
    assert!(off(&careful).abs() < 2.0, "{}", off(&careful));
    assert!(reported(&careful).contains(&FaultPlace::Barometer));
}

#[test]
fn nobody_covers_the_openings_who_skips_the_leak_check() {
    let covers = |name| {
        let (signed, _) = session_of(CLEAN, name, 1);
        signed.events.iter().any(|m| m.action == Action::BlockOpenings)
    };
    assert!(covers("careful"));
    assert!(!covers("skips-leak-check"));
}

#[test]
fn the_careful_one_finds_what_is_wrong() {
    for (scenario, place) in [
        ("02_two_lines_and_an_audit.ron", FaultPlace::Manometer),
        ("03_a_new_blower.ron", FaultPlace::Mounting),
        ("06_october_at_the_substation.ron", FaultPlace::Recorder),
    ] {
        let (signed, _) = session_of(scenario, "careful", 1);
        assert!(reported(&signed).contains(&place), "{scenario}: {:?}", reported(&signed));
    }
}

#[test]
fn the_careful_one_passes_every_scenario() {
    for scenario in [CLEAN, "02_two_lines_and_an_audit.ron", "03_a_new_blower.ron"]
        .into_iter()
        .chain(["04_the_firehouse.ron", "05_moved_from_the_coast.ron"])
        .chain(["06_october_at_the_substation.ron"])
    {
        for seed in 1..=5 {
            let (signed, _) = session_of(scenario, "careful", seed);
            let marks = sim_core::marking::mark(&signed.evidence());
            assert!(marks.passed, "{scenario}, seed {seed}: {:?} {}", marks.gate, marks.total);
        }
    }
}

#[test]
fn who_has_the_habit_that_a_scenario_is_about_does_not_pass_it() {
    for (scenario, operator) in [
        (CLEAN, "hurried"),
        (CLEAN, "one-leg"),
        (CLEAN, "skips-warm-up"),
        (CLEAN, "on-controller"),
        (CLEAN, "sees-faults"),
        (CLEAN, "slant-reader"),
        ("04_the_firehouse.ron", "trusts-certificates"),
        ("05_moved_from_the_coast.ron", "trusts-barometer"),
        ("06_october_at_the_substation.ron", "hurried"),
    ] {
        for seed in 1..=3 {
            let (signed, _) = session_of(scenario, operator, seed);
            let marks = sim_core::marking::mark(&signed.evidence());
            assert!(!marks.passed, "{operator} passed {scenario}, seed {seed}");
        }
    }
}

#[test]
fn thunder_drives_everyone_off_the_roof() {
    let path = bench_tests::repository().join("scenarios").join(CLEAN);
    let text = std::fs::read_to_string(&path).unwrap();
    let stormy = text.replace("    weather: (", "    weather: (\n        thunder_min: Fixed(12),");
    let mut session = Session::begin(&stormy, 1, Box::new(NullSink)).unwrap();
    rehearse(&mut session, by_name("careful", 1).unwrap().as_mut()).unwrap();
    let signed = session.open().unwrap();
    assert_eq!(signed.ended, Ending::LeftRoof);
    assert!(signed.end_tick.seconds() < 14.0 * 60.0, "{} s", signed.end_tick.seconds());
    assert!(!signed.end.powered);
}

#[test]
fn a_leaking_valve_is_refused_and_the_roof_left_in_order() {
    let (signed, refused) = session_of("02_two_lines_and_an_audit.ron", "careful", 1);
    assert_eq!(refused, Vec::<String>::new());
    assert!(decision(&signed).starts_with("refused: "), "{}", decision(&signed));
    assert_eq!(signed.end.places[RigPart::Calibrator as usize], PartPlace::Case);
    assert!(!signed.end.lid_open);
}

/// Marks that nobody can miss: all of them, but for what a fault that is noted and worked with
/// does to readings and line.
fn least_marks(name: &str) -> f64 {
    match name {
        // Each leg for itself stands where no leg of equal bores stands.
        "08_number_six.ron" => 95.0,
        // The barometer is noted, and read as it shows; the pressure is off by what it is off.
        "23_settled_weather.ron" => 98.5,
        // A line through points of a wandering supply wanders with it.
        "25_wind_permitting.ron" => 90.0,
        // Five plates, five points: no sixth one makes good the scatter of two legs at the lowest flow. In
        // sixty seeds the line is off at the ordered flow by 0.2 +- 0.4 percent, as that of seven points.
        "34_five_plates.ron" => 98.0,
        // A line with averages built in is off by what the day of the run differs from them: over a thousand
        // seeds the marks are 99.0 +- 0.7.
        "38_a_line_for_the_season.ron" => 98.0,
        // The scatter of honest readings and of the mains passes the free percent of the line in some of
        // the seeds.
        _ => 99.0,
    }
}

#[test]
fn the_careful_one_earns_every_mark_of_every_shipped_scenario() {
    use sim_core::marking::mark;
    let folder = bench_tests::repository().join("scenarios");
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .filter(|name| name.ends_with(".ron"))
        .collect();
    names.sort();
    assert_eq!(names.len(), 41);
    for name in &names {
        for seed in 1..=5 {
            let (signed, _) = session_of(name, "careful", seed);
            let marks = mark(&signed.evidence());
            let least = least_marks(name);
            // Of what could be assessed: work that is rightly stopped leaves parts out.
            let total = 100.0 * marks.total / marks.of;
            assert!(total > least, "{name}, seed {seed}: {:#?}", marks.parts);
            assert!(marks.passed, "{name}, seed {seed}: {:#?}", marks.gate);
        }
    }
}
