//! Recovering the sample, and its volume.

use sim_core::field_book::{Decision, Field, PointNumber};
use sim_core::session::action::{Action, Sight};

use super::Case;
use super::deeds::{does, looks};
use super::script::{Deed, Script};
use super::table_i::meter;
use crate::sessions::cost::common::root;

/// A day of dust under which the controller cannot hold the flow.
const STORM: &str = "FilterClogs(factor: 250), onset: AfterRunHours(6)";

/// The table.
pub const CASES: &[Case] = &[
    Case {
        rule: "meter-after",
        breaks: |script| meter(script, Field::MeterAfter, 0.9),
        keeps: |script| meter(script, Field::MeterAfter, 0.4),
        drags: &[],
    },
    Case {
        rule: "end-reading",
        breaks: |script| reads_end_sooner(script, 150),
        keeps: |script| reads_end_sooner(script, 9),
        drags: &[],
    },
    Case {
        rule: "chart-kept",
        breaks: |script| script.without(does(Action::TakeChart)),
        keeps: |script| {
            let takes = script.first(does(Action::TakeChart));
            script.wait(takes, 600);
        },
        drags: &[],
    },
    Case {
        rule: "filter-folded",
        breaks: |script| script.without(folds),
        keeps: |script| {
            let fold = script.last(folds);
            script.wait(fold, 120);
        },
        drags: &[],
    },
    Case {
        rule: "custody-written",
        breaks: |script| script.says(Field::FilterNumber, "F-26-0899"),
        keeps: |script| script.says(Field::FilterNumber, "f-26-0801"),
        drags: &[],
    },
    Case {
        rule: "run-minutes",
        breaks: |script| slips(script, Field::RunMinutes, -40.0),
        keeps: |script| slips(script, Field::RunMinutes, -0.9),
        drags: &[],
    },
    Case {
        rule: "mean-chart",
        breaks: |script| slips(script, Field::MeanChart, 2.2),
        keeps: |script| slips(script, Field::MeanChart, 0.9),
        drags: &[],
    },
    Case {
        rule: "run-air",
        breaks: |script| slips(script, Field::RunTemperature, 5.0),
        keeps: |script| slips(script, Field::RunTemperature, 1.2),
        drags: &[],
    },
    Case {
        rule: "run-volume",
        breaks: |script| volume(script, 1.01),
        keeps: |script| {
            slips(script, Field::MeanChart, 0.0);
            volume(script, 1.001);
        },
        drags: &[],
    },
    Case {
        rule: "run-split",
        breaks: |script| {
            // On a square-root chart one mean would give the same volume.
            script.on("    instruments: (", "    instruments: (recorder_kind: Linear, ");
            *script = script.rehearsed_with(STORM);
            script.without(is_part);
            slips(script, Field::MeanChart, 0.0);
        },
        keeps: |script| *script = script.rehearsed_with(STORM),
        drags: &[],
    },
    Case {
        rule: "concentration",
        breaks: |script| concentration(script, 1.1),
        keeps: |script| concentration(script, 1.004),
        drags: &[],
    },
    Case {
        rule: "validity-judged",
        breaks: |script| script.decides(Decision::SampleNotValid, "it looks odd"),
        keeps: |script| script.decides(Decision::SampleValid, "nothing speaks against it"),
        drags: &[],
    },
];

fn folds(deed: &Deed) -> bool {
    matches!(deed, Deed::Does(Action::FoldFilter { .. }))
}

fn is_part(deed: &Deed) -> bool {
    PointNumber::all().any(|part| {
        [Field::PartChart(part), Field::PartMinutes(part)].map(Some).contains(&deed.field())
    })
}

/// Reads the pen sooner after the blower was switched on.
fn reads_end_sooner(script: &mut Script, seconds: u64) {
    let waits = script.back(script.written(Field::EndChart), looks(Sight::Pen));
    script.hurry(waits, seconds);
}

/// Writes another number for the run; volume and concentration follow from it.
fn slips(script: &mut Script, field: Field, by: f64) {
    let dust = script.number_of(Field::Concentration) * script.number_of(Field::Volume);
    let number = script.number_of(field);
    script.says(field, &format!("{:.1}", number + by));
    let air = root(script.number_of(Field::RunPressure), script.number_of(Field::RunTemperature));
    let chart = script.number_of(Field::MeanChart);
    let linear = script.text.contains("recorder_kind: Linear");
    let term = if linear { chart.sqrt() } else { chart } * air;
    let flow = (term - script.number_of(Field::Intercept)) / script.number_of(Field::Slope);
    let volume = flow * script.number_of(Field::RunMinutes);
    script.says(Field::Volume, &format!("{volume:.1}"));
    script.says(Field::Concentration, &format!("{:.1}", dust / volume));
}

/// Writes another volume; the concentration follows from it.
fn volume(script: &mut Script, by: f64) {
    let volume = script.number_of(Field::Volume);
    script.says(Field::Volume, &format!("{:.1}", volume * by));
    concentration(script, 1.0 / by);
}

/// Writes another concentration.
fn concentration(script: &mut Script, by: f64) {
    let dust = script.number_of(Field::Concentration);
    script.says(Field::Concentration, &format!("{:.1}", dust * by));
}
