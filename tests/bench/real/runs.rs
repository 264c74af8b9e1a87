//! Whole runs.

use super::hands::Hands;
use super::job;
use super::keyboard::Keyboard;
use super::pointer::Pointer;
use super::run_job;
use super::screen::Screen;
use bench_tests::program;

/// Replays what was done without any window: it comes to the same marks, and they are a pass.
fn passed(hands: &mut dyn Hands) {
    let journal = hands.screen().journal();
    let folder = hands.screen().home.path().to_owned();
    let said = program::run(&folder, &["replay", journal.to_str().expect("a path"), "--json"]);
    assert_eq!(said.status, 0, "not passed: {}{}", said.out, said.error);
}

#[test]
fn the_first_scenario_is_done_by_the_keyboard_alone() {
    let mut screen = Screen::new((1280, 800), 1);
    screen.start();
    let mut hands = Keyboard::new(screen);
    job::whole(&mut hands);
    hands.screen.keep_picture("debrief by keyboard");
    passed(&mut hands);
}

#[test]
fn the_first_scenario_is_done_by_the_pointer_alone() {
    let mut screen = Screen::new((1280, 800), 1);
    screen.start();
    let mut hands = Pointer::new(screen);
    job::whole(&mut hands);
    hands.screen.keep_picture("debrief by pointer");
    passed(&mut hands);
}

#[test]
fn a_whole_work_order_with_its_run_is_done_by_the_keyboard_alone() {
    let mut screen = Screen::new((1280, 800), 1);
    screen.start();
    let mut hands = Keyboard::new(screen);
    run_job::whole(&mut hands);
    hands.screen.keep_picture("debrief of the run");
    passed(&mut hands);
}
