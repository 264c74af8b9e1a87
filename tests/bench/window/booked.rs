//! The field book's pages: what they ask for, what is still blank, and what is worked out on them.

use bevy::input::keyboard::{Key, KeyCode};
use sim_core::field_book::Field;
use sim_core::session::action::{Action, HelpTopic};

use super::harness::Bench;

const SIZE: (u32, u32) = (1280, 800);

#[test]
fn a_display_has_one_column_and_two_legs_have_theirs() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.click("points");
    for head in ["up, in", "down, in", "\u{394}H, inH2O", "chart, divisions"] {
        assert!(bench.is_there(&format!("point 1, {head}")), "{head}");
    }
    let mut bench = Bench::at("35_no_water_in_it.ron", SIZE, 100);
    bench.click("points");
    for head in ["\u{394}H, inH2O", "chart, divisions", "flow, std m\u{b3}/min"] {
        assert!(bench.is_there(&format!("point 1, {head}")), "{head}");
    }
    for head in ["up, in", "down, in"] {
        assert!(!bench.is_there(&format!("point 1, {head}")), "a display has no legs: {head}");
    }
}

#[test]
fn the_order_says_what_is_still_blank_and_goes_there() {
    let mut bench = Bench::at_work(SIZE, 100);
    assert!(bench.is_there("air: blank") && bench.is_there("certificate: blank"));
    assert!(!bench.is_there("run: blank"), "no run is ordered");
    bench.click("air: blank");
    bench.rest(3);
    bench.tab_to_label("Air temperature, \u{b0}C");
    bench.type_text("21.5");
    bench.press(Key::Enter, KeyCode::Enter);
    assert_eq!(bench.written(Field::Temperature).as_deref(), Some("21.5"));
    bench.click("order");
    bench.rest(3);
    assert!(bench.is_there("air: 1 of 2"), "{}", bench.on_screen());
    bench.click("remarks");
    bench.rest(3);
    assert!(bench.is_there("air: 1 of 2"), "it stands above the signature too");
}

#[test]
fn the_calculations_are_done_beside_the_plot_and_noted() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.click("line");
    bench.rest(3);
    bench.click("do the calculations");
    bench.rest(4);
    assert!(bench.on_screen().contains("The calculations need"), "{}", bench.on_screen());
    let asked = |action: &Action| matches!(action, Action::AskHelp { topic: HelpTopic::Sums });
    assert!(bench.done().iter().any(asked), "asking is in the journal");
}

#[test]
fn a_long_reason_makes_its_line_higher() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.click("remarks");
    bench.rest(3);
    let height = |bench: &mut Bench| {
        let line = bench.node_of("Remarks").expect("the line").0;
        bench.app.world().get::<bevy::prelude::ComputedNode>(line).expect("its place").size().y
    };
    let before = height(&mut bench);
    bench.tab_to_label("Remarks");
    bench.type_text(
        "a reason so long that no line of a field book could ever hold it, however wide",
    );
    bench.rest(4);
    let after = height(&mut bench);
    assert!(after >= before + 15.0, "{before} pixels high before, {after} after: no line more");
}
