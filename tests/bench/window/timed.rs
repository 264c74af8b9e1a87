//! A scenario with a time limit and without help, from a folder of its own.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::session::action::{Action, HelpTopic};
use sim_core::session::clock::{ClockEvent, pauses};
use sim_core::session::ending::Ending;
use sim_core::session::journal::{JournalLine, NullSink, read};
use sim_core::session::replay::replay;
use window::desk::Desk;
use window::panels::field_book::{PlotRequest, SIGN, SIGN_AGAIN};
use window::panels::help::HelpRequest;

use super::harness::{Bench, journal_in, scenarios};

/// A folder with the first scenario as a timed one: twenty minutes, no help of any kind.
fn timed_scenario() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let text = std::fs::read_to_string(scenarios().join("01_first_calibration.ron"));
    let text = text.expect("a scenario");
    let terms = "terms: (sums: true,";
    assert!(text.contains(terms), "the scenario's terms were written anew");
    let timed =
        text.replace(terms, "terms: (help: false, sums: false, plot: false, time_limit_min: 20,");
    std::fs::write(folder.path().join("timed.ron"), timed).expect("a file");
    folder
}

fn at_work(data: tempfile::TempDir, folder: &tempfile::TempDir) -> Bench {
    let mut bench = Bench::opened(data, folder.path().to_owned(), (1280, 800), 100);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(6);
    bench
}

fn data() -> tempfile::TempDir {
    tempfile::tempdir().expect("a folder")
}

/// Lets so many minutes pass on the watch.
fn pass(bench: &mut Bench, minutes: u32) {
    for _ in 0..minutes {
        bench.click("1 min");
        for _ in 0..2000 {
            let busy = bench.app.world().get_resource::<Desk>().is_some_and(Desk::is_busy);
            if !busy {
                break;
            }
            bench.rest(1);
        }
    }
}

#[test]
fn the_watch_shows_and_speaks_what_is_left() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    let shown = bench.on_screen();
    assert!(shown.contains("19:5"), "{shown}");
    assert!(shown.contains(" left"), "{shown}");
    let spoken = bench.value_of("time on the bench").unwrap_or_default();
    assert!(spoken.starts_with("19 minutes") && spoken.ends_with(" left"), "{spoken}");
    pass(&mut bench, 16);
    let said = bench.value_of("time left").unwrap_or_default();
    assert_eq!(said, "less than 5 minutes are left");
    assert!(bench.on_screen().contains("less than 5 minutes are left"));
}

#[test]
fn help_stays_away_and_so_does_the_truth() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(3);
    assert!(bench.on_screen().contains("done without help"), "it says so");
    for label in ["what now", "why", "show me", "do the calculations"] {
        assert!(!bench.is_there(label), "{label} is offered");
    }
    bench.press(Key::F1, KeyCode::F1);
    bench.click("line");
    assert!(!bench.is_there("plot my points"));
    // Even asked for past the buttons, nothing is told and nothing is shown.
    for topic in [HelpTopic::ShowMe, HelpTopic::WhatNow, HelpTopic::Sums, HelpTopic::Plot] {
        let world = bench.app.world_mut();
        if topic == HelpTopic::Plot {
            world.write_message(PlotRequest);
        } else {
            world.write_message(HelpRequest(topic));
        }
        bench.rest(4);
        assert!(bench.app.world().resource::<Desk>().showing().is_none());
        assert!(bench.said().contains("does not allow that kind of help"), "{}", bench.said());
    }
    let asked = read(&bench.journal()).expect("it holds").lines;
    assert!(
        !asked.iter().any(|(_, line)| matches!(
            line,
            JournalLine::Act { action: Action::AskHelp { .. }, .. }
        ))
    );
    let shown = bench.on_screen();
    for truth in ["Debrief", "actually sampled", "fault-free"] {
        assert!(!shown.contains(truth), "{truth} is told before the signature");
    }
}

#[test]
fn time_running_out_signs_what_is_there() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.type_text("761");
    bench.press(Key::Enter, KeyCode::Enter);
    pass(&mut bench, 20);
    bench.rest(8);
    let shown = bench.on_screen();
    assert!(shown.contains("Debrief"), "{shown}");
    assert!(shown.contains("Time ran out after 20 min on the bench"), "{shown}");
    let text = bench.journal();
    let replayed = replay(&text, Box::new(NullSink)).expect("it replays").session;
    assert_eq!(replayed.ended(), Some(Ending::TimeOut));
    assert_eq!(
        replayed.book().text(sim_core::field_book::Field::Pressure),
        Some("761"),
        "what was written counts"
    );
    let clock = replayed.clock();
    let what: Vec<ClockEvent> = clock.iter().map(|note| note.what).collect();
    assert_eq!(what, [ClockEvent::Begun, ClockEvent::Ended], "start and end");
    assert_eq!(clock[1].why, "Time ran out");
    assert!(clock[0].unix_s > 1_700_000_000 && clock[1].unix_s >= clock[0].unix_s);
    let sealed = read(&text).expect("it holds").lines.into_iter().any(
        |(_, line)| matches!(line, JournalLine::Sealed { ending: Ending::TimeOut, tick, .. } if tick.whole_seconds() == 1200),
    );
    assert!(sealed, "the seal says when and why");
}

#[test]
fn a_pause_stands_in_the_journal_and_the_bench_s_time_stands_still() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Enter, KeyCode::Enter);
    pass(&mut bench, 3);
    bench.rest(7);
    let (before, tick) = (bench.view(), bench.view().tick);
    let folder = bench.close();
    let text = journal_in(folder.path());
    let Some((_, JournalLine::Clock(left))) = read(&text).expect("it holds").lines.pop() else {
        panic!("the last line is not that the bench was left");
    };
    assert_eq!((left.what, left.why.as_str()), (ClockEvent::Left, "the window was closed"));
    assert!(left.tick.0 >= tick.0 && left.tick.0 <= tick.0 + 3, "{left:?}");

    let mut bench = Bench::opened(folder, scenario.path().to_owned(), (1280, 800), 100);
    assert!(bench.on_screen().contains("Continue"));
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    let view = bench.view();
    assert!(view.mounting.lid_open);
    assert!(view.tick.0 >= left.tick.0 && view.tick.0 < left.tick.0 + 20, "{}", view.tick.0);
    let (then, now) = (before.seconds_left.unwrap(), view.seconds_left.unwrap());
    assert!((0.0..1.2).contains(&(then - now)), "{then} s were left, now {now}");
    bench.click("remarks");
    bench.click(SIGN);
    bench.click(SIGN_AGAIN);
    bench.rest(8);
    let shown = bench.on_screen();
    assert!(shown.contains("Signed after 3 min on the bench"), "{shown}");
    assert!(shown.contains("You left the bench once, for 0 min"), "{shown}");
    let session = replay(&bench.journal(), Box::new(NullSink)).expect("it replays").session;
    let what: Vec<ClockEvent> = session.clock().iter().map(|note| note.what).collect();
    assert_eq!(what, [ClockEvent::Begun, ClockEvent::Left, ClockEvent::Resumed, ClockEvent::Ended]);
    assert!(pauses(session.clock())[0].is_some_and(|seconds| seconds < 60));
}

#[test]
fn a_program_that_was_stopped_is_gone_on_with_and_that_is_said() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Enter, KeyCode::Enter);
    let Bench { app, folder, .. } = bench;
    drop(app);
    let mut bench = Bench::opened(folder, scenario.path().to_owned(), (1280, 800), 100);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    assert!(bench.view().mounting.lid_open);
    let lines = read(&bench.journal()).expect("it holds").lines;
    let resumed = lines.iter().find_map(|(_, line)| match line {
        JournalLine::Clock(note) if note.what == ClockEvent::Resumed => Some(note.why.clone()),
        _ => None,
    });
    assert!(resumed.is_some_and(|why| why.contains("had stopped without leaving")));
}

#[test]
fn a_bench_that_was_left_is_on_the_list_and_gone_on_with() {
    let scenario = timed_scenario();
    let mut bench = at_work(data(), &scenario);
    bench.tab_to(Spot::Lid);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(2);
    bench.click("leave the bench and keep the session");
    bench.rest(4);
    assert!(bench.on_screen().contains("Continue"), "{}", bench.on_screen());
    let lines = read(&bench.journal()).expect("it holds").lines;
    let left = lines.iter().any(|(_, line)| match line {
        JournalLine::Clock(note) => {
            note.what == ClockEvent::Left && note.why == "the bench was left"
        }
        _ => false,
    });
    assert!(left, "the journal says that the bench was left");
    // The session that was broken off has the focus.
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(4);
    assert!(bench.view().mounting.lid_open);
}
