//! What the slips of a run cost, against sums by hand and against the same day without the slip.

use sim_core::field_book::Field;
use sim_core::rig::parts::Trip;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;
use sim_core::session::ground_truth::SampleTruth;

use super::common::{Book, assert_volume, costs_of, redone, redone_on, root, row, scenario};
use super::common::{session_of, writes};

/// The whole work order, the volume by the line alone.
fn text() -> String {
    scenario("27_from_set_point_to_volume")
        .replace("target_flow_std_m3_min: 1.20", "target_flow_std_m3_min: 1.30")
        .replace("    flow_check: (readings: 8, within_pct: 7, flow_of_run: Check),\n", "")
}

fn careful() -> EndedSession {
    session_of(&text(), "careful", 3)
}

fn truth(signed: &EndedSession) -> SampleTruth {
    signed.end.run.as_ref().unwrap().truth.unwrap()
}

/// (I sqrt(P/760 298/T) - B)/M t with the line that stands in the book.
fn by_hand(book: &Book<'_>, chart: f64, air: (f64, f64), minutes: f64) -> f64 {
    let term = chart * root(air.0, air.1);
    (term - book.number(Field::Intercept)) / book.number(Field::Slope) * minutes
}

/// The careful session with other numbers in some fields.
fn with(careful: &EndedSession, others: &[(Field, f64)]) -> EndedSession {
    redone(careful, |action, _| match action {
        Action::Write { field, .. } => match others.iter().find(|(other, _)| other == field) {
            Some((field, number)) => writes(*field, number),
            None => vec![action.clone()],
        },
        _ => vec![action.clone()],
    })
}

fn own_air(book: &Book<'_>) -> (f64, f64) {
    (book.number(Field::RunPressure), book.number(Field::RunTemperature))
}

#[test]
fn minutes_mean_reading_and_air_are_told_as_a_hand_works_them_out() {
    let careful = careful();
    let (truth, book) = (truth(&careful), Book(&careful));
    let (chart, minutes) = (book.number(Field::MeanChart), book.number(Field::RunMinutes));
    let air = own_air(&book);

    let slipped = with(&careful, &[(Field::RunMinutes, 1400.0)]);
    let costs = costs_of(&slipped);
    let cost = row(&costs, "run-minutes");
    assert_volume(cost.volume_m3.unwrap(), by_hand(&book, chart, air, minutes));
    assert!((cost.cost_pct.unwrap() - 100.0 * (1400.0 / minutes - 1.0)).abs() < 0.01);

    let slipped = with(&careful, &[(Field::MeanChart, chart + 3.0)]);
    let costs = costs_of(&slipped);
    let cost = row(&costs, "mean-chart");
    let right = by_hand(&book, truth.mean_pen, air, minutes);
    assert_volume(cost.volume_m3.unwrap(), right);
    let by = 100.0 * (by_hand(&book, chart + 3.0, air, minutes) / right - 1.0);
    assert!((cost.cost_pct.unwrap() - by).abs() < 0.1, "{cost:?} {by}");

    // The averages of another season.
    let other = (air.0 - 10.0, air.1 + 14.0);
    let others = [(Field::RunPressure, other.0), (Field::RunTemperature, other.1)];
    let costs = costs_of(&with(&careful, &others));
    let cost = row(&costs, "run-air");
    let mean = (truth.mean_pressure_mmhg, truth.mean_temperature_c);
    let right = by_hand(&book, chart, mean, minutes);
    assert_volume(cost.volume_m3.unwrap(), right);
    let by = 100.0 * (by_hand(&book, chart, other, minutes) / right - 1.0);
    assert!((cost.cost_pct.unwrap() - by).abs() < 0.1, "{cost:?} {by}");
}

#[test]
fn a_tripper_an_hour_late_draws_an_hour_more() {
    let careful = careful();
    let late = redone(&careful, |action, _| match action {
        Action::SetTripper { trip: Trip::Off, weekday, hours } => {
            vec![Action::SetTripper { trip: Trip::Off, weekday: *weekday, hours: hours + 1.0 }]
        }
        _ => vec![action.clone()],
    });
    let costs = costs_of(&late);
    let cost = row(&costs, "timer-as-ordered");
    assert_volume(cost.volume_m3.unwrap(), truth(&careful).filtered_std_m3);
    assert!((cost.cost_pct.unwrap() - 100.0 / 24.0).abs() < 0.1, "{cost:?}");
    // It stands by itself: the line's costs are as they were.
    assert!((costs.together_pct.unwrap() - costs_of(&careful).together_pct.unwrap()).abs() < 1e-9);
}

#[test]
fn a_torn_filter_costs_what_passes_beside_it() {
    let careful = careful();
    let torn = text().replace(
        "    certificates: [",
        "    faults: [(fault: FilterTorn(area_mm2: 80))],\n    certificates: [",
    );
    // The same deeds: whoever held it against the light used it all the same.
    let used = redone_on(&torn, &careful, |action, _| vec![action.clone()]);
    let (with, without) = (truth(&used), truth(&careful));
    let costs = costs_of(&used);
    let by = 100.0 * (with.filtered_std_m3 / without.filtered_std_m3 - 1.0);
    assert!(by < -5.0, "{by}");
    for id in ["filter-sound", "FilterTorn"] {
        let cost = row(&costs, id);
        assert_volume(cost.volume_m3.unwrap(), without.filtered_std_m3);
        assert!((cost.cost_pct.unwrap() - by).abs() < 0.1, "{id}: {cost:?} {by}");
    }
}

#[test]
fn a_screw_left_as_found_draws_another_flow() {
    let careful = careful();
    let untrimmed = redone(&careful, |action, view| match action {
        Action::TurnTrim { .. } => Vec::new(),
        Action::Write { field: Field::StartChart, .. } => {
            writes(Field::StartChart, format!("{:.1}", view.recorder.pen.unwrap()))
        }
        _ => vec![action.clone()],
    });
    let costs = costs_of(&untrimmed);
    let cost = row(&costs, "trimmed-to-set-point");
    let (with, without) = (truth(&untrimmed), truth(&careful));
    let by = 100.0 * (with.filtered_std_m3 / without.filtered_std_m3 - 1.0);
    // The screw is turned once, by the own line, which was made at full speed: over so long a way it
    // errs by a percent, where a hand looks at the pen again.
    assert!((cost.cost_pct.unwrap() - by).abs() < 1.5, "{cost:?} {by}");
    assert!(by < -5.0, "{by}");
}
