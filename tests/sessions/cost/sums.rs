//! Slips of arithmetic, of the chart term and of the set point.

use sim_core::field_book::{Field, PointNumber};
use sim_core::session::action::Action;

use super::common::{
    Book, HAND_PCT, RUN_MIN, assert_volume, costs_of, exactly, line, redone, row, scenario,
    session_of, writes,
};

#[test]
fn a_slip_of_the_sums_is_a_cost_of_its_own() {
    let signed = session_of(&scenario("01_first_calibration"), "hurried", 2);
    let spoiled = redone(&signed, |action, _| match action {
        Action::Write { field: Field::Slope, text } => {
            let slope: f64 = text.parse().unwrap();
            writes(Field::Slope, format!("{:.2}", 0.94 * slope))
        }
        _ => vec![action.clone()],
    });
    let (right, wrong) = (costs_of(&signed), costs_of(&spoiled));
    let sums = row(&wrong, "line");
    assert_eq!(sums.volume_m3, wrong.sums_redone_m3);
    // V = (term - B)/M t: a slope that is 6 percent small makes the volume larger by 1/0.94.
    let by_hand =
        100.0 * (right.own_volume_m3.unwrap() / 0.94 / right.sums_redone_m3.unwrap() - 1.0);
    assert!((sums.cost_pct.unwrap() - by_hand).abs() < HAND_PCT, "{sums:?}, by hand {by_hand}");
    for id in ["two-minutes", "pen-tapped"] {
        assert_eq!(row(&right, id), row(&wrong, id), "the slip leaks into another cost");
    }
}

#[test]
fn a_wrong_chart_term_costs_what_its_line_reads() {
    let signed = session_of(&scenario("05_moved_from_the_coast"), "careful", 1);
    let signed = redone(&signed, |action, view| match action {
        Action::Write { field: field @ Field::ChartTerm(_), .. } => {
            writes(*field, format!("{:.9}", view.recorder.pen.unwrap_or(0.0)))
        }
        _ => vec![exactly(action, view)],
    });
    // The terms are the chart readings themselves.
    let charts = Book(&signed).charts();
    let numbered: Vec<PointNumber> = signed.book.points();
    let signed = redone(&signed, |action, _| match action {
        Action::Write { field: field @ Field::ChartTerm(point), .. } => {
            let at = numbered.iter().position(|number| number == point).unwrap();
            writes(*field, charts[at])
        }
        _ => vec![action.clone()],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let (pair, factor) = (book.pair(), book.root());
    let flows = book.points().into_iter().map(|point| {
        let delta_h = book.number(Field::Up(point)) + book.number(Field::Down(point));
        (delta_h.sqrt() * factor - pair.intercept) / pair.slope
    });
    let points: Vec<(f64, f64)> = flows.zip(charts.iter().copied()).collect();
    let (slope, intercept) = line(&points);
    let expression = row(&costs, "chart-expression");
    let chart = costs.run.unwrap().chart;
    assert_volume(costs.sums_redone_m3.unwrap(), (chart - intercept) / slope * RUN_MIN);
    let step = costs.waterfall.iter().find(|step| step.id == "expression").unwrap();
    assert_eq!(Some(step.to_m3), expression.volume_m3);
    assert!(expression.cost_pct.unwrap().abs() > 0.5, "{expression:?}");
}

#[test]
fn a_set_point_that_does_not_follow_stands_by_itself() {
    let signed = session_of(&scenario("01_first_calibration"), "careful", 1);
    let set = |by: f64| {
        redone(&signed, |action, _| match action {
            Action::Write { field: Field::SetPoint, text } => {
                let chart: f64 = text.parse().unwrap();
                writes(Field::SetPoint, format!("{:.1}", chart + by))
            }
            _ => vec![action.clone()],
        })
    };
    let (right, wrong) = (costs_of(&set(0.0)), costs_of(&set(3.0)));
    let cost = row(&wrong, "set-point");
    let by_hand = wrong.true_volume_m3.unwrap() / right.true_volume_m3.unwrap() - 1.0;
    assert!((cost.cost_pct.unwrap() - 100.0 * by_hand).abs() < 0.2, "{cost:?}, by hand {by_hand}");
    assert!(cost.cost_pct.unwrap() > 4.0, "{cost:?}");
    assert!(wrong.interaction_pct.unwrap().abs() < 1e-9);
    assert!(wrong.waterfall.iter().all(|step| step.id != "set-point"));
}
