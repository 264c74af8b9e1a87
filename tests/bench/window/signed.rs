//! From the first look to the signature and back to the list.

use accesskit::{Role, Toggled};
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use hands::{Spot, offers};
use sim_core::field_book::Field;
use sim_core::session::action::{
    Action, FaultKind, FaultPlace, FaultReport, Response, SuspectedCause,
};
use window::desk::{Reports, Said, Seen};
use window::panels::field_book::{ReportRequest, SIGN, SIGN_AGAIN};
use window::ui::told::told;

use super::harness::Bench;

#[test]
fn the_book_is_signed_only_on_the_second_asking_and_then_marked() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("refused");
    bench.click("write the decision");
    assert_eq!(bench.written(Field::Decision).as_deref(), Some("refused"));
    bench.click(SIGN);
    assert!(bench.is_there(SIGN_AGAIN));
    // Doing something else takes the hand off the pen.
    bench.click("accepted");
    assert!(!bench.is_there(SIGN_AGAIN));
    bench.click(SIGN);
    bench.click(SIGN_AGAIN);
    bench.rest(8);
    let shown = bench.on_screen();
    assert!(shown.contains("Debrief") && shown.contains("Not passed"), "{shown}");
    assert!(shown.contains("Journal, head of its chain"), "{shown}");
    assert!(!bench.app.world().contains_resource::<Seen>(), "the session is off the desk");
    bench.click("back to the scenarios");
    bench.rest(4);
    let shown = bench.on_screen();
    assert!(shown.contains("First calibration"), "{shown}");
    assert!(!shown.contains("Continue"), "a signed session is not gone on with");
}

#[test]
fn the_button_that_asks_again_is_seen_whole() {
    for percent in [100, 200] {
        let mut bench = Bench::at_work((1280, 800), percent);
        bench.click("remarks");
        bench.tab_to_label(SIGN);
        bench.press(Key::Enter, KeyCode::Enter);
        bench.rest(4);
        assert!(bench.is_there(SIGN_AGAIN));
        let focus = bench.app.world().resource::<InputFocus>().get().expect("a focus");
        let height = bench.app.world().get::<ComputedNode>(focus).expect("a place").size().y;
        let told = told(bench.app.world_mut());
        let seen = told.iter().find(|one| one.focus).and_then(|one| one.seen);
        let [_, top, _, foot] = seen.expect("it is seen");
        assert!(foot - top >= height - 1.0, "{percent} %: {top} to {foot} of {height}");
    }
}

#[test]
fn a_signature_that_was_asked_for_once_is_forgotten_when_something_else_is_gone_to() {
    let leave: [fn(&mut Bench); 4] = [
        |bench| bench.press(Key::Escape, KeyCode::Escape),
        |bench| bench.press(Key::Tab, KeyCode::Tab),
        |bench| bench.click("barometer"),
        |bench| {
            bench.click("air");
            bench.click("remarks");
        },
    ];
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    for leave in leave {
        bench.click(SIGN);
        assert!(bench.is_there(SIGN_AGAIN));
        leave(&mut bench);
        assert!(bench.is_there(SIGN), "it is still to be signed with one press");
    }
    assert!(!bench.done().contains(&Action::Sign));
}

#[test]
fn one_digit_neither_ends_the_session_nor_leaves_the_site() {
    let mut bench = Bench::at_run((1280, 800), 100);
    bench.tab_to(Spot::RoofEdge);
    let list = offers(&bench.view(), Spot::RoofEdge);
    let ends = |action: &Action| matches!(action, Action::LeaveRoof | Action::LeaveSite);
    let grave = list.iter().filter(|offer| ends(&offer.action)).count();
    assert_eq!(grave, 2, "leaving is not offered");
    for offer in list.iter().filter(|offer| ends(&offer.action)) {
        let key = Key::Character(offer.key.to_string().into());
        bench.press(key.clone(), KeyCode::F35);
        assert!(matches!(bench.saying(), Said::AskAgain(_)), "{:?}", bench.saying());
        // Going elsewhere and back makes it a first press again.
        bench.press(Key::Tab, KeyCode::Tab);
        assert_eq!(bench.saying(), Said::Nothing);
        bench.tab_to(Spot::RoofEdge);
        bench.press(key, KeyCode::F35);
        assert!(!bench.done().iter().any(ends), "one press was enough");
        bench.press(Key::Escape, KeyCode::Escape);
    }
    let leave = list.iter().find(|offer| offer.action == Action::LeaveSite).expect("it is offered");
    for _ in 0..2 {
        bench.press(Key::Character(leave.key.to_string().into()), KeyCode::F35);
    }
    assert!(bench.done().contains(&Action::LeaveSite), "{}", bench.said());
}

#[test]
fn a_report_needs_a_place_a_suspicion_and_what_was_done() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    let words = "what you suspect, in your words";
    for next in ["tubing", "something else", words, "put right"] {
        bench.click("report it");
        assert!(matches!(bench.saying(), Said::Notice(_)), "{:?} before {next}", bench.saying());
        bench.click(next);
        if next == words {
            bench.type_text("chewed");
        }
    }
    assert!(bench.app.world().resource::<Reports>().0.is_empty());
    bench.click("report it");
    let reports = bench.app.world().resource::<Reports>().0.clone();
    let [report] = reports.as_slice() else { panic!("{reports:?}") };
    let cause = SuspectedCause::SomethingElse("chewed".to_owned());
    let expected = (FaultPlace::Tube, &cause, Response::Repaired);
    assert_eq!((report.place, &report.cause, report.response), expected);
    assert!(bench.on_screen().contains("tubing: chewed (put right)"));
    assert!(!bench.is_there(words), "the next report begins anew");
}

#[test]
fn what_can_be_suspected_is_what_can_be_wrong_at_the_place() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    for place in FaultPlace::ALL {
        bench.app.world_mut().write_message(ReportRequest::Place(place));
        bench.rest(4);
        for kind in FaultKind::ALL {
            let title = kind.sheet().title;
            assert_eq!(bench.is_there(title), kind.place() == place, "{title} at {place:?}");
        }
        assert!(bench.is_there("not known yet") && bench.is_there("something else"));
    }
}

#[test]
fn a_report_is_made_by_keys_and_a_reader_is_told_what_is_chosen() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to_label("remarks");
    bench.press(Key::Enter, KeyCode::Enter);
    for choice in ["recorder and chart", "a sticking pen"] {
        bench.tab_to_label(choice);
        bench.press(Key::Enter, KeyCode::Enter);
        let (entity, node) = bench.node_of(choice).expect("it is told");
        assert_eq!(node.toggled(), Some(Toggled::True), "{choice}");
        let group = bench.app.world().get::<ChildOf>(entity).expect("a group").parent();
        let group = bench.app.world().get::<AccessibilityNode>(group).expect("it is told");
        assert_eq!(group.role(), Role::RadioGroup, "{choice}");
    }
    let (_, other) = bench.node_of("a dry pen").expect("it is told");
    assert_eq!(other.toggled(), Some(Toggled::False));
    bench.tab_to_label("what you saw, heard or felt");
    bench.type_text("no wiggle");
    for choice in ["noted only", "report it"] {
        bench.tab_to_label(choice);
        bench.press(Key::Enter, KeyCode::Enter);
    }
    let report = FaultReport {
        place: FaultPlace::Recorder,
        cause: SuspectedCause::Known(FaultKind::PenSticks),
        seen: "no wiggle".to_owned(),
        shown_by: Vec::new(),
        response: Response::Noted,
    };
    assert!(bench.done().contains(&Action::Report(report)), "{}", bench.said());
}

#[test]
fn what_was_suspected_elsewhere_is_not_suspected_here() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    for choice in ["tubing", "kinked tubing", "noted only", "filter", "report it"] {
        bench.click(choice);
    }
    assert!(matches!(bench.saying(), Said::Notice(_)), "{:?}", bench.saying());
    assert!(bench.app.world().resource::<Reports>().0.is_empty());
}

#[test]
fn what_is_not_sent_yet_stays_when_the_page_is_turned() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("tubing");
    bench.click("what you saw, heard or felt");
    bench.type_text("a kink");
    bench.click("refused");
    bench.click("reason for the decision");
    bench.type_text("the tube");
    bench.click("air");
    bench.click("remarks");
    let seen = bench.value_of("what you saw, heard or felt");
    assert_eq!(seen.as_deref(), Some("a kink"));
    assert_eq!(bench.value_of("reason for the decision").as_deref(), Some("the tube"));
    for choice in ["kinked tubing", "noted only", "report it"] {
        bench.click(choice);
    }
    assert_eq!(bench.app.world().resource::<Reports>().0.len(), 1, "{}", bench.said());
    bench.click("write the decision");
    assert_eq!(bench.written(Field::Decision).as_deref(), Some("refused: the tube"));
}
