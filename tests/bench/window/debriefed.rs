//! The debrief's page: the whole report, and how it is turned over.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use bevy::ui_widgets::ScrollArea;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use window::desk::lay_on_desk;
use window::ui::screen::Screen;

use super::harness::{Bench, scenarios};

/// The debrief of a scenario done by a scripted operator.
pub fn debrief(scenario: &str, operator: &str) -> Bench {
    let mut bench = Bench::at_start((1280, 800), 100);
    let text = std::fs::read_to_string(scenarios().join(scenario)).expect("a scenario");
    let mut session = Session::begin(&text, 1, Box::new(NullSink)).expect("a session");
    rehearse(&mut session, by_name(operator, 1).expect("an operator").as_mut()).expect("work");
    lay_on_desk(&mut bench.app.world_mut().commands(), Box::new(session), None);
    bench.app.world_mut().flush();
    bench.app.world_mut().resource_mut::<NextState<Screen>>().set(Screen::Bench);
    bench.rest(8);
    bench
}

#[test]
fn slips_are_told_once_with_their_points_and_their_cost() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    let shown = bench.on_screen();
    let lines: Vec<&str> = shown.lines().collect();
    assert!(lines.iter().any(|line| line.contains(", points 2, 3, 4")), "{shown}");
    assert!(lines.iter().any(|line| line.starts_with("Cost: ") && line.contains(" %")), "{shown}");
    for part in [
        "Marks",
        "Your results and the true values",
        "Findings",
        "What each slip cost",
        "Faults",
        "Timeline",
        "The session again",
    ] {
        assert!(lines.contains(&part), "{part} is missing: {shown}");
    }
    assert!(shown.contains("from your readings, every slip corrected"), "{shown}");
    assert!(shown.contains("actually sampled"), "{shown}");
    // `3. 08:41:07, points 1, 2: Read the pen at rest (data)`
    let is_finding = |line: &&str| {
        let (number, rest) = line.split_once(". ").unwrap_or_default();
        number.parse::<u8>().is_ok() && rest.contains(':')
    };
    let mut titles: Vec<&str> = lines.iter().copied().filter(is_finding).collect();
    let count = titles.len();
    assert!(count > 2, "{shown}");
    titles.sort_unstable();
    titles.dedup();
    assert_eq!(titles.len(), count, "a finding is told twice");
}

#[test]
fn faults_are_named_with_what_became_of_them() {
    let mut bench = debrief("03_a_new_blower.ron", "careful");
    let shown = bench.on_screen();
    let gasket = shown.lines().any(|line| line.contains("no gasket under the calibrator"));
    assert!(gasket, "{shown}");
    assert!(shown.lines().any(|line| line.ends_with("(found)")), "{shown}");
    assert!(shown.lines().any(|line| line.starts_with("Sign: ")), "{shown}");
    assert!(shown.lines().any(|line| line.starts_with("Yours: reported ")), "{shown}");
}

#[test]
fn the_page_opens_at_its_top_and_is_turned_by_keys() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    let top = |bench: &mut Bench| {
        let mut areas = bench.app.world_mut().query_filtered::<&ScrollPosition, With<ScrollArea>>();
        areas.iter(bench.app.world()).map(|scroll| scroll.y).fold(0.0_f32, f32::max)
    };
    assert!(top(&mut bench) < 1.0, "it opens somewhere else: {}", top(&mut bench));
    bench.press(Key::PageDown, KeyCode::PageDown);
    let page = top(&mut bench);
    assert!(page > 300.0, "Page Down goes on by {page} pixels");
    bench.press(Key::End, KeyCode::End);
    let end = top(&mut bench);
    assert!(end > page, "there is more than one page");
    bench.press(Key::Home, KeyCode::Home);
    assert!(top(&mut bench) < 1.0);
}
