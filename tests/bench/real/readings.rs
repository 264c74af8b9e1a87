//! Readings taken from the screen alone, at two sizes of window and two scales of drawing.
#![allow(clippy::print_stdout, reason = "what was measured is there to be looked at")]

use sim_core::session::Session;
use sim_core::session::action::Sight;
use sim_core::session::view::View;

use super::glass;
use super::hands::Hands;
use super::job;
use super::keyboard::Keyboard;
use super::resumed;
use super::screen::{Screen, pause};

/// Largest error of the difference of the legs, inH2O.
const DELTA_H_IN: f64 = 0.05;
/// Largest error of the pen, divisions.
const PEN: f64 = 0.5;

/// What is there to be seen now: the journal's session, taken on to the time on the watch.
fn view(hands: &mut Keyboard) -> View {
    let mut session: Session = job::session(hands);
    let told = hands.screen.told();
    // In a small window the watch may lie out of sight.
    let watch = told.iter().find(|one| one.label == "time of day");
    let time = watch.map_or("", |one| one.value.as_str()).to_owned();
    for _ in 0..600 {
        if session.view().time.to_string() == time {
            break;
        }
        session.advance(20).expect("time passes");
    }
    assert_eq!(session.view().time.to_string(), time, "the watch and the journal");
    session.view()
}

fn readings_hold(size: (u32, u32), scale: u32) {
    let mut hands = resumed::at_work(Screen::new(size, scale));
    let what = format!("{size:?} at scale {scale}");
    hands.turn("calibrator's knob", -4);
    // Longer than water and pen take to come to rest.
    pause(25_000);
    for _ in 0..4 {
        hands.act("flow recorder", "tap the case");
    }
    hands.act("pen", "read the pen");
    pause(500);
    let there = view(&mut hands).recorder.pen.expect("a pen on paper");
    let read = glass::pen(&hands.screen, there);
    println!("{what}: pen {read:.2} for {there:.2}");
    assert!((read - there).abs() <= PEN, "{what}: pen {read} for {there}");

    let mut delta_h = [0.0; 2];
    for (sight, thing, sign) in [
        (Sight::LeftLeg, "left leg of the manometer", 1.0),
        (Sight::RightLeg, "right leg of the manometer", -1.0),
    ] {
        hands.act(thing, "read it at eye level");
        pause(500);
        let manometer = view(&mut hands).manometer;
        let leg = if sight == Sight::LeftLeg { manometer.left } else { manometer.right };
        delta_h[0] += sign * glass::leg(&hands.screen, sight, leg.meniscus_in);
        delta_h[1] += sign * leg.meniscus_in;
    }
    hands.screen.keep_picture(&what);
    let [read, there] = delta_h;
    println!("{what}: dH {read:.3} for {there:.3} inH2O");
    assert!(there > 1.0, "{what}: the blower draws");
    assert!((read - there).abs() <= DELTA_H_IN, "{what}: dH {read} for {there}");
}

#[test]
fn readings_hold_at_1280_by_800() {
    readings_hold((1280, 800), 1);
}

#[test]
fn readings_hold_at_1280_by_800_drawn_twice_as_large() {
    readings_hold((1280, 800), 2);
}

#[test]
fn readings_hold_at_1920_by_1080() {
    readings_hold((1920, 1080), 1);
}

#[test]
fn readings_hold_at_1920_by_1080_drawn_twice_as_large() {
    readings_hold((1920, 1080), 2);
}
