//! Cases for the flow check, on a session in which the last line is checked.

use super::Case;
use crate::field_book::Field;
use crate::procedure::test_bench::{TestSession, point, writes};
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::setup::CheckedLine;
use crate::session::action::Decision;
use crate::time::Date;

/// Moves the true line, and the pen with it, by this many percent of its chart reading; the
/// calculations follow.
fn tells_more(session: &mut TestSession, percent: f64) {
    let by = 1.0 + percent / 100.0;
    session.at_check(|facts| {
        facts.pen *= by;
        facts.pen_at_rest *= by;
        facts.undisturbed_pen *= by;
    });
    for number in (1..=3).map(point) {
        let chart = session.book_number(Field::CheckChart(number)) * by;
        session.rewrite(Field::CheckChart(number), &format!("{chart:.1}"));
    }
    sums(session);
}

/// Writes a leg at the second reading that is off by this many inches; the calculations follow.
fn misreads_leg(session: &mut TestSession, by_in: f64) {
    let leg = session.book_number(Field::CheckUp(point(2)));
    session.rewrite(Field::CheckUp(point(2)), &format!("{:.2}", leg + by_in));
    sums(session);
}

/// Repeats the calculations of the check from what is written.
fn sums(session: &mut TestSession) {
    let own = session.judged(crate::procedure::flow_check::own_check).unwrap();
    session.rewrite(Field::CheckFlow, &format!("{:.3}", own.standard));
    session.rewrite(Field::CheckLineFlow, &format!("{:.3}", own.line));
    session.rewrite(Field::CheckDifference, &format!("{:+.1}", own.difference_pct()));
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "check-made",
        breaks: |session| {
            session.without(|action| writes(action, Field::CheckUp(point(3))));
        },
        keeps: |session| {
            session.setup.work_order.flow_check.as_mut().unwrap().readings = 2;
        },
        // One leg alone is no reading.
        also: &["both-legs"],
    },
    Case {
        rule: "check-as-it-runs",
        breaks: |session| {
            session.at_check(|facts| facts.places[RigPart::Filter as usize] = PartPlace::Case);
        },
        keeps: |session| session.at_check(|facts| facts.running_s = 300.0),
        also: &[],
    },
    Case {
        rule: "check-read",
        breaks: |session| misreads_leg(session, 0.3),
        keeps: |session| misreads_leg(session, 0.05),
        also: &[],
    },
    Case {
        rule: "check-sums",
        breaks: |session| session.rewrite(Field::CheckDifference, "3.0"),
        keeps: |session| {
            let flow = session.book_number(Field::CheckFlow);
            session.rewrite(Field::CheckFlow, &format!("{:.3}", flow + 0.004));
        },
        also: &[],
    },
    Case {
        rule: "check-judged",
        breaks: |session| tells_more(session, 10.0),
        keeps: |session| {
            tells_more(session, 10.0);
            let since = Date::new(2026, 10, 5).ok();
            let failed = Decision::CheckFailed { calibrate_again: true, not_valid_since: since };
            session.decide(failed, "");
        },
        also: &[],
    },
    Case {
        rule: "check-trimmed",
        breaks: |session| {
            at_controlled_flow(session, 1.27);
            let since = Date::new(2026, 10, 5).ok();
            let failed = Decision::CheckFailed { calibrate_again: true, not_valid_since: since };
            session.decide(failed, "");
        },
        keeps: |session| at_controlled_flow(session, 1.15),
        also: &[],
    },
];

/// Orders a calibration at this flow alone in place of the check; the calculations follow.
fn at_controlled_flow(session: &mut TestSession, flow: f64) {
    let order = &mut session.setup.work_order;
    order.target_flow_std_m3_min = flow;
    order.flow_check.as_mut().unwrap().line = CheckedLine::ControlledFlow;
    sums(session);
}
