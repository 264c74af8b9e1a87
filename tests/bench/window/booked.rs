//! The field book's pages: what they ask for, what is still blank, and what is worked out on them.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::Vec2;
use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::{Action, HelpTopic};
use window::desk::ActRequest;
use window::panels::field_book::STRIP;
use window::panels::help::COPY;
use window::ui::settings::{Hints, Settings};

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
fn what_was_calculated_is_copied_into_the_blanks_alone() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.click("certificate");
    bench.rest(3);
    bench.click("copy it into the blanks");
    bench.rest(3);
    let row = |number: usize, leg: &str, chart: &str| {
        let point = PointNumber::all().nth(number).expect("a point");
        [(Field::Up(point), leg), (Field::Down(point), leg), (Field::Chart(point), chart)]
            .map(|(field, text)| (field, text.to_owned()))
    };
    let air = [(Field::Temperature, "13.0"), (Field::Pressure, "761.0")];
    let own = PointNumber::all().nth(1).expect("a point");
    let mut texts: Vec<_> = air.map(|(field, text)| (field, text.to_owned())).to_vec();
    texts.push((Field::PointFlow(own), "9.999".to_owned()));
    texts.extend(row(0, "3.05", "52.0"));
    texts.extend(row(1, "2.50", "46.5"));
    texts.extend(row(2, "1.95", "40.5"));
    for (field, text) in texts {
        bench.app.world_mut().write_message(ActRequest(Action::Write { field, text }));
    }
    bench.rest(8);
    bench.click("line");
    bench.rest(3);
    bench.click("do the calculations");
    bench.rest(4);
    bench.click(COPY);
    bench.rest(6);
    let first = PointNumber::all().next().expect("a point");
    let flow = bench.written(Field::PointFlow(first)).expect("it is copied");
    assert!((1.0..2.5).contains(&flow.parse::<f64>().expect("a number")), "{flow}");
    assert_eq!(bench.written(Field::PointFlow(own)).as_deref(), Some("9.999"), "it stays");
    assert!(bench.written(Field::Slope).is_some() && bench.written(Field::Correlation).is_some());
    assert_eq!(bench.written(Field::SetPoint), None, "the set point is for the trainee");
}

#[test]
fn a_number_is_slid_to_on_the_pad() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.app.world_mut().resource_mut::<Settings>().hints = Hints::Pointer;
    bench.click("air");
    bench.click("Station pressure, mmHg");
    bench.rest(3);
    let place = bench.place_of(STRIP);
    bench.drag_along(&[place, place + Vec2::new(40.0, 0.0)]);
    let near = bench.value_of(STRIP).expect("it is told");
    let near: f64 = near.parse().expect("a number");
    // The middle of the strip is 660 mmHg.
    assert!((665.0..760.0).contains(&near), "{near}");
    // Off the strip a drag moves a tenth as far.
    bench.drag_along(&[place, place + Vec2::new(0.0, -60.0), place + Vec2::new(40.0, -60.0)]);
    let fine: f64 = bench.value_of(STRIP).and_then(|told| told.parse().ok()).expect("a number");
    let (coarse, fine) = (near - 660.0, fine - 660.0);
    assert!((0.05..0.2).contains(&(fine / coarse)), "{fine} against {coarse}");
    bench.click("key: next field");
    bench.rest(4);
    let written = bench.written(Field::Pressure).expect("it is written");
    assert_eq!(written, format!("{:.1}", fine + 660.0));
    let next = bench.label_of_focus();
    assert_eq!(next.as_deref(), Some("Air temperature, \u{b0}C"), "the next blank");
    bench.click("remarks");
    bench.click("Remarks");
    assert!(!bench.is_there(STRIP), "words are not slid to");
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
