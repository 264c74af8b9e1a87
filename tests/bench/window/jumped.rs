//! Where the focus is: it stays where work is, jumps where a key says, and no sheet loses it.

use bevy::input::keyboard::{Key, KeyCode};
use hands::Spot;
use sim_core::rig::parts::Leg;

use super::harness::Bench;

const SIZE: (u32, u32) = (1280, 800);

fn letter(bench: &mut Bench, letter: &str) {
    bench.press(Key::Character(letter.into()), KeyCode::F35);
}

#[test]
fn a_letter_goes_to_its_instrument_and_is_typed_where_something_is_typed() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.mount_calibrator();
    bench.tab_to(Spot::Manometer);
    for _ in 0..2 {
        bench.press(Key::Enter, KeyCode::Enter);
    }
    for (key, spot) in [
        ("m", Spot::Manometer),
        ("g", Spot::Leg(Leg::Left)),
        ("g", Spot::Leg(Leg::Right)),
        ("p", Spot::Pen),
        ("r", Spot::Recorder),
        ("k", Spot::Knob),
        ("B", Spot::BlowerPlug),
        ("w", Spot::WorkOrder),
    ] {
        letter(&mut bench, key);
        assert_eq!(bench.at_hand(), Some(spot), "{key}");
    }
    bench.tab_to_label("remarks");
    letter(&mut bench, "p");
    assert_eq!(bench.at_hand(), Some(Spot::Pen), "from a button in the book too");
    bench.click("remarks");
    bench.click("Remarks");
    letter(&mut bench, "p");
    assert_eq!(bench.label_of_focus().as_deref(), Some("Remarks"), "it is typed");
    // What is not there is not gone to.
    let mut bench = Bench::at_work(SIZE, 100);
    bench.tab_to(Spot::Timer);
    letter(&mut bench, "j");
    assert_eq!(bench.at_hand(), Some(Spot::Timer));
}

#[test]
fn f7_goes_to_the_decision_from_wherever_one_is() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.tab_to(Spot::Timer);
    bench.press(Key::F7, KeyCode::F7);
    bench.rest(3);
    assert_eq!(bench.label_of_focus().as_deref(), Some("accepted"));
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.press(Key::F7, KeyCode::F7);
    bench.rest(3);
    assert_eq!(bench.label_of_focus().as_deref(), Some("accepted"));
}

#[test]
fn a_page_that_is_opened_keeps_the_focus_and_f6_goes_to_its_first_field() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.tab_to_label("air");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.label_of_focus().as_deref(), Some("air"), "on the tab that was pressed");
    bench.press(Key::Enter, KeyCode::Enter);
    let temperature = "Air temperature, \u{b0}C";
    assert_eq!(bench.label_of_focus().as_deref(), Some(temperature), "and then into the page");
    bench.press(Key::Tab, KeyCode::Tab);
    let pressure = "Station pressure, mmHg";
    assert_eq!(bench.label_of_focus().as_deref(), Some(pressure));
    letter(&mut bench, "7");
    for _ in 0..3 {
        bench.press(Key::F6, KeyCode::F6);
    }
    assert_eq!(bench.label_of_focus().as_deref(), Some(pressure), "back to the last field");
    bench.press(Key::F6, KeyCode::F6);
    bench.click("points");
    bench.press(Key::F6, KeyCode::F6);
    bench.press(Key::F6, KeyCode::F6);
    bench.press(Key::F6, KeyCode::F6);
    assert_eq!(bench.label_of_focus().as_deref(), Some("point 1, up, in"), "of the open page");
}

#[test]
fn no_sheet_loses_the_focus_on_any_screen() {
    let sheets = [(Key::F1, KeyCode::F1), (Key::F2, KeyCode::F2)];
    let mut list = Bench::at_start(SIZE, 100);
    list.press(Key::Tab, KeyCode::Tab);
    let mut bench = Bench::at_work(SIZE, 100);
    bench.tab_to(Spot::Timer);
    let mut debrief = Bench::at_work(SIZE, 100);
    debrief.sign();
    debrief.press(Key::Tab, KeyCode::Tab);
    for (what, bench) in [("list", &mut list), ("bench", &mut bench), ("debrief", &mut debrief)] {
        let before = bench.label_of_focus().unwrap_or_else(|| panic!("{what}: nothing has it"));
        for (key, code) in sheets.clone() {
            bench.press(key.clone(), code);
            bench.rest(3);
            let on_sheet = bench.label_of_focus().unwrap_or_default();
            assert_ne!(on_sheet, before, "{what}: it stays under the sheet {key:?}");
            if key == Key::F2 {
                // Something is set on the sheet, by a key, before it is closed.
                bench.press(Key::Tab, KeyCode::Tab);
                bench.press(Key::Enter, KeyCode::Enter);
                bench.rest(3);
            }
            bench.press(Key::Escape, KeyCode::Escape);
            bench.rest(3);
            assert_eq!(bench.label_of_focus().as_deref(), Some(before.as_str()), "{what}, {key:?}");
        }
        // From one sheet straight to the other.
        for (key, code) in sheets.clone() {
            bench.press(key, code);
            bench.rest(3);
        }
        bench.press(Key::Escape, KeyCode::Escape);
        bench.rest(3);
        assert_eq!(bench.label_of_focus().as_deref(), Some(before.as_str()), "{what}, both");
    }
}
