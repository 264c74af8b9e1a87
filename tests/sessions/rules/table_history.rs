//! The history of a sampler: its control chart kept, read, and followed.

use sim_core::control_chart::ChartReading;
use sim_core::field_book::{Decision, Field};
use sim_core::time::Date;

use super::Case;
use super::script::Script;

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "history-kept",
        breaks: |script| script.without(|deed| deed.field() == Some(Field::HistoryPoint)),
        keeps: |script| {
            let point = script.number_of(Field::HistoryPoint);
            script.says(Field::HistoryPoint, &format!("{:.1} ", point + 0.1));
        },
        drags: &[],
    },
    Case {
        rule: "history-read",
        breaks: |script| reads(script, ChartReading::InControl, None),
        keeps: |script| reads(script, ChartReading::Jump, Date::new(2026, 1, 13).ok()),
        drags: &[],
    },
    Case {
        rule: "history-acted",
        breaks: |script| reads(script, ChartReading::Jump, None),
        // The day of the repair, and that of the first check after it.
        keeps: |script| reads(script, ChartReading::Jump, Date::new(2026, 2, 10).ok()),
        drags: &[],
    },
];

/// Reads the chart in this way, with what follows from it.
fn reads(script: &mut Script, shows: ChartReading, in_doubt_since: Option<Date>) {
    let calibrate_again = shows != ChartReading::InControl;
    script.decides(Decision::HistoryRead { shows, calibrate_again, in_doubt_since }, "");
}
