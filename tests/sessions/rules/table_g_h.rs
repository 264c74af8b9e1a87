//! Sums, decision and set point.

use sim_core::field_book::{Decision, Field};
use sim_core::rig::parts::BlowerPlug;
use sim_core::session::action::{Action, FaultKind, FaultPlace, Response, Sight};
use sim_core::time::TICKS_PER_SECOND;

use super::Case;
use super::deeds::does;
use super::script::{Deed, Script, point};
use super::table_a_b::thunder;
use crate::sessions::cost::common::root;

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "calibrated-after-brushes",
        breaks: |script| {
            let place = script.written(Field::Slope);
            script.insert(place, brushes());
        },
        keeps: |script| {
            let place = script.first(does(Action::OpenLid));
            script.insert(place, brushes());
        },
        drags: &[],
    },
    Case {
        rule: "point-flows",
        breaks: |script| {
            let flow = script.number_of(Field::PointFlow(point(4)));
            script.says(Field::PointFlow(point(4)), &format!("{:.3}", flow + 0.02));
        },
        keeps: |script| {
            let flow = script.number_of(Field::PointFlow(point(4)));
            script.says(Field::PointFlow(point(4)), &format!("{flow:.2}"));
        },
        drags: &[],
    },
    Case {
        rule: "chart-expression",
        breaks: |script| {
            // The root over the chart reading, as for an indicator that is linear in pressure.
            let air = root(script.number_of(Field::Pressure), script.number_of(Field::Temperature));
            let term = script.number_of(Field::Chart(point(4))).sqrt() * air;
            script.says(Field::ChartTerm(point(4)), &format!("{term:.2}"));
        },
        keeps: |script| script.says(Field::Expression, "square root"),
        drags: &[],
    },
    Case {
        rule: "chart-terms",
        breaks: |script| {
            let term = script.number_of(Field::ChartTerm(point(4)));
            script.says(Field::ChartTerm(point(4)), &format!("{:.2}", term + 0.3));
        },
        keeps: |script| {
            let term = script.number_of(Field::ChartTerm(point(4)));
            script.says(Field::ChartTerm(point(4)), &format!("{term:.1}"));
        },
        drags: &[],
    },
    Case {
        rule: "line",
        breaks: |script| steeper(script, 1.02),
        keeps: |script| steeper(script, 1.009),
        drags: &[],
    },
    Case {
        rule: "worked-out-after",
        breaks: |script| {
            let field = Field::PointFlow(point(2));
            let text = script.text_of(field);
            script.drop_at(script.written(field));
            let early = script.written(Field::Chart(point(1)));
            script.insert(early, [Action::Write { field, text }]);
        },
        keeps: |script| {
            // A slip of the pen that is corrected at the desk.
            let (field, text) = (Field::Down(point(2)), script.text_of(Field::Down(point(2))));
            let flow = script.written(Field::PointFlow(point(2)));
            script.insert(flow + 1, [Action::Write { field, text }]);
        },
        drags: &[],
    },
    Case {
        rule: "correlation",
        breaks: |script| scatters(script, 0.9),
        keeps: |script| scatters(script, 0.3),
        drags: &[("residuals", "such a scatter carries a point away from the line as well")],
    },
    Case {
        rule: "residuals",
        breaks: |script| {
            script.misreads(Field::Chart(point(4)), -1.9);
            script.misreads(Field::Up(point(4)), 0.14);
        },
        keeps: |script| script.misreads(Field::Chart(point(4)), -1.5),
        drags: &[],
    },
    Case {
        rule: "last-line",
        breaks: last_line_elsewhere,
        keeps: |script| {
            last_line_elsewhere(script);
            let moved = Decision::CalibrationAccepted { line_moved: true };
            script.decides(moved, "the recorder was cleaned since August");
        },
        drags: &[],
    },
    Case {
        rule: "decision-written",
        breaks: |script| script.without(|deed| deed.field() == Some(Field::Decision)),
        keeps: |script| {
            script.decides(Decision::CalibrationAccepted { line_moved: false }, "r fits")
        },
        drags: &[("record-judgeable", "nobody knows what became of the line")],
    },
    Case {
        rule: "decision-sound",
        breaks: Script::refuses,
        keeps: |script| {
            script.with_fault("OrificeNicked(area_pct: 6)");
            script.reports(FaultPlace::Calibrator, Sight::Calibrator, Response::Rejected);
            script.refuses();
        },
        drags: &[],
    },
    Case {
        rule: "false-alarms",
        breaks: |script| {
            script.reports(FaultPlace::Calibrator, Sight::Calibrator, Response::Noted);
        },
        keeps: |script| {
            script.with_fault("LowVoltage(by_v: 6)");
            script.reports(FaultPlace::Blower, Sight::Blower, Response::Noted);
        },
        drags: &[],
    },
    Case {
        rule: "agrees-with-reports",
        // The knob slips: an operator may note it, but not reject the calibrator and use its line.
        breaks: |script| {
            script.with_fault("KnobSlips(per_min: -0.01)");
            script.reports_kind(FaultKind::KnobSlips, Sight::Calibrator, Response::Rejected);
        },
        keeps: |script| {
            script.with_fault("KnobSlips(per_min: -0.01)");
            script.reports_kind(FaultKind::KnobSlips, Sight::Calibrator, Response::Noted);
        },
        drags: &[],
    },
    Case {
        rule: "book-signed",
        breaks: leaves,
        keeps: |script| {
            // Thunder just before the signature.
            let ticks: u64 = script.steps.iter().map(|step| step.ticks).sum();
            thunder(
                script,
                ((ticks as f64 / TICKS_PER_SECOND as f64 - 2.0) / 60.0 * 100.0).floor() / 100.0,
            );
            leaves(script);
        },
        drags: &[],
    },
    Case {
        rule: "record-judgeable",
        breaks: |script| {
            script.without(|deed| deed.field() == Some(Field::CertificateIntercept));
        },
        keeps: |script| {
            let intercept = script.text_of(Field::CertificateIntercept).replace('.', ",");
            script.says(Field::CertificateIntercept, &intercept);
        },
        drags: &[],
    },
    Case {
        rule: "target-in-range",
        breaks: |script| ordered(script, 1.05),
        // In the thin and warm air of this bench that is 1.11 m3/min.
        keeps: |script| ordered(script, 1.07),
        drags: &[],
    },
    Case {
        rule: "target-as-ordered",
        breaks: |script| script.says(Field::TargetFlow, "1.25"),
        keeps: |script| script.says(Field::TargetFlow, "1,2"),
        drags: &[],
    },
    Case {
        rule: "design-flow",
        breaks: |script| {
            by_design_flow(script);
            script.says(Field::TargetFlow, "1.2");
        },
        keeps: by_design_flow,
        drags: &[],
    },
    Case {
        rule: "set-point",
        breaks: |script| {
            // For the air of the calibration, and not for that of the run.
            let term = script.number_of(Field::Slope) * script.number_of(Field::TargetFlow)
                + script.number_of(Field::Intercept);
            let air = root(script.number_of(Field::Pressure), script.number_of(Field::Temperature));
            script.says(Field::SetPoint, &format!("{:.1}", term / air));
        },
        keeps: |script| {
            let chart = script.number_of(Field::SetPoint);
            script.says(Field::SetPoint, &format!("{:.1}", chart - 0.2));
        },
        drags: &[],
    },
    Case {
        rule: "set-point-written",
        breaks: |script| script.without(|deed| deed.field() == Some(Field::SetPoint)),
        keeps: |script| {
            // What is refused needs none; the wandering mains bear the refusal out.
            script.with_fault("WanderingVoltage(sd_v: 4)");
            script.reports(FaultPlace::Blower, Sight::Blower, Response::Rejected);
            script.refuses();
        },
        drags: &[("record-judgeable", "what is not written cannot be compared")],
    },
];

/// Writes a slope that is off by a factor.
fn steeper(script: &mut Script, factor: f64) {
    let slope = script.number_of(Field::Slope);
    script.says(Field::Slope, &format!("{:.2}", factor * slope));
}

/// Misreads the pen to one side and the other, where the points lie close together.
fn scatters(script: &mut Script, divisions: f64) {
    script.crowds();
    for number in 1..=7 {
        let by = if number % 2 == 0 { divisions } else { -divisions };
        script.misreads(Field::Chart(point(number)), by);
        script.misreads(Field::Up(point(number)), -0.15 * by);
    }
}

/// The last line had an intercept that was larger by some divisions.
fn last_line_elsewhere(script: &mut Script) {
    script.on(
        r#"last_line: (date: "2026-08-03")"#,
        r#"last_line: (date: "2026-08-03", slope: 32.2, intercept: 5.9)"#,
    );
}

/// The inlet selects by size: its design flow is ordered.
fn by_design_flow(script: &mut Script) {
    script.on("target_flow_std_m3_min: 1.2", "target_flow_actual_m3_min: 1.2");
}

/// Leaves the roof instead of signing.
fn leaves(script: &mut Script) {
    let sign = script.last(does(Action::Sign));
    script.steps[sign].deed = Deed::Does(Action::LeaveRoof);
}

/// Another flow is ordered, and the last point lies low enough for it.
fn ordered(script: &mut Script, flow: f64) {
    script.on("target_flow_std_m3_min: 1.2", &format!("target_flow_std_m3_min: {flow}"));
    script.opens(&[0.71, 0.57, 0.46, 0.39, 0.33, 0.26]);
}

/// The motor unplugged, and its brushes changed.
fn brushes() -> [Action; 2] {
    [Action::PlugBlower { into: BlowerPlug::Loose }, Action::ChangeBrushes]
}
