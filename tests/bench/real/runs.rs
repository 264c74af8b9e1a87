//! Whole runs.

#![allow(
    clippy::print_stdout,
    reason = "how many keys and presses it took is there to be looked at"
)]

use super::hands::Hands;
use super::job;
use super::keyboard::Keyboard;
use super::pointer::Pointer;
use super::screen::Screen;
use super::{run_back, run_job};
use bench_tests::program;

/// Most keys that the first scenario takes, typing included.
const MOST_KEYS: u32 = 499;
/// Most presses of the pointer's button that it takes: two for each number that is slid to, and one for each
/// sign that is pressed on the keypad.
const MOST_PRESSES: u32 = 340;

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
    let keys = hands.tally.borrow().all();
    println!("the first scenario took {keys} keys:\n{}", hands.tally.borrow().spent());
    passed(&mut hands);
    assert!(keys <= MOST_KEYS, "{keys} keys");
}

#[test]
fn the_first_scenario_is_done_by_the_pointer_alone() {
    let mut screen = Screen::new((1280, 800), 1);
    screen.start();
    let mut hands = Pointer::new(screen);
    job::whole(&mut hands);
    hands.screen.keep_picture("debrief by pointer");
    let presses = hands.tally.borrow().all();
    println!("the first scenario took {presses} presses:\n{}", hands.tally.borrow().spent());
    passed(&mut hands);
    assert!(presses <= MOST_PRESSES, "{presses} presses");
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

/// A careful operator's session up to where the site is left, as if the program had been killed there.
fn left_to_its_run(screen: &Screen) {
    let folder = screen.home.path().to_owned();
    let scenario = bench_tests::repository().join("scenarios/27_from_set_point_to_volume.ron");
    let scenario = scenario.to_str().expect("a path");
    let said = program::run(&folder, &["rehearse", scenario, "--seed", "2", "--out", "careful"]);
    assert_eq!(said.status, 0, "not rehearsed: {}{}", said.out, said.error);
    let whole = std::fs::read_to_string(folder.join("careful/session.journal")).expect("a journal");
    let end = whole.find("action:leave_site").expect("the site is left");
    let end = end + whole[end..].find('\n').expect("the end of its line") + 1;
    std::fs::create_dir_all(screen.journals()).expect("the folder of the journals");
    let broken_off = screen.journals().join("27_from_set_point_to_volume-1-0.journal");
    std::fs::write(broken_off, &whole[..end]).expect("it is written");
}

#[test]
fn a_run_is_come_back_to_and_its_volume_signed_by_the_keyboard_alone() {
    let mut screen = Screen::new((1280, 800), 1);
    left_to_its_run(&screen);
    screen.start();
    let mut hands = Keyboard::new(screen);
    hands.resume("From set point to volume");
    run_back::rest(&mut hands);
    hands.screen.keep_picture("debrief of the run");
    passed(&mut hands);
}
