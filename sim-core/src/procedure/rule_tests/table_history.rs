//! Cases for the history, on a session that keeps the control chart of a sampler in control.

use super::{Case, broken};
use crate::control_chart::ChartReading;
use crate::field_book::Field;
use crate::procedure::test_bench::{
    TestSession, careful_check, careful_history, reads, repaired_on, with_past, writes,
};
use crate::session::action::Decision;
use crate::time::Date;

/// Checks of a sampler that jumped by three percent before the last two of them.
const JUMPED: [f64; 16] =
    [3.4, 2.5, 3.1, 2.8, 3.6, 2.6, 3.2, 3.0, 2.4, 3.3, 2.9, 3.2, 3.5, 2.7, 0.2, -0.1];

/// The sampler jumped on the day of its repair; the trainee writes that and what follows.
fn jumps(session: &mut TestSession, calibrate_again: bool, in_doubt_since: Option<Date>) {
    with_past(session, &JUMPED);
    let shows = ChartReading::Jump;
    session.decide(Decision::HistoryRead { shows, calibrate_again, in_doubt_since }, "");
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "history-kept",
        breaks: |session| session.rewrite(Field::HistoryPoint, "1.9"),
        keeps: |session| {
            let difference = session.book_number(Field::CheckDifference);
            session.rewrite(Field::HistoryPoint, &format!("{:.1}", difference + 0.1));
        },
        also: &[],
    },
    Case {
        rule: "history-read",
        breaks: |session| session.decide(reads(ChartReading::OutOfLimits), ""),
        keeps: |session| session.decide(reads(ChartReading::InControl), "as usual"),
        also: &[],
    },
    Case {
        rule: "history-acted",
        breaks: |session| jumps(session, true, None),
        keeps: |session| jumps(session, true, Some(repaired_on())),
        also: &[],
    },
];

/// The day of the last check before the jump: as good as that of the repair.
fn jumped_after() -> Option<Date> {
    Date::new(2025, 7, 15).ok().map(|first| first.later(28 * 13))
}

#[test]
fn what_follows_from_a_jump_is_a_calibration_and_a_day() {
    let found = |calibrate_again, in_doubt_since| {
        let mut session = careful_history();
        jumps(&mut session, calibrate_again, in_doubt_since);
        broken(&session)
    };
    assert_eq!(found(true, jumped_after()), [""; 0]);
    assert_eq!(found(false, jumped_after()), ["history-acted"]);
    assert_eq!(found(true, Some(repaired_on().later(28))), ["history-acted"]);
    let mut drift = careful_history();
    with_past(&mut drift, &JUMPED);
    drift.decide(reads(ChartReading::Drift), "");
    assert_eq!(broken(&drift), ["history-read", "history-acted"]);
}

#[test]
fn nothing_is_asked_where_the_sampler_has_no_history_and_everything_where_it_has() {
    assert_eq!(broken(&careful_check()), [""; 0]);
    let mut session = careful_check();
    with_past(&mut session, &JUMPED);
    assert_eq!(broken(&session), ["history-kept", "history-read"]);
    let mut without = careful_history();
    without.without(|action| writes(action, Field::HistoryReading));
    assert_eq!(broken(&without), ["history-read"]);
}

#[test]
fn a_chart_in_control_calls_nothing_into_question() {
    let mut session = careful_history();
    let shows = ChartReading::InControl;
    session
        .decide(Decision::HistoryRead { shows, calibrate_again: true, in_doubt_since: None }, "");
    assert_eq!(broken(&session), ["history-acted"]);
}
