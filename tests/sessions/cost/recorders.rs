//! Costs where the recorder has no square-root chart: the term that fits it is used, and no other.

use sim_core::field_book::Field;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;

use super::common::{
    Book, HAND_PCT, RUN_MIN, assert_volume, costs_of, exactly, line, redone, root, row, scenario,
    session_of, writes,
};

/// A kind of recorder with its chart term from chart reading and root (40 CFR 50 App. B, Table 1;
/// from memory), and a term that is wrong for it.
struct Kind {
    name: &'static str,
    term: fn(f64, f64) -> f64,
    wrong: fn(f64, f64) -> f64,
}

const KINDS: [Kind; 2] = [
    Kind {
        name: "Linear",
        term: |chart, root| chart.sqrt() * root,
        wrong: |chart, root| chart * root,
    },
    Kind { name: "MassFlow", term: |chart, _| chart, wrong: |chart, root| chart.sqrt() * root },
];

/// A perfect reader at 1 290 m, where the terms are far apart, by a line through terms of this kind.
fn session(kind: &Kind, operator: &str, term: fn(f64, f64) -> f64) -> EndedSession {
    let text = scenario("05_moved_from_the_coast").replace(
        "    certificates: [",
        &format!("    instruments: (recorder_kind: {}),\n    certificates: [", kind.name),
    );
    let read = redone(&session_of(&text, operator, 3), |action, view| match action {
        Action::Write { field: field @ Field::DeltaH(_), .. } if operator == "one-leg" => {
            writes(*field, format!("{:.9}", view.manometer.left.meniscus_in))
        }
        _ => vec![exactly(action, view)],
    });
    let book = Book(&read);
    let (slope, intercept) = line(&points(&book, term));
    redone(&read, |action, _| match action {
        Action::Write { field: field @ Field::ChartTerm(point), .. } => {
            writes(*field, term(book.number(Field::Chart(*point)), book.root()))
        }
        Action::Write { field: Field::Slope, .. } => writes(Field::Slope, slope),
        Action::Write { field: Field::Intercept, .. } => writes(Field::Intercept, intercept),
        // The run is then at the chart reading that truly means the ordered flow.
        Action::Write { field: Field::SetPoint | Field::TargetFlow, .. } => Vec::new(),
        _ => vec![action.clone()],
    })
}

/// Flow and chart term of each point by hand, the flow from what stands for both legs.
fn points(book: &Book<'_>, term: fn(f64, f64) -> f64) -> Vec<(f64, f64)> {
    let pair = book.pair();
    let point = |number| {
        let legs = [Field::Up(number), Field::Down(number)];
        let [up, down] = legs.map(|field| book.0.book.number(field));
        let delta_h =
            up.zip(down).map_or_else(|| book.number(Field::DeltaH(number)), |(up, down)| up + down);
        let flow = (delta_h.sqrt() * book.root() - pair.intercept) / pair.slope;
        (flow, term(book.number(Field::Chart(number)), book.root()))
    };
    book.points().into_iter().map(point).collect()
}

/// The volume by hand: V = (f(I) - B)/M t.
fn volume(signed: &EndedSession, chart: f64, term: fn(f64, f64) -> f64) -> f64 {
    let (slope, intercept) = line(&points(&Book(signed), term));
    let order = &signed.setup.work_order;
    let air = root(order.run_pressure_mmhg, order.run_temperature_c);
    (term(chart, air) - intercept) / slope * RUN_MIN
}

#[test]
fn the_own_line_is_read_with_the_term_of_its_recorder() {
    for kind in &KINDS {
        let signed = session(kind, "careful", kind.term);
        let costs = costs_of(&signed);
        let run = costs.run.unwrap();
        let by_hand = volume(&signed, run.chart, kind.term);
        assert_volume(costs.own_volume_m3.unwrap(), by_hand);
        assert_volume(costs.sums_redone_m3.unwrap(), by_hand);
        assert!(costs.waterfall.iter().all(|step| step.id != "expression"), "{}", kind.name);
        let left = costs.remaining_pct.unwrap();
        // The line bends a little, and the heat of the windings lags behind each change of the flow.
        assert!(left.abs() < 0.7, "{}: a perfect reader is {left:+.3} % off", kind.name);
    }
}

#[test]
fn one_leg_costs_the_root_of_a_half_on_any_recorder() {
    for kind in &KINDS {
        let signed = session(kind, "one-leg", kind.term);
        let costs = costs_of(&signed);
        let legs = row(&costs, "both-legs");
        let (half, pair) = (0.5_f64.sqrt(), Book(&signed).pair());
        let undone = legs.volume_m3.unwrap();
        let by_hand = half * undone - (1.0 - half) * pair.intercept / pair.slope * RUN_MIN;
        assert_volume(costs.sums_redone_m3.unwrap(), by_hand);
        let cost = 100.0 * (by_hand / undone - 1.0);
        assert!((legs.cost_pct.unwrap() - cost).abs() < HAND_PCT, "{}: {legs:?}", kind.name);
    }
}

#[test]
fn a_term_of_another_recorder_costs_what_its_line_reads() {
    for kind in &KINDS {
        let signed = session(kind, "careful", kind.wrong);
        let costs = costs_of(&signed);
        let chart = costs.run.unwrap().chart;
        assert_volume(costs.sums_redone_m3.unwrap(), volume(&signed, chart, kind.wrong));
        let expression = row(&costs, "chart-expression");
        assert_volume(expression.volume_m3.unwrap(), volume(&signed, chart, kind.term));
        let cost = expression.cost_pct.unwrap().abs();
        assert!(cost > 0.5, "{}: {cost} %, too little to prove anything", kind.name);
        let step = costs.waterfall.iter().find(|step| step.id == "expression").unwrap();
        assert_eq!(Some(step.to_m3), expression.volume_m3, "{}", kind.name);
    }
}
