//! What is typed into the field book is written as typed.

use bevy::input::keyboard::{Key, KeyCode};
use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::Action;

use super::harness::Bench;

#[test]
fn a_value_is_written_as_typed_on_enter_and_on_leaving() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("air");
    bench.click("Air temperature, \u{b0}C");
    bench.type_text("13,5");
    assert_eq!(bench.written(Field::Temperature), None, "nothing is written before it is done");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Temperature).as_deref(), Some("13,5"));
    // Enter has gone on to the next blank.
    bench.type_text("761.2");
    bench.press(Key::Tab, KeyCode::Tab);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("761.2"));
}

#[test]
fn what_is_no_number_is_written_and_said_and_what_is_struck_out_stays() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.type_text("high");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("high"));
    assert!(bench.on_screen().contains("`high` is not a number"));
    bench.click("air");
    bench.click("certificate");
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.type_text("760");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("760"));
    let shown = bench.on_screen();
    assert!(shown.contains("struck out: high"), "{shown}");
    assert!(!shown.contains("not a number"), "the new value is one");
}

#[test]
fn the_table_is_filled_with_the_tab_key() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("points");
    bench.click("point 1, up, in");
    for value in ["3.3", "3.2", "6.5", "56\u{bd}"] {
        bench.type_text(value);
        bench.press(Key::Tab, KeyCode::Tab);
    }
    let first = PointNumber::try_from(1).unwrap();
    let row = [Field::Up(first), Field::Down(first), Field::DeltaH(first), Field::Chart(first)];
    let written = row.map(|field| bench.written(field).unwrap_or_default());
    assert_eq!(written, ["3.3", "3.2", "6.5", "56\u{bd}"]);
}

#[test]
fn enter_in_the_frame_of_the_last_digit_writes_the_whole_value() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.type_text("76");
    bench.press_at_once(&[
        (Key::Character("1".into()), KeyCode::Digit1),
        (Key::Enter, KeyCode::Enter),
    ]);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("761"));
    let writes = bench.done().into_iter().filter(|done| matches!(done, Action::Write { .. }));
    assert_eq!(writes.count(), 1, "a cut value was written before it");
}

#[test]
fn tab_in_the_frame_of_the_last_digit_writes_the_whole_value() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("air");
    bench.click("Air temperature, \u{b0}C");
    bench.type_text("13.");
    bench.press_at_once(&[(Key::Character("5".into()), KeyCode::Digit5), (Key::Tab, KeyCode::Tab)]);
    assert_eq!(bench.written(Field::Temperature).as_deref(), Some("13.5"));
}
