//! The page of the sampler's history: its chart is told and drawn anew with today's check, and what it
//! shows is chosen.

use bevy::input::keyboard::{Key, KeyCode};
use sim_core::control_chart::ChartReading;
use sim_core::field_book::{Decision, Field};
use sim_core::session::action::Action;
use sim_core::time::Date;
use window::ui::told::told;

use super::harness::Bench;

const JUMP: &str = "37_the_ferry_landing.ron";

/// What a screen reader says about the chart.
fn chart(bench: &mut Bench) -> String {
    let all = told(bench.app.world_mut());
    let chart = all.into_iter().map(|one| one.label).find(|one| one.starts_with("Control chart,"));
    chart.expect("the chart is told")
}

#[test]
fn the_chart_is_told_and_takes_up_what_is_entered() {
    let mut bench = Bench::at(JUMP, (1280, 1600), 100);
    bench.click("history");
    let before = chart(&mut bench);
    assert!(before.contains("2026-04-07") && !before.contains("2026-05-05"), "{before}");
    let visits = bench.on_screen();
    assert!(visits.contains("2026-01-20  Repair: Motor replaced"), "{visits}");
    bench.click("Today's check on the control chart, %");
    bench.type_text("+2.6");
    bench.press(Key::Enter, KeyCode::Enter);
    bench.rest(3);
    assert_eq!(bench.written(Field::HistoryPoint).as_deref(), Some("+2.6"));
    let after = chart(&mut bench);
    assert!(after.contains("2026-05-05 +2.6 %, beyond the action limit"), "{after}");
}

#[test]
fn a_jump_is_chosen_with_the_day_of_the_repair() {
    let mut bench = Bench::at(JUMP, (1280, 1600), 100);
    bench.click("history");
    bench.click("jump");
    bench.click("calibrate again");
    bench.click("flows since 2026-04-07 (the last good check) are in doubt");
    // Another day takes its place.
    bench.click("flows since 2026-01-20 (a repair) are in doubt");
    bench.click("write the decision");
    bench.click("in control");
    bench.click("write the decision");
    let made: Vec<Decision> = bench
        .done()
        .into_iter()
        .filter_map(|action| match action {
            Action::Decide { decision, .. } => Some(decision),
            _ => None,
        })
        .collect();
    let read = |shows, calibrate_again, in_doubt_since| Decision::HistoryRead {
        shows,
        calibrate_again,
        in_doubt_since,
    };
    let since = Date::new(2026, 1, 20).ok();
    assert_eq!(
        made,
        [read(ChartReading::Jump, true, since), read(ChartReading::InControl, false, None)]
    );
}

#[test]
fn there_is_no_such_page_where_the_sampler_has_no_history() {
    let mut bench = Bench::at_work((1280, 800), 100);
    assert!(bench.is_there("points") && !bench.is_there("history"));
}
