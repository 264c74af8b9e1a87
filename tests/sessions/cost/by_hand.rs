//! Costs against sums done by hand.

use std::cell::Cell;

use sim_core::field_book::Field;
use sim_core::marking::cost::CostOf;
use sim_core::session::action::Action;
use sim_core::session::ended_session::EndedSession;

use super::common::{
    Book, HAND_PCT, RUN_MIN, as_designed, assert_volume, costs_of, exactly, line, redone, root,
    row, scenario, session_of,
};
use crate::reference::{number, table};

#[test]
fn one_leg_costs_the_root_of_a_half() {
    let signed = session_of(&scenario("01_first_calibration"), "one-leg", 1);
    let signed = redone(&signed, |action, view| match action {
        // The sum is what this operator takes for it: the one leg, at the moment of reading.
        Action::Write { field: field @ Field::DeltaH(_), .. } => vec![Action::Write {
            field: *field,
            text: format!("{:.9}", view.manometer.left.meniscus_in),
        }],
        _ => vec![exactly(action, view)],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let legs = row(&costs, "both-legs");
    // Q' = (sqrt(1/2) (m Q + b) - b)/m: the root term is short by 29.3 percent, the flow by that and
    // by the intercept's share.
    let half = 0.5_f64.sqrt();
    assert!((100.0 * (half - 1.0) + 29.3).abs() < 0.05);
    let pair = book.pair();
    let undone = legs.volume_m3.unwrap();
    let by_hand = half * undone - (1.0 - half) * pair.intercept / pair.slope * RUN_MIN;
    assert_volume(costs.sums_redone_m3.unwrap(), by_hand);
    let cost = 100.0 * (by_hand / undone - 1.0);
    assert!((legs.cost_pct.unwrap() - cost).abs() < HAND_PCT, "{legs:?}, by hand {cost}");
}

#[test]
fn sea_level_pressure_at_1000_m_costs_what_the_two_intercepts_leave_of_it() {
    let text = scenario("05_moved_from_the_coast")
        .replace("elevation_m: 1290", "elevation_m: 1000")
        .replace("Normal(652, 2.5)", "Fixed(674.115)")
        .replace("sun_k: Uniform(8, 12)", "sun_k: Fixed(0), pressure_mmhg_h: Fixed(0)")
        .replace("run_pressure_mmhg: 652", "run_pressure_mmhg: 674.115");
    let signed = session_of(&text, "trusts-barometer", 2);
    let signed = redone(&signed, |action, view| vec![exactly(action, view)]);
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let ratio = (book.number(Field::Pressure) / signed.end.pressure_mmhg).sqrt();
    assert!((ratio - 1.0618).abs() < 0.0001, "{ratio}");
    // Flow and chart term both grow by the ratio of the roots; the line M Q' + B' through them reads
    // Q' = Q + (r - 1)(b/m - B/M) at the same term of the run.
    let pair = book.pair();
    let points: Vec<(f64, f64)> = book
        .points()
        .iter()
        .map(|&point| {
            (
                book.number(Field::Up(point)) + book.number(Field::Down(point)),
                book.number(Field::Chart(point)),
            )
        })
        .collect();
    let factor = root(signed.end.pressure_mmhg, book.number(Field::Temperature));
    let right: Vec<(f64, f64)> = points
        .iter()
        .map(|(delta_h, chart)| {
            ((delta_h.sqrt() * factor - pair.intercept) / pair.slope, chart * factor)
        })
        .collect();
    let (slope, intercept) = line(&right);
    let undone = row(&costs, "station-pressure").volume_m3.unwrap();
    assert_volume(undone, book.volume(&costs, &points, pair, factor));
    let change = (ratio - 1.0) * (pair.intercept / pair.slope - intercept / slope) * RUN_MIN;
    assert!(change.abs() > 3.0, "{change} m3: too little to prove anything");
    assert_volume(costs.sums_redone_m3.unwrap(), undone + change);
    let fault = row(&costs, "BarometerAtSeaLevel");
    assert_eq!((fault.of, fault.counted_with), (CostOf::Fault, Some("station-pressure")));
    assert!((fault.volume_m3.unwrap() - undone).abs() < 1e-9);
    // The note is read by people, who know the rule by its title.
    let said = format!("counted with \"{}\"", row(&costs, "station-pressure").title);
    assert!(fault.note.contains(&said), "{}", fault.note);
}

/// A scale that stands 0.35 in off its zero, and nobody slides it.
fn unzeroed(operator: &str) -> EndedSession {
    let text = scenario("01_first_calibration").replace(
        "    certificates: [",
        "    instruments: (manometer: (initial_scale_in: Fixed(0.35))),\n    certificates: [",
    );
    let signed = session_of(&text, operator, 1);
    redone(&signed, |action, view| match action {
        Action::SlideScale { .. } => Vec::new(),
        Action::Write { field: field @ Field::DeltaH(_), .. } if operator == "one-leg" => {
            let seen = view.manometer.left.meniscus_in;
            vec![Action::Write { field: *field, text: format!("{seen:.9}") }]
        }
        Action::Write { field: Field::DeltaH(_), .. } => Vec::new(),
        _ => vec![exactly(action, view)],
    })
}

#[test]
fn an_unzeroed_scale_costs_nothing_where_both_legs_are_read() {
    let costs = costs_of(&unzeroed("careful"));
    let zero = row(&costs, "manometer-zeroed");
    assert!(zero.cost_pct.unwrap().abs() < 1e-6, "{zero:?}");
}

#[test]
fn an_unzeroed_scale_costs_its_share_of_the_one_leg_read() {
    let signed = unzeroed("one-leg");
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let charts = book.charts();
    let with = |off: f64| -> Vec<(f64, f64)> {
        let legs = book.points().into_iter().map(|point| book.number(Field::Up(point)) + off);
        legs.zip(charts.iter().copied()).collect()
    };
    let zero = row(&costs, "manometer-zeroed");
    assert_volume(
        costs.sums_redone_m3.unwrap(),
        book.volume(&costs, &with(0.0), book.pair(), book.root()),
    );
    assert_volume(
        zero.volume_m3.unwrap(),
        book.volume(&costs, &with(0.35), book.pair(), book.root()),
    );
    assert!(zero.cost_pct.unwrap() < -2.0, "{zero:?}");
}

#[test]
fn an_actual_conditions_pair_costs_the_difference_of_the_pairs() {
    let text = scenario("01_first_calibration").replace(
        r#"(serial: "OC-318", date: "2025-11-04")"#,
        // The trainee writes four decimals, and without a bias the printed fifth is zero.
        r#"(serial: "OC-318", date: "2025-11-04", laboratory_bias_pct: Fixed(0), print: ActualFirst)"#,
    );
    let text =
        text.replace("    terms:", "    faults: [(fault: CertificateActualFirst)],\n    terms:");
    let signed = session_of(&text, "trusts-certificates", 1);
    let signed = redone(&signed, |action, view| vec![exactly(action, view)]);
    let costs = costs_of(&signed);
    let wrong = Book(&signed).pair();
    let printed = &signed.setup.certificates[0];
    assert_eq!(wrong, printed.actual);
    let pair = row(&costs, "standard-pair");
    // Q' = (m Q + b - b')/m' at every point, and so on the whole line.
    let right = printed.standard;
    let undone = pair.volume_m3.unwrap() / RUN_MIN;
    let by_hand = (right.slope * undone + right.intercept - wrong.intercept) / wrong.slope;
    assert_volume(costs.sums_redone_m3.unwrap(), by_hand * RUN_MIN);
    assert!(pair.cost_pct.unwrap() > 30.0, "{pair:?}");
    assert_eq!(row(&costs, "CertificateActualFirst").counted_with, Some("standard-pair"));
}

/// Openings of the points, each in the table.
const OPENINGS: [f64; 7] = [1.0, 0.7, 0.5, 0.4, 0.35, 0.3, 0.27778];

/// Pressure difference and chart reading of the table at those openings, sea level, 20 degrees.
fn tabulated(case: &str) -> Vec<(f64, f64)> {
    let rows = table("operating_points.csv");
    let row = |opening: f64| {
        let mut rows = rows.iter();
        rows.find(|row| {
            row["site"] == "sea_level_20C"
                && row["case"] == case
                && (number(row, "f") - opening).abs() < 1e-9
        })
        .unwrap()
    };
    OPENINGS.iter().map(|&f| (number(row(f), "dH_inH2O"), number(row(f), "chart_I"))).collect()
}

#[test]
fn a_leak_under_the_calibrator_costs_what_the_table_says() {
    let text = as_designed(&scenario("03_a_new_blower"))
        .replace("Normal(753, 3)", "Fixed(760)")
        .replace("Normal(11, 2)", "Fixed(20)")
        .replace("Uniform(70, 90)", "Fixed(0)")
        .replace("Normal(1.5, 0.3)", "Fixed(0)");
    let signed = session_of(&text, "skips-leak-check", 1);
    let turned = Cell::new(0);
    let signed = redone(&signed, |action, view| match action {
        Action::TurnKnob { .. } if turned.get() + 1 < OPENINGS.len() => {
            turned.set(turned.get() + 1);
            vec![Action::TurnKnob { opening: OPENINGS[turned.get()] }]
        }
        // The table's pen has no friction at all.
        Action::Tap => vec![Action::Tap; 4],
        _ => vec![exactly(action, view)],
    });
    let costs = costs_of(&signed);
    let book = Book(&signed);
    let by_table = |case| book.volume(&costs, &tabulated(case), book.pair(), book.root());
    let (leaking, clean) = (by_table("leak2e-5"), by_table("clean"));
    assert_volume(costs.sums_redone_m3.unwrap(), leaking);
    for id in ["gaskets-seated", "leak-check", "CalibratorGasketMissing"] {
        assert_volume(row(&costs, id).volume_m3.unwrap(), clean);
    }
    let cost = row(&costs, "gaskets-seated").cost_pct.unwrap();
    assert!((cost - 100.0 * (leaking / clean - 1.0)).abs() < HAND_PCT, "{cost}");
    assert!(cost < -5.0, "{cost}");
}
