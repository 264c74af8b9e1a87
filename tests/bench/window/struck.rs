//! What is struck out of the field book goes from its field and stays legible beside it.

use bevy::input::keyboard::{Key, KeyCode};
use sim_core::field_book::{Field, PointNumber, Struck};
use sim_core::session::action::Action;
use window::desk::Said;

use super::harness::Bench;

fn struck(bench: &Bench) -> Vec<Struck> {
    let acts = bench.done().into_iter().filter_map(|action| match action {
        Action::Strike { what } => Some(what),
        _ => None,
    });
    acts.collect()
}

#[test]
fn a_point_is_struck_out_and_read_again() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("points");
    bench.click("point 1, up, in");
    for value in ["3.3", "3.2", "6.5"] {
        bench.type_text(value);
        bench.press(Key::Tab, KeyCode::Tab);
    }
    bench.tab_to_label("strike out point 1");
    bench.press(Key::Enter, KeyCode::Enter);
    let first = PointNumber::try_from(1).expect("there is one");
    assert_eq!(struck(&bench), [Struck::Point(first)]);
    for (field, label, was) in [
        (Field::Up(first), "point 1, up, in", "up: struck out: 3.3"),
        (Field::Down(first), "point 1, down, in", "down: struck out: 3.2"),
        (Field::DeltaH(first), "point 1, \u{394}H, inH2O", "\u{394}H: struck out: 6.5"),
    ] {
        assert_eq!(bench.written(field), None);
        assert_eq!(bench.value_of(label).unwrap_or_default(), "", "{label} is not empty");
        assert!(bench.on_screen().contains(was), "{was}: {}", bench.on_screen());
    }
    bench.click("point 1, up, in");
    bench.type_text("3.4");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Up(first)).as_deref(), Some("3.4"));
    assert!(bench.on_screen().contains("up: struck out: 3.3"));
}

#[test]
fn a_blank_point_is_not_struck_out() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("points");
    bench.click("strike out point 2");
    assert!(matches!(bench.saying(), Said::Refused(_)), "{:?}", bench.saying());
    assert!(struck(&bench).is_empty());
}

#[test]
fn whoever_clears_a_field_strikes_out_the_entry() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.type_text("760");
    bench.press(Key::Enter, KeyCode::Enter);
    // Enter has gone on to the next blank.
    bench.click("Station pressure, mmHg");
    for _ in 0..3 {
        bench.press(Key::Backspace, KeyCode::Backspace);
    }
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(struck(&bench), [Struck::Field(Field::Pressure)]);
    assert_eq!(bench.written(Field::Pressure), None);
    assert!(bench.on_screen().contains("struck out: 760"), "{}", bench.on_screen());
    // A field that is blank already has nothing to strike out.
    bench.click("Station pressure, mmHg");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(struck(&bench).len(), 1);
}

#[test]
fn a_decision_is_struck_out_and_stays_legible() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("remarks");
    for press in ["accepted", "write the decision", "strike out the decision"] {
        bench.tab_to_label(press);
        bench.press(Key::Enter, KeyCode::Enter);
    }
    assert_eq!(struck(&bench), [Struck::Field(Field::Decision)]);
    assert_eq!(bench.written(Field::Decision), None);
    assert!(bench.on_screen().contains("struck out: accepted"), "{}", bench.on_screen());
}
