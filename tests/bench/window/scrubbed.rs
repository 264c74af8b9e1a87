//! The session gone through again in the debrief: by keys, by the pointer, from a finding.

use std::time::{Duration, Instant};

use accesskit::{Action as Asked, ActionRequest as Request, NodeId, TreeId};
use bevy::a11y::ActionRequest;
use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyCode, KeyboardInput};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use bevy::window::PrimaryWindow;
use report::files::object;
use report::session::SessionReport;
use sessions::mark_ended;
use sim_core::operator::{by_name, rehearse};
use sim_core::session::Session;
use sim_core::session::journal::NullSink;
use sim_core::session::replay::replay;
use sim_core::session::view::View;
use sim_core::time::Tick;
use window::pages::debrief::{ScrubRequest, Scrubbed};
use window::scene::pictures::Source as _;

use super::debriefed::debrief;
use super::harness::{Bench, scenarios};

const STRIP: &str = "time in the session";

/// The longest that a moment may take to come, as the program is shipped; built for tests it is
/// slower by far.
const MOST: Duration = Duration::from_millis(if cfg!(debug_assertions) { 600 } else { 100 });

/// The tick that is shown.
fn at(bench: &Bench) -> Tick {
    bench.app.world().resource::<Scrubbed>().scrub().at()
}

fn end(bench: &Bench) -> Tick {
    bench.app.world().resource::<Scrubbed>().scrub().track().end()
}

fn view(bench: &Bench) -> View {
    bench.app.world().resource::<Scrubbed>().view().clone()
}

/// Presses a key while Shift is held.
fn with_shift(bench: &mut Bench, logical_key: Key, key_code: KeyCode) {
    let shift = |bench: &mut Bench, state| {
        let world = bench.app.world_mut();
        let mut windows = world.query_filtered::<Entity, With<PrimaryWindow>>();
        let window = windows.single(world).expect("a window");
        world.write_message(KeyboardInput {
            key_code: KeyCode::ShiftLeft,
            logical_key: Key::Shift,
            state,
            text: None,
            repeat: false,
            window,
        });
        bench.rest(1);
    };
    shift(bench, ButtonState::Pressed);
    bench.press(logical_key, key_code);
    shift(bench, ButtonState::Released);
}

#[test]
fn keys_go_through_the_session_coarsely_finely_and_from_mark_to_mark() {
    let mut bench = debrief("03_a_new_blower.ron", "hurried");
    bench.tab_to_label(STRIP);
    bench.press(Key::Home, KeyCode::Home);
    assert_eq!(at(&bench), Tick(0));
    let start = bench.value_of(STRIP).expect("a value");
    assert!(start.ends_with(", arrive"), "{start}");
    for (key, code, seconds) in [
        (Key::PageUp, KeyCode::PageUp, 600),
        (Key::ArrowUp, KeyCode::ArrowUp, 660),
        (Key::ArrowRight, KeyCode::ArrowRight, 670),
        (Key::ArrowLeft, KeyCode::ArrowLeft, 660),
        (Key::ArrowDown, KeyCode::ArrowDown, 600),
    ] {
        bench.press(key.clone(), code);
        assert_eq!(at(&bench), Tick::from_seconds(seconds), "{key:?}");
    }
    with_shift(&mut bench, Key::ArrowRight, KeyCode::ArrowRight);
    assert_eq!(at(&bench), Tick::from_seconds(601));
    bench.press(Key::PageDown, KeyCode::PageDown);
    assert_eq!(at(&bench), Tick::from_seconds(1));
    bench.press(Key::End, KeyCode::End);
    assert_eq!(at(&bench), end(&bench));
    bench.press(Key::Home, KeyCode::Home);
    let notes: Vec<Tick> = {
        let scrubbed = bench.app.world().resource::<Scrubbed>();
        scrubbed.scrub().line().notes.iter().map(|note| note.tick).collect()
    };
    bench.press(Key::Character("n".into()), KeyCode::KeyN);
    assert_eq!(Some(&at(&bench)), notes.first());
    assert!(bench.on_screen().lines().any(|line| line.starts_with("Reading: ")
        || line.starts_with("Finding: ")
        || line.starts_with("Reported ")));
    bench.press(Key::Character("n".into()), KeyCode::KeyN);
    bench.press(Key::Character("p".into()), KeyCode::KeyP);
    assert_eq!(Some(&at(&bench)), notes.first());
}

#[test]
fn the_moment_shown_is_the_one_that_was() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.rest(40);
    bench.sign();
    // Before the debrief nobody has a track: it is made of the session that was signed.
    let journal = bench.journal();
    bench.tab_to_label(STRIP);
    bench.press(Key::End, KeyCode::End);
    let session = replay(&journal, Box::new(NullSink)).expect("it holds").session;
    assert_eq!(view(&bench), session.view());
}

#[test]
fn what_was_true_is_shown_on_asking_and_hidden_again() {
    let mut bench = debrief("03_a_new_blower.ron", "hurried");
    let truth = |bench: &mut Bench| bench.on_screen().lines().any(|line| line == "true values");
    assert!(bench.on_screen().lines().any(|line| line == "visible"));
    assert!(!truth(&mut bench));
    bench.tab_to_label(STRIP);
    bench.press(Key::Character("t".into()), KeyCode::KeyT);
    assert!(truth(&mut bench), "{}", bench.on_screen());
    assert!(bench.on_screen().lines().any(|line| line == "faults present"));
    bench.tab_to_label("hide the true values");
    bench.press(Key::Enter, KeyCode::Enter);
    assert!(!truth(&mut bench));
    assert_eq!(bench.label_of_focus().as_deref(), Some("show the true values"));
}

#[test]
fn a_finding_is_opened_at_its_moment() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    let shown = bench.on_screen();
    let heading = shown.lines().find(|line| line.starts_with("2. ")).expect("a second finding");
    // `2  08:41:07, point 1: ...`
    let time = heading.trim_start_matches("2. ").get(..8).expect("a time").to_owned();
    bench.tab_to_label("finding 2: show this moment");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.label_of_focus().as_deref(), Some(STRIP), "the moment is shown there");
    let value = bench.value_of(STRIP).expect("a value");
    assert!(value.starts_with(&time), "{heading}: {value}");
    assert!(bench.on_screen().lines().any(|line| line.starts_with("Finding: ")));
}

#[test]
fn the_pointer_and_a_reader_choose_a_moment() {
    let mut bench = debrief("01_first_calibration.ron", "hurried");
    bench.tab_to_label(STRIP);
    bench.rest(4);
    bench.press(Key::Home, KeyCode::Home);
    let middle = bench.place_of(STRIP);
    bench.point(middle);
    bench.button(ButtonState::Pressed);
    let pressed = at(&bench);
    let whole = end(&bench).0 as f64;
    assert!((0.35..0.55).contains(&(pressed.0 as f64 / whole)), "{pressed:?} of {whole}");
    bench.point(middle + Vec2::new(200.0, 0.0));
    bench.button(ButtonState::Released);
    let dragged = at(&bench);
    assert!(dragged > pressed);
    let focus = bench.app.world().resource::<InputFocus>().get().expect("a focus");
    bench.app.world_mut().write_message(ActionRequest(Request {
        action: Asked::Increment,
        target_tree: TreeId::ROOT,
        target_node: NodeId(focus.to_bits()),
        data: None,
    }));
    bench.rest(3);
    assert_eq!(at(&bench).0, dragged.0 + 200);
}

#[test]
fn a_session_that_has_ended_is_opened_again_from_the_list() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.sign();
    bench.tab_to_label("back to the scenarios");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    assert!(bench.on_screen().contains("Past sessions"), "{}", bench.on_screen());
    let button = bench
        .on_screen()
        .lines()
        .find(|line| line.starts_with("1. ") && line.contains(", rig 1, "))
        .map(str::to_owned)
        .expect("the session");
    bench.tab_to_label(&button);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(6);
    assert!(bench.on_screen().contains("Debrief"));
    assert!(bench.is_there(STRIP));
}

#[test]
fn any_moment_is_soon_on_the_screen() {
    let mut bench = debrief("01_first_calibration.ron", "careful");
    bench.tab_to_label(STRIP);
    bench.press(Key::Home, KeyCode::Home);
    // What the machine does besides is not counted: the quickest of three rounds.
    let mut took = vec![Duration::MAX; 60];
    for _ in 0..3 {
        for (number, took) in (0_u64..).zip(took.iter_mut()) {
            let begun = Instant::now();
            // The moment, its pictures, and the words beside them: laid out in the second frame.
            let tick = Tick(number * end(&bench).0 / 59);
            bench.app.world_mut().write_message(ScrubRequest::At(tick));
            bench.rest(2);
            *took = begun.elapsed().min(*took);
            assert_eq!(at(&bench), tick);
        }
    }
    took.sort_unstable();
    assert!(
        took[30] < MOST,
        "a moment on the screen: median {:?}, 90 % {:?}, most {:?}",
        took[30],
        took[54],
        took[59]
    );
}

#[test]
fn the_figures_of_the_page_are_those_of_the_json_object() {
    let mut bench = debrief("03_a_new_blower.ron", "hurried+one-leg");
    let shown = bench.on_screen();
    let object = {
        let text = std::fs::read_to_string(scenarios().join("03_a_new_blower.ron"));
        let mut session =
            Session::begin(&text.expect("a scenario"), 1, Box::new(NullSink)).expect("a session");
        let mut operator = by_name("hurried+one-leg", 1).expect("an operator");
        rehearse(&mut session, operator.as_mut()).expect("work");
        let ended = mark_ended(session).expect("its end");
        object(&SessionReport::of(&ended, None))
    };
    let lines: Vec<&str> = shown.lines().collect();
    let figures = object["figures"].as_array().expect("figures");
    assert!(figures.len() > 20, "{}", figures.len());
    for figure in figures {
        let (row, text) = (figure["row"].as_str(), figure["text"].as_str());
        let (row, text) = (row.expect("a row"), text.expect("a text"));
        // Cells follow their row's name, one text each.
        let rows = lines.iter().enumerate().filter(|(_, line)| **line == row);
        let found = rows
            .map(|(at, _)| at)
            .any(|at| lines.iter().skip(at + 1).take(4).any(|cell| *cell == text));
        assert!(found, "{row}: {text} is not on the page:\n{shown}");
    }
}

#[test]
fn the_report_is_saved_where_the_page_says() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.sign();
    bench.tab_to_label("save the report for printing");
    bench.press(Key::Enter, KeyCode::Enter);
    let said = bench.value_of("saved").expect("what became of it");
    let folder = said.trim_start_matches("Saved in ").split(": ").next().expect("a folder");
    let folder = std::path::Path::new(folder);
    assert!(folder.starts_with(bench.folder()), "{said}");
    for file in report::files::FILES {
        let bytes = std::fs::metadata(folder.join(file)).expect("the file").len();
        assert!(bytes > 0, "{file} is empty");
    }
}
