//! Cases for the next run, on a session that sets the sampler up for one.

use super::Case;
use crate::field_book::Field;
use crate::procedure::test_bench::{TestSession, writes};
use crate::rig::flow::filter::FilterSheet;
use crate::rig::parts::{BlowerPlug, FilterSide};
use crate::session::ground_truth::RunGroundTruth;

/// Changes the truth about the run when the field book is signed.
fn at_end(session: &mut TestSession, change: impl Fn(&mut RunGroundTruth)) {
    if let Some(run) = &mut session.end.run {
        change(run);
    }
}

/// Changes the sheet that is fitted for the next run.
fn on_sheet(session: &mut TestSession, change: impl Fn(&mut FilterSheet)) {
    at_end(session, |run| {
        if let Some(sheet) = &mut run.next_sheet {
            change(sheet);
        }
    });
}

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "next-filter",
        breaks: |session| on_sheet(session, |sheet| sheet.up = FilterSide::Smooth),
        // The filter of the run has its own rules and does not matter here.
        keeps: |session| session.end.nut_turns[2] = 6,
        also: &[],
    },
    Case {
        rule: "next-filter-written",
        breaks: |session| session.rewrite(Field::NextFilterNumber, "F-1"),
        keeps: |session| session.rewrite(Field::NextFilterNumber, "f-2 "),
        also: &[],
    },
    Case {
        rule: "next-timer",
        // The trippers are still set for the finished run.
        breaks: |session| at_end(session, |run| run.trippers = [(Some(1), 0.0), (Some(2), 0.0)]),
        keeps: |session| at_end(session, |run| run.dial_ahead_min = -9.0),
        also: &[],
    },
    Case {
        rule: "next-chart",
        breaks: |session| session.end.capped = true,
        keeps: |session| at_end(session, |run| run.chart_ink = 40),
        also: &[],
    },
];

/// A rule, and what breaks it.
type Change = (&'static str, fn(&mut TestSession));

/// Other breaches that each rule finds; none of the rules applies if no next run is ordered.
#[test]
fn each_part_of_a_next_run_is_asked_for_where_one_is_ordered() {
    use super::{broken, careful_next};
    let changes: [Change; 9] = [
        ("next-filter", |session| at_end(session, |run| run.next_sheet = None)),
        ("next-filter", |session| session.end.nut_turns[2] = 5),
        ("next-filter", |session| on_sheet(session, |sheet| sheet.holes_mm2 = 3.0)),
        ("next-filter-written", |session| {
            session.without(|action| writes(action, Field::NextFilterNumber));
        }),
        ("next-timer", |session| at_end(session, |run| run.dial_ahead_min = -45.0)),
        ("next-timer", |session| at_end(session, |run| run.tripper_loose = [false, true])),
        ("next-timer", |session| session.end.sampler_cord_in = false),
        ("next-chart", |session| at_end(session, |run| run.chart_ink = 41)),
        ("next-chart", |session| at_end(session, |run| run.recorder_open = true)),
    ];
    for (rule, change) in changes {
        let mut session = careful_next();
        change(&mut session);
        assert_eq!(broken(&session), [rule]);
        if let Some(order) = &mut session.setup.work_order.run {
            order.next = None;
        }
        // Then the pen is capped again.
        session.end.capped = true;
        assert_eq!(broken(&session), [""; 0], "{rule}");
    }
    let mut line = careful_next();
    line.end.blower_plug = BlowerPlug::LineOutlet;
    assert_eq!(broken(&line), ["plug-on-controller", "next-timer"]);
}
