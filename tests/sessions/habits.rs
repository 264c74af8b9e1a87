//! Habits that leave their trace only where something is wrong, and the scenarios that are about them.

use sim_core::field_book::Field;
use sim_core::operator::NAMES;
use sim_core::scenario::{KnownRules, check};
use sim_core::session::action::{Action, FaultPlace};
use sim_core::session::ended_session::EndedSession;
use sim_core::session::ending::Ending;

use super::operators::{point, reported, session_of};

/// Whether somebody did something of a kind.
fn ever(signed: &EndedSession, wanted: impl Fn(&Action) -> bool) -> bool {
    signed.events.iter().any(|moment| wanted(&moment.action))
}

#[test]
fn water_stays_in_a_tube_that_nobody_looks_over() {
    let drained = |name| {
        let (signed, _) = session_of("07_after_the_river_crew.ron", name, 1);
        ever(&signed, |action| *action == Action::DrainTube)
    };
    assert!(drained("careful"));
    assert!(!drained("skips-tube-check"));
}

#[test]
fn one_leg_is_doubled() {
    let (signed, _) = session_of("08_number_six.ron", "doubles-a-leg", 1);
    let up = signed.book.number(Field::Up(point(1))).unwrap();
    assert_eq!(signed.book.number(Field::DeltaH(point(1))), Some(2.0 * up));
    assert_eq!(signed.book.text(Field::Down(point(1))), None);
}

#[test]
fn the_thermometer_is_read_where_it_stands() {
    let warm = |name| {
        let (signed, _) = session_of("10_fresh_paint.ron", name, 1);
        signed.book.number(Field::Temperature).unwrap() - signed.end.temperature_c
    };
    assert!(warm("ignores-thermometer") > 5.0, "{}", warm("ignores-thermometer"));
    assert!(warm("careful").abs() < 2.0, "{}", warm("careful"));
}

#[test]
fn the_pair_printed_first_is_copied_and_a_copy_is_taken_for_the_original() {
    let slope = |scenario, name| {
        let (signed, _) = session_of(scenario, name, 1);
        signed.book.number(Field::CertificateSlope).unwrap()
    };
    let (pairs, copy) = ("13_the_new_laboratory.ron", "14_the_tram_depot.ron");
    assert!(slope(pairs, "first-pair") < 0.7 * slope(pairs, "careful"));
    assert!((slope(copy, "trusts-copies") - slope(copy, "careful")).abs() > 1e-5);
    assert!((slope(copy, "first-pair") - slope(copy, "careful")).abs() < 1e-12);
}

#[test]
fn who_listens_once_never_hears_the_nut_that_works_loose() {
    let turned = |name| {
        let (signed, _) = session_of("15_beside_the_crusher.ron", name, 1);
        reported(&signed).contains(&FaultPlace::Mounting)
    };
    assert!(turned("careful"));
    assert!(!turned("listens-once"));
}

#[test]
fn the_pen_stays_below_its_stop() {
    let set = |name| {
        let (signed, _) = session_of("17_counting_geese.ron", name, 1);
        ever(&signed, |action| matches!(action, Action::SetPenZero { .. }))
    };
    assert!(set("careful"));
    assert!(!set("skips-pen-zero"));
}

#[test]
fn what_is_not_looked_at_again_is_not_found() {
    let found = |scenario, name, place| {
        let (signed, _) = session_of(scenario, name, 1);
        reported(&signed).contains(&place)
    };
    let clock = "19_two_charts_in_june.ron";
    assert!(found(clock, "careful", FaultPlace::Recorder));
    assert!(!found(clock, "never-looks-back", FaultPlace::Recorder));
    let cable = "20_the_far_side_of_the_pit.ron";
    assert!(found(cable, "careful", FaultPlace::Blower));
    assert!(!found(cable, "ignores-blower", FaultPlace::Blower));
}

#[test]
fn who_ignores_thunder_signs_in_it() {
    let ended = |name| session_of("11_before_the_fire_season.ron", name, 1).0.ended;
    assert_eq!(ended("careful"), Ending::LeftRoof);
    assert_eq!(ended("ignores-thunder"), Ending::Signed);
}

#[test]
fn who_leaves_the_next_run_leaves_an_old_timer_and_no_filter() {
    let scenario = "31_one_in_one_on.ron";
    let (careful, refused) = session_of(scenario, "careful", 1);
    assert_eq!(refused, Vec::<String>::new());
    let run = careful.end.run.as_ref().unwrap();
    assert_eq!(run.next_sheet.map(|sheet| sheet.number), Some(run.sheet.number + 1));
    assert!(!careful.end.capped && careful.end.on_paper && run.dial_ahead_min.abs() < 2.0);
    let (leaves, refused) = session_of(scenario, "leaves-next-run", 1);
    assert_eq!(refused, Vec::<String>::new());
    assert_eq!(leaves.end.run.as_ref().unwrap().next_sheet, None);
    let marks = sim_core::marking::mark(&leaves.evidence());
    let broken: Vec<_> = marks.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(broken, ["next-filter", "next-timer", "next-chart"]);
    assert!(!marks.passed);
}

#[test]
fn every_habit_is_what_a_scenario_is_about() {
    let folder = bench_tests::repository().join("scenarios");
    let mut about: Vec<String> = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|ending| ending == "ron") {
            let text = std::fs::read_to_string(&path).unwrap();
            let scenario = check(&text, KnownRules::Any).unwrap();
            about.extend(scenario.about.iter().flat_map(|one| one.split('+')).map(str::to_owned));
        }
    }
    for (name, _) in NAMES.iter().filter(|(name, _)| *name != "careful") {
        assert!(about.iter().any(|habit| habit == name), "no scenario is about {name}");
    }
}
