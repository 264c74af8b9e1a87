//! The check of the flow.

use sim_core::field_book::{Decision, Field};
use sim_core::rig::parts::Leg;
use sim_core::session::action::Action;
use sim_core::time::Date;

use super::Case;
use super::script::{Script, point};

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "check-made",
        breaks: three_readings,
        keeps: |script| {
            three_readings(script);
            script.on("flow_check: (readings: 4", "flow_check: (readings: 3");
        },
        drags: &[],
    },
    Case {
        rule: "check-as-it-runs",
        breaks: |script| shuts(script, -1),
        keeps: |script| {
            shuts(script, -1);
            shuts(script, 1);
        },
        drags: &[],
    },
    Case {
        rule: "check-read",
        breaks: |script| reads_more(script, 0.16),
        keeps: |script| reads_more(script, 0.05),
        drags: &[],
    },
    Case {
        rule: "check-sums",
        breaks: |script| {
            let difference = script.number_of(Field::CheckDifference);
            script.says(Field::CheckDifference, &format!("{:.1}", difference + 1.5));
        },
        keeps: |script| {
            let difference = script.number_of(Field::CheckDifference);
            script.says(Field::CheckDifference, &format!("{:.1}", difference + 0.3));
        },
        drags: &[],
    },
    Case {
        rule: "check-judged",
        breaks: |script| {
            let since = Date::new(2026, 3, 24).ok();
            let failed = Decision::CheckFailed { calibrate_again: true, not_valid_since: since };
            script.decides(failed, "");
        },
        keeps: |script| script.decides(Decision::CheckPassed, "within 5 %"),
        drags: &[],
    },
    Case {
        rule: "check-trimmed",
        breaks: |script| {
            ordered(script, 1.36);
            let failed = Decision::CheckFailed { calibrate_again: true, not_valid_since: None };
            script.decides(failed, "");
        },
        keeps: |script| ordered(script, 1.28),
        drags: &[],
    },
];

/// Orders another flow than the one to which the controller is trimmed; the percent difference follows.
fn ordered(script: &mut Script, flow: f64) {
    script.on("target_flow_std_m3_min: 1.25", &format!("target_flow_std_m3_min: {flow}"));
    let standard = script.number_of(Field::CheckFlow);
    script.says(Field::CheckDifference, &format!("{:.1}", 100.0 * (flow / standard - 1.0)));
}

/// Leaves out the last reading.
fn three_readings(script: &mut Script) {
    let last = point(4);
    let fields = [Field::CheckUp(last), Field::CheckDown(last), Field::CheckChart(last)];
    script.without(|deed| deed.field().is_some_and(|field| fields.contains(&field)));
}

/// Turns a valve by a quarter before the first reading.
fn shuts(script: &mut Script, quarter_turns: i8) {
    let first = script.written(Field::CheckChart(point(1)));
    script.insert(first, [Action::TurnValve { leg: Leg::Right, quarter_turns }]);
}

/// Writes more for a leg than is seen; the sums follow.
fn reads_more(script: &mut Script, by_in: f64) {
    let leg = Field::CheckUp(point(2));
    let up = script.number_of(leg);
    // A quarter of the readings, and half of that in flow; both legs together are some 2.9 in.
    let flow = script.number_of(Field::CheckFlow) * (1.0 + by_in / 2.9 / 8.0);
    let line = script.number_of(Field::CheckLineFlow);
    script.says(leg, &format!("{:.2}", up + by_in));
    script.says(Field::CheckFlow, &format!("{flow:.3}"));
    script.says(Field::CheckDifference, &format!("{:.1}", 100.0 * (line / flow - 1.0)));
}
