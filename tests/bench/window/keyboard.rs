//! The keyboard alone: the first steps of the work.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::field_book::Field;
use sim_core::rig::parts::{Leg, Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, Sight};

use super::harness::Bench;

fn enter(bench: &mut Bench) {
    bench.press(Key::Enter, KeyCode::Enter);
}

fn digit(bench: &mut Bench, digit: char) {
    let mut one = String::new();
    one.push(digit);
    bench.press(Key::Character(one.as_str().into()), KeyCode::F35);
}

#[test]
fn the_sampler_is_stripped_by_keys_alone() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Timer);
    digit(&mut bench, '1');
    assert_eq!(bench.view().power.timer_switch, TimerSwitch::Off);
    bench.tab_to(Spot::Cord);
    enter(&mut bench);
    assert!(!bench.view().power.sampler_cord_in);
    bench.tab_to(Spot::Lid);
    enter(&mut bench);
    assert!(bench.view().mounting.lid_open);

    bench.tab_to(Spot::Frame);
    enter(&mut bench);
    assert!(bench.said().contains("take all four nuts off first"), "{}", bench.said());
    for number in [1_u8, 3, 2, 4] {
        bench.tab_to(Spot::Nut(Nut::try_from(number).unwrap()));
        enter(&mut bench);
    }
    assert!(bench.view().mounting.nuts.iter().all(|nut| nut.quarter_turns == 0));
    bench.tab_to(Spot::Frame);
    enter(&mut bench);
    assert_eq!(bench.view().hand, Some(RigPart::Frame));
    bench.tab_to(Spot::Ground);
    enter(&mut bench);
    assert_eq!(bench.view().mounting.place(RigPart::Frame), PartPlace::Ground);
    assert_eq!(bench.said(), "", "what was refused is forgotten once something is done");
}

#[test]
fn arrows_turn_and_the_page_keys_raise_the_eye() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Manometer);
    enter(&mut bench);
    bench.tab_to(Spot::Manometer);
    enter(&mut bench);
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Hook);
    bench.tab_to(Spot::Valve(Leg::Left));
    bench.press(Key::ArrowUp, KeyCode::ArrowUp);
    assert_eq!(bench.view().manometer.left.valve_quarters, 2, "a coarse step is half a turn");
    bench.tab_to(Spot::Leg(Leg::Left));
    bench.press(Key::Character("l".into()), KeyCode::KeyL);
    assert_eq!(bench.view().focus, Sight::LeftLeg);
    bench.press(Key::PageUp, KeyCode::PageUp);
    assert!((bench.view().eye_mm - 10.0).abs() < 1e-9);
}

#[test]
fn time_passes_on_asking_and_stops_at_escape() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Timer);
    bench.press(Key::F6, KeyCode::F6);
    bench.press(Key::F6, KeyCode::F6);
    let before = bench.view().tick;
    enter(&mut bench);
    bench.rest(8);
    let gone = bench.view().tick.seconds_since(before);
    assert!((10.0..12.0).contains(&gone), "{gone} s have passed");
}

/// Presses the key of a letter or sign.
fn letter(bench: &mut Bench, letter: &str) {
    bench.press(Key::Character(letter.into()), KeyCode::F35);
}

#[test]
fn a_letter_goes_to_the_next_thing_with_that_initial() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Sky);
    let acts = bench.done().len();
    for (key, spot) in [
        ("k", Spot::Sky),
        ("p", Spot::Pen),
        ("n", Spot::Nut(Nut::ALL[0])),
        ("r", Spot::Recorder),
        ("b", Spot::Barometer),
        ("b", Spot::BlowerPlug),
        ("b", Spot::Blower),
        ("b", Spot::Barometer),
    ] {
        letter(&mut bench, key);
        let expected = if matches!(spot, Spot::Nut(_)) { Spot::Pen } else { spot };
        assert_eq!(bench.at_hand(), Some(expected), "after {key}");
    }
    assert_eq!(bench.done().len(), acts, "going somewhere does nothing");
}

/// Types signs into the field that has the focus.
fn types(bench: &mut Bench, text: &str) {
    for sign in text.chars() {
        letter(bench, &sign.to_string());
    }
}

#[test]
fn the_equals_sign_reads_a_thing_and_enter_goes_along_its_row() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Sky);
    letter(&mut bench, "b");
    letter(&mut bench, "=");
    bench.rest(4);
    assert_eq!(bench.view().focus, Sight::Barometer, "it is looked at");
    assert_eq!(bench.label_of_focus().as_deref(), Some("Station pressure, mmHg"));
    types(&mut bench, "761");
    enter(&mut bench);
    bench.rest(4);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("761"));
    assert!(bench.said().contains("761"), "what was written is shown: {}", bench.said());
    assert_eq!(bench.view().focus, Sight::Thermometer, "what the row goes on with is looked at");
    assert_eq!(bench.label_of_focus().as_deref(), Some("Air temperature, \u{b0}C"));
    types(&mut bench, "13.5");
    enter(&mut bench);
    bench.rest(4);
    assert_eq!(bench.written(Field::Temperature).as_deref(), Some("13.5"));
    assert_eq!(bench.at_hand(), Some(Spot::Thermometer), "back at the thing that was read");
    let writes = bench.done().into_iter().filter(|act| matches!(act, Action::Write { .. }));
    assert_eq!(writes.count(), 2);
    letter(&mut bench, ",");
    bench.rest(10);
    let gone = bench.done().into_iter().any(|act| matches!(act, Action::Wait { .. }));
    assert!(gone, "a minute passes");
}

#[test]
fn escape_in_a_field_leaves_it_as_it_was_and_goes_back_to_the_thing() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Barometer);
    letter(&mut bench, "=");
    bench.rest(4);
    types(&mut bench, "7");
    bench.press(Key::Escape, KeyCode::Escape);
    bench.rest(4);
    assert_eq!(bench.at_hand(), Some(Spot::Barometer));
    assert_eq!(bench.label_of_focus().as_deref(), Some("barometer"));
    assert_eq!(bench.written(Field::Pressure), None, "a beginning is not written");
    letter(&mut bench, "=");
    bench.rest(4);
    types(&mut bench, "761");
    enter(&mut bench);
    bench.rest(4);
    let pressure = bench.written(Field::Pressure);
    assert_eq!(pressure.as_deref(), Some("761"), "the seven is not left over");
}

#[test]
fn enter_goes_to_the_next_blank_of_the_page_and_f8_to_that_of_the_book() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let f8 = |bench: &mut Bench| {
        bench.press(Key::F8, KeyCode::F8);
        bench.rest(4);
        bench.label_of_focus()
    };
    let first = f8(&mut bench);
    assert_eq!(first.as_deref(), Some("Calibrator, number on its plate"));
    types(&mut bench, "OC-318");
    enter(&mut bench);
    bench.rest(4);
    assert_eq!(bench.written(Field::CalibratorSerial).as_deref(), Some("OC-318"));
    let next = bench.label_of_focus();
    assert_eq!(next.as_deref(), Some("Certificate used, serial number"));
    let after = f8(&mut bench);
    assert_eq!(after.as_deref(), Some("Certificate used, date, year-month-day"));
    let writes = bench.done().into_iter().filter(|act| matches!(act, Action::Write { .. }));
    assert_eq!(writes.count(), 1, "what is left blank is not written");
    bench.click("copy it into the blanks");
    bench.rest(4);
    assert!(bench.written(Field::CertificateSlope).is_some());
    assert_eq!(bench.written(Field::CalibratorSerial).as_deref(), Some("OC-318"));
    let air = f8(&mut bench);
    assert_eq!(air.as_deref(), Some("Air temperature, \u{b0}C"), "the next page with blanks");
}
