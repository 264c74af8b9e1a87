//! From the first look to the signature and back to the list.

use bevy::input::keyboard::{Key, KeyCode};
use hands::{Spot, offers};
use sim_core::field_book::Field;
use sim_core::session::action::{Action, FaultPlace, Response};
use window::desk::{Reports, Said, Seen};
use window::panels::field_book::{SIGN, SIGN_AGAIN};

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
fn a_report_needs_a_place_words_and_what_was_done() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    for next in ["tube", "what is wrong, in your words", "put right"] {
        bench.click("report it");
        assert!(matches!(bench.saying(), Said::Notice(_)), "{:?} before {next}", bench.saying());
        bench.click(next);
        if next == "what is wrong, in your words" {
            bench.type_text("kinked");
        }
    }
    assert!(bench.app.world().resource::<Reports>().0.is_empty());
    bench.click("report it");
    let reports = bench.app.world().resource::<Reports>().0.clone();
    let [report] = reports.as_slice() else { panic!("{reports:?}") };
    let whole = (report.place, report.what.as_str(), report.response);
    assert_eq!(whole, (FaultPlace::Tube, "kinked", Response::Repaired));
    assert!(bench.on_screen().contains("tube: kinked (put right)"));
    assert_eq!(bench.value_of("what is wrong, in your words").as_deref(), Some(""));
}

#[test]
fn what_is_not_sent_yet_stays_when_the_page_is_turned() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    bench.click("tube");
    bench.click("what is wrong, in your words");
    bench.type_text("a kink");
    bench.click("refused");
    bench.click("reason for the decision");
    bench.type_text("the tube");
    bench.click("air");
    bench.click("remarks");
    let what = bench.value_of("what is wrong, in your words");
    assert_eq!(what.as_deref(), Some("a kink"));
    assert_eq!(bench.value_of("reason for the decision").as_deref(), Some("the tube"));
    bench.click("noted only");
    bench.click("report it");
    assert_eq!(bench.app.world().resource::<Reports>().0.len(), 1, "{}", bench.said());
    bench.click("write the decision");
    assert_eq!(bench.written(Field::Decision).as_deref(), Some("refused: the tube"));
}
