//! The 24-hour run in the window: timer and filter by keys and pointer, the hours that go by, the kept
//! chart, and the pages of the book.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::input::mouse::{MouseScrollUnit, MouseWheel};
use bevy::input::touch::TouchPhase;
use hands::Spot;
use sim_core::field_book::Field;
use sim_core::rig::parts::{FilterSide, Grip, Nut, PartPlace, RigPart, Trip};
use sim_core::session::action::Sight;
use sim_core::session::view::run::{RunStanding, RunView};
use window::desk::Said;
use window::scene::places::Area;
use window::scene::reach::Reach;

use super::harness::Bench;

fn digit(bench: &mut Bench, digit: char) {
    let mut one = String::new();
    one.push(digit);
    bench.press(Key::Character(one.as_str().into()), KeyCode::F35);
}

/// Does what the hand card offers in these words.
fn act(bench: &mut Bench, spot: Spot, words: &str) {
    bench.tab_to(spot);
    let offers = hands::offers(&bench.view(), spot);
    let offer = offers.iter().find(|offer| offer.words == words);
    let offer = offer.unwrap_or_else(|| panic!("{words} is not offered: {offers:?}"));
    digit(bench, offer.key);
    if matches!(bench.saying(), Said::AskAgain(_)) {
        digit(bench, offer.key);
    }
    assert!(!matches!(bench.saying(), Said::Refused(_)), "{words}: {}", bench.said());
}

fn run(bench: &Bench) -> RunView {
    *bench.view().run.expect("a run")
}

/// Leaves the site, and skips the hours until the trainee is back.
fn leave_and_come_back(bench: &mut Bench) {
    act(bench, Spot::RoofEdge, "leave the site until the run has ended");
    assert_eq!(run(bench).standing, RunStanding::Away);
    bench.tab_to_label("skip to the return");
    bench.press(Key::Enter, KeyCode::Enter);
    for _ in 0..2000 {
        if run(bench).standing == RunStanding::Back {
            bench.rest(3);
            return;
        }
        bench.rest(1);
    }
    panic!("nobody comes back");
}

#[test]
fn the_timer_is_set_by_keys() {
    let mut bench = Bench::at_run((1280, 800), 100);
    let before = run(&bench).timer;
    act(&mut bench, Spot::Tripper(Trip::On), "move it forward by a day");
    act(&mut bench, Spot::Tripper(Trip::On), "move it forward by an hour");
    bench.press(Key::ArrowDown, KeyCode::ArrowDown);
    let after = run(&bench).timer;
    assert_eq!(after.on.weekday, before.on.weekday.map(|day| (day + 1) % 7));
    assert!((after.on.hours - before.on.hours).abs() < 1e-9, "an hour on and an hour back");
    assert_eq!(after.off, before.off);
    act(&mut bench, Spot::Dial, "turn it forward by a day");
    act(&mut bench, Spot::Dial, "set the dial to the time on your watch");
    let (view, dial) = (bench.view(), run(&bench).timer);
    assert_eq!(dial.weekday, view.date.weekday());
    assert!((dial.hours - view.time.hours()).abs() < 0.02);
    act(&mut bench, Spot::Tripper(Trip::Off), "look at it closely");
    assert_eq!(bench.view().focus, Sight::Timer);
    let said = bench.value_of("off tripper").unwrap_or_default();
    assert!(said.contains("tight"), "{said}");
}

#[test]
fn the_filter_is_handled_by_keys_and_by_the_pointer() {
    let mut bench = Bench::at_run((1280, 800), 100);
    act(&mut bench, Spot::Timer, "switch the timer off");
    act(&mut bench, Spot::Cord, "pull the plug out of the mains outlet");
    bench.rest(20 * 90);
    act(&mut bench, Spot::Lid, "open the lid");
    for nut in Nut::ALL {
        act(&mut bench, Spot::Nut(nut), "unscrew it");
    }
    act(&mut bench, Spot::Frame, "take the hold-down frame");
    act(&mut bench, Spot::Ground, "lay the hold-down frame on the roof");
    act(&mut bench, Spot::Filter, "take the filter by its edges");
    act(&mut bench, Spot::Case, "put the filter into its envelope");
    act(&mut bench, Spot::Filter, "take a fresh filter by its edges");
    assert_eq!(run(&bench).filter.grip, Some(Grip::Edges));
    act(&mut bench, Spot::Filter, "hold it up to the light");
    assert!(run(&bench).filter.holes.is_some());
    act(&mut bench, Spot::Filter, "turn it over");
    assert_eq!(run(&bench).filter.up, FilterSide::Smooth);
    act(&mut bench, Spot::Filter, "turn it over");
    act(&mut bench, Spot::Holder, "put the filter on the filter holder");
    act(&mut bench, Spot::Filter, "shift it until its margins are even");

    // The pointer takes it by an edge, or in the middle with a thumb on its face.
    for (share, grip) in [(0.08, Grip::Edges), (0.5, Grip::Face)] {
        let area = Reach::of(&bench.view()).bounds(Spot::Filter).expect("it lies there");
        let mut from = area;
        from.x += area.w * share - 0.5;
        from.w = 1.0;
        // In the middle of the place that is outlined on the roof while something is carried.
        let roof = Area { x: 680.0, y: 730.0, w: 0.0, h: 0.0 };
        let (from, to) = (bench.in_scene(from), bench.in_scene(roof));
        bench.drag(from, to);
        assert_eq!(
            bench.view().mounting.place(RigPart::Filter),
            PartPlace::Ground,
            "{}",
            bench.said()
        );
        let journal = bench.journal();
        let taken = journal.lines().rfind(|line| line.contains("take_filter")).expect("taken");
        let how = format!("{grip:?}").to_lowercase();
        assert!(taken.to_lowercase().contains(&how), "{how} is meant: {taken}");
        act(&mut bench, Spot::Filter, "take the filter by its edges");
        act(&mut bench, Spot::Holder, "put the filter on the filter holder");
    }
}

#[test]
fn the_hours_go_by_are_stopped_and_asked_about() {
    let mut bench = Bench::at_run((1280, 800), 100);
    act(&mut bench, Spot::RoofEdge, "leave the site until the run has ended");
    assert_eq!(bench.label_of_focus().as_deref(), Some("pause the hours"));
    let left = bench.view().tick;
    bench.rest(30);
    let gone = bench.view().tick.seconds_since(left);
    assert!(gone > 3600.0, "only {gone} s have gone by");
    bench.press(Key::Escape, KeyCode::Escape);
    let stopped = bench.view().tick;
    bench.rest(40);
    assert_eq!(bench.view().tick, stopped, "the hours did not stop");
    assert!(bench.is_there("resume the hours"));

    bench.tab_to_label("what is visible now");
    bench.press(Key::Enter, KeyCode::Enter);
    let said = bench.value_of("seen at a glance").unwrap_or_default();
    assert!(said.contains("the blower") && said.contains("2026-05-12"), "{said}");
    // Nothing is offered to hands, but how a thing stands is told.
    bench.tab_to(Spot::Pen);
    digit(&mut bench, '1');
    assert_eq!(bench.view().focus, Sight::Station, "nobody reads the pen");
    assert!(!bench.is_there("1: read the pen"));

    bench.tab_to_label("resume the hours");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(20);
    assert!(bench.view().tick > stopped);
    for _ in 0..1200 {
        if run(&bench).standing == RunStanding::Back {
            break;
        }
        bench.rest(1);
    }
    assert_eq!(run(&bench).standing, RunStanding::Back);
    bench.rest(3);
    assert!(bench.said().contains("Thursday 2026-05-14, 08:00"), "{}", bench.said());
    assert!(!bench.is_there("skip to the return"));
    let back = bench.view().tick;
    bench.rest(20);
    assert!((bench.view().tick.seconds_since(back) - 1.0).abs() < 0.2, "time goes as usual again");
}

#[test]
fn chart_and_weather_are_read_after_the_run() {
    let mut bench = Bench::at_run((1280, 800), 100);
    leave_and_come_back(&mut bench);
    act(&mut bench, Spot::WeatherSheet, "read the weather sheet");
    assert_eq!(bench.view().focus, Sight::WeatherSheet);
    assert!(run(&bench).weather.len() >= 24);
    act(&mut bench, Spot::Door, "open the door");
    if bench.view().recorder.on_paper {
        act(&mut bench, Spot::Pen, "lift the pen off the paper");
    }
    act(&mut bench, Spot::Chart, "take the chart of the run off and keep it");
    assert!(run(&bench).kept_chart.is_some());
    act(&mut bench, Spot::KeptChart, "look at the whole chart");
    assert_eq!(bench.view().focus, Sight::Recorder);
    let whole = bench.journal().lines().count();
    for _ in 0..3 {
        bench.press(Key::ArrowUp, KeyCode::ArrowUp);
    }
    assert_eq!(bench.chart_hour(), Some(2.5), "the third hour is under the glass");
    assert_eq!(bench.journal().lines().count(), whole, "looking along the chart does nothing");

    bench.tab_to_label("volume");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(3);
    assert!(bench.on_screen().contains("2026-05-13 00:0"), "{}", bench.on_screen());
    bench.tab_to_label("Mean chart reading, divisions");
    bench.type_text("41.5");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::MeanChart).as_deref(), Some("41.5"));
}

#[test]
fn a_fast_wheel_on_the_knob_loses_no_step() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    let area = Reach::of(&bench.view()).heart(Spot::Knob).expect("the knob");
    let at = bench.in_scene(area);
    bench.point(at);
    let window = bench.window();
    for _ in 0..5 {
        bench.app.world_mut().write_message(bevy::window::WindowEvent::MouseWheel(MouseWheel {
            unit: MouseScrollUnit::Line,
            x: 0.0,
            y: -1.0,
            window,
            phase: TouchPhase::Moved,
        }));
    }
    bench.rest(4);
    let knob = bench.view().calibrator.knob;
    assert!((knob - 0.75).abs() < 1e-9, "five notches of the wheel in one frame: {knob}");
}
