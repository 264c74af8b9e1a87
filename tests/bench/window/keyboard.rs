//! The keyboard alone: the first steps of the work.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::rig::parts::{Leg, Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::Sight;

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
