//! The controller tested with added filters.

use sim_core::field_book::Field;
use sim_core::rig::parts::TimerSwitch;
use sim_core::session::action::{Action, Sight};
use sim_core::time::TICKS_PER_SECOND;

use super::Case;
use super::deeds::{does, looks, timer};
use super::script::Script;

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "added-filters-made",
        breaks: |script| {
            // The second filter is never laid on; what is read with one of them stands for two.
            let lays = script.last(does(Action::AddFilter));
            script.drop_at(lays);
            let lifts = script.last(does(Action::RemoveAddedFilter));
            script.drop_at(lifts);
        },
        keeps: |script| {
            // It is taken off and laid on again before anything is read.
            let lays = script.first(does(Action::AddFilter));
            script.insert(lays + 1, [Action::RemoveAddedFilter, Action::AddFilter]);
        },
        drags: &[],
    },
    Case {
        rule: "added-filters-as-it-runs",
        breaks: |script| reads_sooner(script, 200),
        keeps: |script| reads_sooner(script, 9),
        drags: &[],
    },
    Case {
        rule: "added-filters-sums",
        breaks: |script| changes(script, 3.0),
        keeps: |script| changes(script, 0.7),
        drags: &[],
    },
    Case {
        rule: "added-filters-judged",
        breaks: |script| {
            let held = script.number_of(Field::FiltersHeld);
            script.says(Field::FiltersHeld, &format!("{}", held + 1.0));
        },
        keeps: |script| {
            let held = script.number_of(Field::FiltersHeld);
            script.says(Field::FiltersHeld, &format!("{held:.1}"));
        },
        drags: &[],
    },
    Case {
        rule: "added-filters-off",
        breaks: |script| {
            let lifts = script.last(does(Action::RemoveAddedFilter));
            script.drop_at(lifts);
            // It comes off with the sample.
            let takes = script.last(super::table_i::takes_filter);
            script.insert(takes, [Action::RemoveAddedFilter]);
        },
        keeps: |script| {
            let lifts = script.last(does(Action::RemoveAddedFilter));
            script.insert(lifts + 1, [Action::AddFilter, Action::RemoveAddedFilter]);
        },
        drags: &[],
    },
];

/// Reads the pen with the second filter sooner after the blower was switched on; it runs as long as
/// before.
fn reads_sooner(script: &mut Script, seconds: u64) {
    let on = script.back(script.written(Field::SecondFilterChart), does(timer(TimerSwitch::On)));
    let waits = script.from(on, |deed| looks(Sight::Pen)(deed));
    script.hurry(waits, seconds);
    let off = script.from(waits, does(timer(TimerSwitch::Off)));
    script.steps[off].ticks += seconds * TICKS_PER_SECOND;
}

/// Writes another change of the flow with the second filter.
fn changes(script: &mut Script, by_pct: f64) {
    let change = script.number_of(Field::SecondFilterChange);
    script.says(Field::SecondFilterChange, &format!("{:+.1}", change + by_pct));
}
