//! Cases for calculations, decision and set point.

use super::Case;
use crate::fault::Fault;
use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::Ending;
use crate::procedure::test_bench::{TestSession, point, writes};
use crate::session::action::{Action, Decision, FaultKind, FaultPlace, Response};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "calibrated-after-brushes",
        breaks: |session| {
            session.insert_after(|action| writes(action, Field::Slope), Action::ChangeBrushes);
        },
        keeps: |session| {
            session.insert_after(|action| *action == Action::OpenLid, Action::ChangeBrushes);
        },
        // The sampler is plugged in when the line is written.
        also: &["isolated"],
    },
    Case {
        rule: "point-flows",
        breaks: |session| session.rewrite(Field::PointFlow(point(2)), "1.64"),
        keeps: |session| session.rewrite(Field::PointFlow(point(2)), "1.60"),
        also: &[],
    },
    Case {
        rule: "chart-expression",
        breaks: |session| {
            for number in PointNumber::all() {
                let Some(chart) = session.first_text(Field::Chart(number)) else { continue };
                session.rewrite(Field::ChartTerm(number), &chart);
            }
        },
        keeps: |session| session.rewrite(Field::Expression, "I sqrt(P/760 298/T)"),
        also: &[],
    },
    Case {
        rule: "chart-terms",
        breaks: |session| session.rewrite(Field::ChartTerm(point(2)), "51.0"),
        keeps: |session| {
            let term: f64 = session.text_of(Field::ChartTerm(point(2))).parse().unwrap();
            session.rewrite(Field::ChartTerm(point(2)), &format!("{term:.2}"));
        },
        also: &[],
    },
    Case {
        rule: "line",
        breaks: |session| {
            session.rewrite(Field::Slope, "33.0");
            session.rewrite(Field::Intercept, "0.5");
            session.rewrite(Field::SetPoint, "37.7");
        },
        keeps: |session| session.rewrite(Field::Slope, "32.4"),
        also: &[],
    },
    Case {
        rule: "worked-out-after",
        breaks: |session| {
            let flow = Field::PointFlow(point(2));
            let text = session.text_of(flow);
            session.without(|action| writes(action, flow));
            let early = Action::Write { field: flow, text };
            session.insert_after(|action| writes(action, Field::Chart(point(1))), early);
        },
        keeps: |session| {
            // A slip of the pen that is corrected at the desk.
            let leg = Field::Down(point(2));
            let text = session.text_of(leg);
            session.act_last(Action::Write { field: leg, text });
        },
        also: &[],
    },
    Case {
        rule: "correlation",
        breaks: |session| scatter(session, 2.6),
        keeps: |session| scatter(session, 0.4),
        // Such a wide scatter also breaks the other limits.
        also: &["residuals", "values-as-seen", "decision-sound", "last-line"],
    },
    Case {
        rule: "residuals",
        breaks: |session| move_pens(session, &[4], 1.7),
        keeps: |session| move_pens(session, &[4], 1.2),
        also: &[],
    },
    Case {
        rule: "last-line",
        breaks: |session| last_intercept(session, 6.5),
        keeps: |session| last_intercept(session, 5.5),
        also: &[],
    },
    Case {
        rule: "decision-written",
        breaks: |session| session.without(|action| writes(action, Field::Decision)),
        keeps: |session| {
            session.decide(Decision::CalibrationAccepted { line_moved: false }, "r fits")
        },
        also: &["record-judgeable"],
    },
    Case {
        rule: "decision-sound",
        breaks: TestSession::refuse,
        keeps: |session| {
            session.always(|facts| facts.faults = vec![Fault::OrificeNicked { area_pct: 6.0 }]);
            session.report(FaultPlace::Calibrator, Response::Rejected);
            session.refuse();
        },
        also: &[],
    },
    Case {
        rule: "false-alarms",
        breaks: |session| session.report(FaultPlace::Calibrator, Response::Rejected),
        keeps: |session| {
            session.always(|facts| facts.faults = vec![Fault::LowVoltage { by_v: 6.0 }]);
            session.report(FaultPlace::Blower, Response::Noted);
        },
        also: &[],
    },
    Case {
        rule: "agrees-with-reports",
        breaks: |session| {
            session.always(|facts| facts.faults = vec![Fault::KnobSlips { per_min: 0.02 }]);
            session.report_kind(FaultKind::KnobSlips, Response::Rejected);
            // The decision comes after the report.
            session.without(|action| writes(action, Field::Decision));
            session.decide(Decision::CalibrationAccepted { line_moved: false }, "");
        },
        keeps: |session| {
            session.always(|facts| facts.faults = vec![Fault::KnobSlips { per_min: 0.02 }]);
            session.report_kind(FaultKind::KnobSlips, Response::Noted);
        },
        also: &[],
    },
    Case {
        rule: "book-signed",
        breaks: |session| session.ended = Ending::TimeOut,
        keeps: |session| {
            session.ended = Ending::LeftRoof;
            session.end.thunder_since_s = Some(30.0);
        },
        also: &[],
    },
    Case {
        rule: "record-judgeable",
        breaks: |session| session.rewrite(Field::CertificateIntercept, ""),
        keeps: |session| session.rewrite(Field::CertificateIntercept, " \u{2212}0,0241"),
        also: &[],
    },
    Case {
        rule: "target-in-range",
        breaks: |session| {
            session.setup.work_order.target_flow_std_m3_min = 1.05;
            session.redo_sums();
        },
        keeps: |session| {
            // At altitude the same flow at standard conditions is more air.
            session.setup.work_order.target_flow_std_m3_min = 1.05;
            session.setup.work_order.run_pressure_mmhg = 604.0;
            session.redo_sums();
        },
        also: &[],
    },
    Case {
        rule: "target-as-ordered",
        breaks: |session| {
            // The line is used for 1.20, but the work order asks for 1.13.
            session.setup.work_order.target_flow_std_m3_min = 1.20;
            session.redo_sums();
            session.setup.work_order.target_flow_std_m3_min = 1.13;
        },
        keeps: |session| session.rewrite(Field::TargetFlow, "1.130"),
        also: &[],
    },
    Case {
        rule: "design-flow",
        breaks: |session| {
            // The design flow itself is written, in air in which the standard flow differs from it.
            let order = &mut session.setup.work_order;
            order.target_flow_actual_m3_min = Some(order.target_flow_std_m3_min);
            order.target_flow_std_m3_min *= 1.05;
        },
        keeps: |session| {
            let order = &mut session.setup.work_order;
            order.target_flow_actual_m3_min = Some(1.08);
            order.target_flow_std_m3_min *= 1.01;
        },
        also: &[],
    },
    Case {
        rule: "set-point",
        breaks: |session| move_set_point(session, 0.4),
        keeps: |session| move_set_point(session, -0.2),
        also: &[],
    },
    Case {
        rule: "set-point-written",
        breaks: |session| session.without(|action| writes(action, Field::SetPoint)),
        keeps: |session| {
            // A refused calibration needs no set point; the wandering mains justify the refusal.
            session.always(|facts| facts.faults = vec![Fault::WanderingVoltage { sd_v: 7.0 }]);
            session.report(FaultPlace::Blower, Response::Rejected);
            session.refuse();
        },
        also: &["record-judgeable"],
    },
];

/// Moves the pen alternately up and down, in truth and in the field book, and repeats the
/// calculations.
fn scatter(session: &mut TestSession, divisions: f64) {
    move_pens(session, &[1, 3, 5, 7], -divisions);
    move_pens(session, &[2, 4, 6], divisions);
}

/// Moves the pen at some points, in truth and in the field book, and repeats the calculations.
fn move_pens(session: &mut TestSession, numbers: &[u8], by: f64) {
    for &number in numbers {
        session.move_pen(point(number), by);
    }
    session.redo_sums();
}

/// Gives the last line another intercept and the slope of the bench.
fn last_intercept(session: &mut TestSession, intercept: f64) {
    if let Some(last) = &mut session.setup.work_order.last_line {
        last.intercept = intercept;
    }
}

/// Writes another chart reading for the set point.
fn move_set_point(session: &mut TestSession, by: f64) {
    let set_point: f64 = session.text_of(Field::SetPoint).parse().unwrap();
    session.rewrite(Field::SetPoint, &format!("{:.1}", set_point + by));
}
