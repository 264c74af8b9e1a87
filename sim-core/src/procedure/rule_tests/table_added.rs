//! Cases for the test of the controller with added filters, on a session in which two are ordered.

use super::Case;
use crate::field_book::Field;
use crate::procedure::test_bench::{TestSession, writes};
use crate::session::action::{Action, Sight};
use crate::session::ground_truth::GroundTruth;

/// Changes the truth while the pen is read with the second, or with the third filter.
fn at_reading(session: &mut TestSession, sheets: u8, change: impl Fn(&mut GroundTruth)) {
    let with = |facts: &GroundTruth| facts.run.as_ref().map_or(0, |run| run.added_filters);
    for moment in session.events.iter_mut().filter(|moment| {
        let reads =
            matches!(moment.action, Action::Look { at: Sight::Pen, .. } | Action::Write { .. });
        reads && with(&moment.before) == sheets && moment.before.powered
    }) {
        change(&mut moment.before);
        change(&mut moment.after);
    }
}

/// Moves the pen by this many percent while the filters are on; what is written follows.
fn pen_moves(session: &mut TestSession, sheets: u8, chart: Field, change: Field, percent: f64) {
    let by = 1.0 + percent / 100.0;
    at_reading(session, sheets, |facts| {
        facts.pen *= by;
        facts.pen_at_rest *= by;
        facts.undisturbed_pen *= by;
    });
    let pen = session.book_number(chart) * by;
    session.rewrite(chart, &format!("{pen:.1}"));
    session.rewrite(change, &format!("{percent:+.1}"));
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "added-filters-made",
        breaks: |session| {
            session.without(|action| {
                writes(action, Field::ThirdFilterChart) || writes(action, Field::ThirdFilterChange)
            });
        },
        keeps: |session| {
            if let Some(run) = &mut session.setup.work_order.run
                && let Some(order) = &mut run.added_filters
            {
                order.sheets = 1;
            }
            session.rewrite(Field::FiltersHeld, "2");
        },
        also: &[],
    },
    Case {
        rule: "added-filters-as-it-runs",
        breaks: |session| at_reading(session, 2, |facts| facts.running_s = 90.0),
        keeps: |session| at_reading(session, 2, |facts| facts.running_s = 300.0),
        also: &[],
    },
    Case {
        rule: "added-filters-sums",
        breaks: |session| session.rewrite(Field::SecondFilterChange, "1.5"),
        keeps: |session| session.rewrite(Field::SecondFilterChange, "-1.0"),
        also: &[],
    },
    Case {
        rule: "added-filters-judged",
        breaks: |session| {
            let (chart, change) = (Field::ThirdFilterChart, Field::ThirdFilterChange);
            pen_moves(session, 2, chart, change, -12.0);
        },
        keeps: |session| {
            let (chart, change) = (Field::ThirdFilterChart, Field::ThirdFilterChange);
            pen_moves(session, 2, chart, change, -12.0);
            session.rewrite(Field::FiltersHeld, "2");
        },
        also: &[],
    },
    Case {
        rule: "added-filters-off",
        breaks: |session| {
            session.at(
                |action| matches!(action, Action::LeaveSite),
                |facts| {
                    if let Some(run) = &mut facts.run {
                        run.added_filters = 1;
                    }
                },
            );
        },
        // One that comes off and goes on again in between is off in the end.
        keeps: |session| {
            session.insert_after(
                |action| matches!(action, Action::RemoveAddedFilter),
                Action::RemoveAddedFilter,
            );
        },
        also: &[],
    },
];
