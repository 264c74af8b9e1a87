//! What is declared of the faults holds together.

use super::declared::Site;
use super::{Arises, Fault, FaultPlace, Noticed, Response, sheets};
use crate::rig::station::{Station, WeatherPlan};
use crate::rig::{Rig, RigParameters};
use crate::time::{Date, TimeOfDay};

/// Names of all faults, from what a reader of scenarios is told when there is no such fault.
fn known() -> Vec<&'static str> {
    let error = ron::from_str::<Fault>("None").unwrap_err();
    let ron::Error::NoSuchEnumVariant { expected, .. } = error.code else { panic!("{error}") };
    expected.to_vec()
}

#[test]
fn every_fault_has_one_sheet_and_every_sheet_its_fault() {
    let mut named: Vec<&str> = sheets().map(|sheet| sheet.name).collect();
    let mut known = known();
    named.sort_unstable();
    known.sort_unstable();
    assert_eq!(named, known);
    for sheet in sheets() {
        for other in sheet.contradicts {
            assert!(known.contains(other), "{} contradicts {other}", sheet.name);
        }
    }
    for fault in Fault::examples() {
        // The name is the variant's own: a scenario is read by it.
        let written = ron::to_string(&fault).unwrap();
        assert_eq!(written.split('(').next(), Some(fault.name()));
    }
}

#[test]
fn every_sheet_is_filled_in() {
    for sheet in sheets() {
        let name = sheet.name;
        for (what, text) in [("cause", sheet.cause), ("sign", sheet.sign), ("check", sheet.check)] {
            assert!(text.len() > 20 && text.ends_with('.'), "{name}: {what} {text:?}");
        }
        for (what, text) in [("title", sheet.title), ("in short", sheet.in_short)] {
            assert!(!text.is_empty() && !text.ends_with('.'), "{name}: {what} {text:?}");
        }
        assert!(!sheet.right.is_empty(), "{name} has no right response");
        let mut right: Vec<Response> = sheet.right.to_vec();
        right.sort_unstable();
        right.dedup();
        assert_eq!(right.len(), sheet.right.len(), "{name} names a response twice");
        if let Noticed::Never(why) = sheet.noticed {
            assert!(why.len() > 20, "{name}: {why}");
        }
    }
}

#[test]
fn a_fault_with_a_number_has_a_size_and_one_of_several_says_which() {
    for fault in Fault::examples() {
        let written = ron::to_string(&fault).unwrap();
        let number = written.contains('.');
        assert_eq!(fault.size().is_some(), number, "{written} and its size");
        if let Some(size) = fault.size() {
            assert!(size.in_range(), "{written} is out of its range");
            let field = format!("{}:{:?}", size.field, size.value);
            assert!(written.contains(&field), "{written} has no {field}");
        }
        let several = written.contains("leg:") || written.contains("nut:");
        assert_eq!(fault.which() != fault.name(), several, "{written} and which one it is");
    }
}

#[test]
fn certificates_are_as_they_are_from_the_start() {
    for sheet in sheets().filter(|sheet| sheet.place == FaultPlace::Certificate) {
        assert_eq!(sheet.arises, Arises::FromTheStart, "{}", sheet.name);
    }
}

/// A sound rig under a plain sky.
fn bench() -> (Rig, Station) {
    let plan = WeatherPlan {
        pressure_pa: 98_000.0,
        pressure_pa_h: 0.0,
        temperature_k: 290.0,
        temperature_k_h: 0.0,
        humidity: 0.5,
        gust_sd_pa: 1.0,
        mains_v: 120.0,
        mains_sd_v: 0.2,
        sun_k: 5.0,
        thunder_min: None,
    };
    let date = Date::new(2026, 4, 14).unwrap();
    let station = Station::new(plan, date, TimeOfDay::new(8, 30, 0).unwrap(), 1);
    let mut rig = Rig::new(&RigParameters::default(), &station.surroundings());
    rig.flow_was_disturbed();
    (rig, station)
}

#[test]
fn what_comes_and_goes_leaves_nothing_behind() {
    for fault in Fault::examples().filter(|fault| fault.arises() == Arises::ComesAndGoes) {
        let (mut rig, mut station) = bench();
        let before = (format!("{rig:?}"), station.surroundings());
        fault.begin(Site { rig: &mut rig, station: &mut station, seed: 1 });
        let during = format!("{rig:?}{station:?}");
        fault.end(Site { rig: &mut rig, station: &mut station, seed: 1 });
        let name = fault.name();
        assert!(format!("{rig:?}{station:?}") != during, "{name} does not go");
        assert!((format!("{rig:?}"), station.surroundings()) == before, "{name} stays in part");
    }
}

#[test]
fn what_begins_is_felt_somewhere() {
    // What waits for a run, and what only a scenario prints, changes nothing here.
    let elsewhere = [FaultPlace::Certificate, FaultPlace::Timer];
    let here = |fault: &Fault| !elsewhere.contains(&fault.place()) && !fault.only_during_run();
    for fault in Fault::examples().filter(here) {
        let (mut rig, mut station) = bench();
        let before = format!("{rig:?}{station:?}");
        fault.begin(Site { rig: &mut rig, station: &mut station, seed: 1 });
        assert!(format!("{rig:?}{station:?}") != before, "{} does nothing", fault.name());
    }
}
