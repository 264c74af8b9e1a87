//! Readings taken from the screen alone: at two sizes of window, two scales of drawing and two sizes of
//! text, in the usual contrast and in high contrast, with the loupe in its place and opened.
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
use crate::bench::paint::picture::in_high_contrast;

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

/// How the bench is looked at.
#[derive(Debug, Clone, Copy)]
struct Seen {
    size: (u32, u32),
    scale: u32,
    text_percent: u16,
    contrast: &'static str,
    /// Whether the loupe is opened over the scene for each reading.
    open: bool,
}

impl Seen {
    const fn usual(size: (u32, u32), scale: u32) -> Self {
        Self { size, scale, text_percent: 100, contrast: "Normal", open: false }
    }
}

/// What is read from the glass, which is opened for it and put back where that is wanted.
fn glanced(hands: &Keyboard, open: bool, read: impl FnOnce(&Screen) -> f64) -> f64 {
    let turn_over = || {
        if open {
            hands.screen.tool(&["key", "z"]);
            pause(1200);
        }
    };
    turn_over();
    let value = read(&hands.screen);
    turn_over();
    value
}

fn readings_hold(seen: Seen) {
    let Seen { size, scale, text_percent, contrast, open } = seen;
    let screen = Screen::new(size, scale);
    let folder = screen.home.path().join(".config/steady-draw");
    std::fs::create_dir_all(&folder).expect("a folder");
    let settings = format!("(text_percent: {text_percent}, contrast: {contrast})");
    std::fs::write(folder.join("settings.ron"), settings).expect("a file");
    let in_contrast = |read: &dyn Fn() -> f64| {
        if contrast == "High" { in_high_contrast(read) } else { read() }
    };
    let mut hands = resumed::at_work(screen);
    let what = format!("{seen:?}");
    hands.turn("calibrator's knob", -4);
    // Longer than water and pen take to come to rest.
    pause(25_000);
    for _ in 0..4 {
        hands.act("flow recorder", "tap the case");
    }
    hands.act("pen", "read the pen");
    pause(500);
    let there = view(&mut hands).recorder.pen.expect("a pen on paper");
    let read = glanced(&hands, open, |screen| in_contrast(&|| glass::pen(screen, there)));
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
        let read = |screen: &Screen| in_contrast(&|| glass::leg(screen, sight, leg.meniscus_in));
        delta_h[0] += sign * glanced(&hands, open, read);
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
    readings_hold(Seen::usual((1280, 800), 1));
}

#[test]
fn readings_hold_at_1280_by_800_drawn_twice_as_large() {
    readings_hold(Seen::usual((1280, 800), 2));
}

#[test]
fn readings_hold_at_1920_by_1080() {
    readings_hold(Seen::usual((1920, 1080), 1));
}

#[test]
fn readings_hold_at_1920_by_1080_drawn_twice_as_large() {
    readings_hold(Seen::usual((1920, 1080), 2));
}

#[test]
fn readings_hold_at_1280_by_800_with_text_of_200_percent_and_the_loupe_open() {
    let usual = Seen::usual((1280, 800), 1);
    readings_hold(Seen { text_percent: 200, open: true, ..usual });
}

#[test]
fn readings_hold_at_1920_by_1080_with_text_of_200_percent() {
    readings_hold(Seen { text_percent: 200, ..Seen::usual((1920, 1080), 1) });
}

#[test]
fn readings_hold_at_1280_by_800_in_high_contrast() {
    readings_hold(Seen { contrast: "High", ..Seen::usual((1280, 800), 1) });
}

#[test]
fn readings_hold_at_1920_by_1080_in_high_contrast_with_text_of_200_percent_and_the_loupe_open() {
    let usual = Seen::usual((1920, 1080), 1);
    readings_hold(Seen { contrast: "High", text_percent: 200, open: true, ..usual });
}
