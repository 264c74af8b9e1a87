//! The debrief's page: the whole report, and how it is turned over.

use accesskit::Role;
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use bevy::ui_widgets::ScrollArea;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use sim_core::time::Tick;
use window::desk::lay_on_desk;
use window::pages::debrief::{PAUSE, PLAY, ScrubRequest, Scrubbed};
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
        "Replay of the session",
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

#[test]
fn the_contents_bring_each_section_to_the_top() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    let place = |bench: &mut Bench, words: &str| {
        let mut nodes = bench.app.world_mut().query::<(&AccessibilityNode, &UiGlobalTransform)>();
        let is =
            |node: &AccessibilityNode| node.role() == Role::Heading && node.label() == Some(words);
        let found = nodes.iter(bench.app.world()).find(|(node, _)| is(node));
        found.map(|(_, place)| place.translation.y).expect("a heading")
    };
    assert!(place(&mut bench, "Findings") > 800.0, "it is farther down");
    let mut nodes = bench.app.world_mut().query::<(Entity, &AccessibilityNode)>();
    let is =
        |node: &AccessibilityNode| node.role() == Role::Button && node.label() == Some("Findings");
    let button = nodes.iter(bench.app.world()).find(|(_, node)| is(node)).map(|(entity, _)| entity);
    bench.ask_as_reader(button.expect("a button in the contents"), accesskit::Action::Click);
    bench.rest(3);
    let y = place(&mut bench, "Findings");
    assert!((0.0..80.0).contains(&y), "it stands at {y}");
}

#[test]
fn a_session_is_played_and_paused() {
    let mut bench = debrief("01_first_calibration.ron", "careful");
    let at = |bench: &Bench| bench.app.world().resource::<Scrubbed>().scrub().at();
    bench.app.world_mut().write_message(ScrubRequest::At(Tick(0)));
    bench.rest(3);
    bench.click(PLAY);
    bench.rest(20);
    let (played, began) = (at(&bench), Tick(0));
    assert!(played > began, "it is played");
    bench.click("300 times");
    let before = at(&bench);
    bench.rest(20);
    let faster = at(&bench).0 - before.0;
    assert!(faster > 2 * played.0, "{faster} ticks against {}", played.0);
    bench.click(PAUSE);
    let stands = at(&bench);
    bench.rest(20);
    assert_eq!(at(&bench), stands, "it is paused");
    bench.click(PLAY);
    bench.rest(3);
    bench.app.world_mut().write_message(ScrubRequest::Next);
    bench.rest(3);
    let gone_to = at(&bench);
    bench.rest(20);
    assert_eq!(at(&bench), gone_to, "whoever goes to a moment looks at it");
}

#[test]
fn a_second_session_is_set_beside_the_first() {
    const HEADING: &str = "Beside your earlier sessions";
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.sign();
    assert!(!bench.on_screen().contains(HEADING), "there is none before it");
    bench.click("back to the scenarios");
    bench.rest(8);
    let card = bench.first_that_begins("First calibration");
    bench.click(&card);
    bench.rest(8);
    bench.sign();
    let shown = bench.on_screen();
    assert!(shown.contains(HEADING), "{shown}");
    assert!(shown.contains("as many as the time before"), "{shown}");
}
