//! What makes the work at the bench easy on hands and eyes: the clock stands under help and settings,
//! keys act where the focus is, and F6 goes back to the field in which one was.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::session::action::Action;
use window::desk::Desk;

use super::harness::Bench;

/// The session's own tick.
fn now(bench: &Bench) -> u64 {
    bench.app.world().resource::<Desk>().session().expect("a session").now().0
}

/// How many ticks go by while a sheet is open for a second.
fn ticks_under(bench: &mut Bench, key: Key, code: KeyCode) -> u64 {
    bench.press(key.clone(), code);
    bench.rest(2);
    let before = now(bench);
    bench.rest(20);
    let gone = now(bench) - before;
    bench.press(key, code);
    bench.rest(2);
    gone
}

#[test]
fn the_clock_of_practice_stands_under_help_and_settings() {
    let mut bench = Bench::at_work((1280, 800), 100);
    assert_eq!(ticks_under(&mut bench, Key::F1, KeyCode::F1), 0);
    assert_eq!(ticks_under(&mut bench, Key::F2, KeyCode::F2), 0);
    let before = now(&bench);
    bench.rest(20);
    assert_eq!(now(&bench) - before, 20, "without a sheet it goes on");
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(2);
    assert!(bench.on_screen().contains("The clock of the bench stands"), "{}", bench.on_screen());
}

#[test]
fn the_clock_of_a_sitting_goes_on_under_help_and_settings() {
    let mut bench = Bench::at("26_sitting.ron", (1280, 800), 100);
    assert_eq!(ticks_under(&mut bench, Key::F1, KeyCode::F1), 20);
    assert_eq!(ticks_under(&mut bench, Key::F2, KeyCode::F2), 20);
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(2);
    assert!(bench.on_screen().contains("the clock goes on"), "{}", bench.on_screen());
}

#[test]
fn f6_goes_back_to_the_field_in_which_one_was() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to_label("air");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    bench.tab_to_label("Station pressure, mmHg");
    // To the watch, to the scene, and back to the book.
    for _ in 0..3 {
        bench.press(Key::F6, KeyCode::F6);
        bench.rest(1);
    }
    assert_eq!(bench.label_of_focus().as_deref(), Some("Station pressure, mmHg"));
}

#[test]
fn digits_and_page_keys_act_where_the_focus_is() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Character("l".into()), KeyCode::KeyL);
    bench.rest(2);
    let looks = |action: &Action| matches!(action, Action::Look { .. });
    assert!(bench.done().iter().any(looks), "{:?}", bench.done());
    bench.tab_to_label("certificate");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    let done = bench.done().len();
    // A digit on a page of the book opens no lid, and the eye stays at its level.
    bench.press(Key::Character("1".into()), KeyCode::Digit1);
    bench.press(Key::PageDown, KeyCode::PageDown);
    bench.rest(4);
    let acted = bench.done().split_off(done);
    assert_eq!(acted, [], "nothing was done to the bench");
    assert!(bench.view().eye_mm.abs() < 1e-9);
    bench.tab_to(Spot::Lid);
    bench.press(Key::PageUp, KeyCode::PageUp);
    bench.rest(4);
    let raised = |action: &Action| matches!(action, Action::Look { eye_mm, .. } if *eye_mm > 9.0);
    assert!(bench.done().iter().any(raised), "in the scene it is the eye that moves");
}
