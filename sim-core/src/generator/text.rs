//! A drawn job as the text of a scenario, laid out as a person would write it.

use std::fmt::Write as _;

use super::job::DrawnJob;
use super::level::{situation, title};
use super::order::OrderKind;
use crate::fault::{Fault, FaultKind, Onset};
use crate::rig::recorder::RecorderKind;
use crate::time::Date;

/// Half of the width in which weather is spread around what was drawn.
const PRESSURE_SD_MMHG: f64 = 1.0;
const TEMPERATURE_SD_C: f64 = 0.8;

/// The scenario of a job.
pub(super) fn scenario(job: &DrawnJob) -> String {
    let mut text = String::new();
    // Writing into a String cannot fail.
    let _ = writeln!(
        text,
        "// Drawn at level {} with seed {}. What is wrong stands under `faults`.\n(\n    format: 1,",
        job.level.number(),
        job.seed
    );
    let _ = writeln!(text, "    title: \"{}\",", title(job.level));
    let _ = writeln!(text, "    situation: \"{}\",", situation(job.level));
    let _ = writeln!(text, "    lesson: \"{}\",", lesson(job));
    if !job.about.is_empty() {
        let mut about = job.about.clone();
        about.dedup();
        let about: Vec<String> = about.iter().map(|habit| format!("\"{habit}\"")).collect();
        let _ = writeln!(text, "    about: [{}],", about.join(", "));
    }
    text.push_str(&site(job));
    text.push_str(&order(job));
    text.push_str(&weather(job));
    text.push_str(&instruments(job));
    text.push_str(&run_or_check(job));
    text.push_str(&papers(job));
    text.push_str(&faults(job));
    text.push_str(TERMS);
    text
}

/// Judgement counts more than usual on every drawn rig: whether anything is wrong is the question.
const TERMS: &str = "    terms: (
        sums: true,
        weights: (safety: 10, readings: 15, fit: 15, procedure: 10, judgement: 45, record: 5),
        pass_mark: 88,
    ),
)
";

/// What the rig taught, told after the work.
fn lesson(job: &DrawnJob) -> String {
    let what: Vec<&str> = job.faults.iter().map(|(fault, _)| fault.answer().0).collect();
    match what.as_slice() {
        [] => "Nothing was wrong with this rig. To say so after every check is as much as to find a fault."
            .to_owned(),
        [one] => format!("One thing was wrong with this rig: {one}."),
        more => format!("Two things were wrong with this rig: {}.", more.join(", and ")),
    }
}

fn site(job: &DrawnJob) -> String {
    format!(
        "    station: (
        name: \"{}\",
        elevation_m: {},
        date: \"{}\",
        start: \"{}\",
        sampler_serial: \"{}\",
    ),
",
        job.station, job.elevation_m, job.date, job.start, job.sampler
    )
}

fn order(job: &DrawnJob) -> String {
    // Slope and intercept are left out: they are those of the rig as drawn.
    let last_line = format!("(date: \"{}\")", job.last_line);
    let calibrator = &job.calibrator;
    let text = match job.order {
        OrderKind::Calibration => format!(
            "Calibrate the sampler with calibrator {calibrator}. Take {} points, decide whether the line can be accepted, and give the chart reading for the target flow.",
            job.points
        ),
        OrderKind::WithRun => format!(
            "Calibrate the sampler with calibrator {calibrator}, then load it for one sample, from midnight tonight to midnight tomorrow.\\nRecover the sample on the morning after the run, and work out its volume and its concentration."
        ),
        OrderKind::FlowCheck => format!(
            "Flow check with calibrator {calibrator}, against the last line. Do not calibrate.\\nTake four readings of standard and pen, with the standard above the filter that is in place and the blower on the flow controller."
        ),
        OrderKind::Plates => format!(
            "Calibrate the sampler with calibrator {calibrator}, which has fixed plates. Take one point with each plate, and decide whether the line can be accepted."
        ),
        OrderKind::Display => format!(
            "Calibrate the sampler with calibrator {calibrator} and the electronic manometer from the van. Take {} points, and decide whether the line can be accepted.",
            job.points
        ),
    };
    format!(
        "    work_order: (
        number: \"{}\",
        text: \"{text}\",
        calibrator_serial: \"{calibrator}\",
        target_flow_std_m3_min: {},
        run_pressure_mmhg: {},
        run_temperature_c: {},
        points: {},
        last_line: {last_line},
    ),
",
        job.order_number,
        job.target_std_m3_min,
        job.run_pressure_mmhg,
        job.run_temperature_c,
        job.points
    )
}

fn weather(job: &DrawnJob) -> String {
    format!(
        "    weather: (
        pressure_mmhg: Normal({}, {PRESSURE_SD_MMHG}),
        temperature_c: Normal({}, {TEMPERATURE_SD_C}),
        humidity_pct: Uniform({}, {}),
        temperature_k_h: Normal({}, 0.2),
        gust_sd_pa: Uniform({}, {:.1}),
        sun_k: Uniform({}, {}),
    ),
",
        job.pressure_mmhg,
        job.temperature_c,
        job.humidity_pct,
        job.humidity_pct + 10.0,
        job.warming_k_h,
        job.gust_pa,
        job.gust_pa + 0.4,
        job.sun_k,
        job.sun_k + 1.0
    )
}

fn instruments(job: &DrawnJob) -> String {
    let mut lines: Vec<&str> = Vec::new();
    match job.order {
        OrderKind::Plates => lines.push("calibrator_kind: FixedPlates"),
        OrderKind::Display => lines.push("manometer_kind: Electronic"),
        OrderKind::Calibration | OrderKind::WithRun | OrderKind::FlowCheck => {}
    }
    // Oil where the air may come near freezing: it is as dense as water and does not freeze.
    if job.order != OrderKind::Display && job.temperature_c < 4.0 {
        lines.push("manometer_fluid: gauge_oil");
    }
    if job.recorder == RecorderKind::Linear {
        lines.push("recorder_kind: Linear");
    }
    if lines.is_empty() {
        return String::new();
    }
    format!("    instruments: ({}),\n", lines.join(", "))
}

fn run_or_check(job: &DrawnJob) -> String {
    match job.order {
        OrderKind::WithRun => format!(
            "    run: (
        on: (day: 1, at: \"00:00\"),
        off: (day: 2, at: \"00:00\"),
        back: (day: 2, at: \"08:00\"),
        filters: [
            (number: \"F-{:02}-{:04}\", mass_g: 4.1162),
            (number: \"F-{:02}-{:04}\", mass_g: 4.0987),
        ],
    ),
",
            job.date.parts().0 % 100,
            job.filter_number,
            job.date.parts().0 % 100,
            job.filter_number + 1
        ),
        OrderKind::FlowCheck => {
            "    flow_check: (readings: 4, within_pct: 7, line: Last),\n".to_owned()
        }
        OrderKind::Calibration | OrderKind::Plates | OrderKind::Display => String::new(),
    }
}

fn papers(job: &DrawnJob) -> String {
    let own = |date: Date, more: &str| {
        format!("        (serial: \"{}\", date: \"{date}\"{more}),\n", job.calibrator)
    };
    let mut papers = String::new();
    if job.has(FaultKind::CertificateExpired) {
        papers.push_str(&own(
            job.certified.earlier(OVERDUE_DAYS),
            ", orifice_differs_pct: Uniform(-0.9, -0.5)",
        ));
        papers.push_str(&own(job.certified, ""));
    } else if job.has(FaultKind::CertificateOfAnother) {
        let (other, date) = (&job.other_calibrator, job.certified);
        let _ = writeln!(papers, "        (serial: \"{other}\", date: \"{date}\"),");
    } else if job.has(FaultKind::CertificateActualFirst) {
        papers.push_str(&own(job.certified, ", print: ActualFirst"));
    } else {
        papers.push_str(&own(job.certified, ""));
        if let Some(date) = job.older_paper {
            papers.push_str(&own(date, ", orifice_differs_pct: Uniform(-0.6, 0.6)"));
        }
    }
    format!("    certificates: [\n{papers}    ],\n")
}

/// The expired paper is this much older than the one in force, days: more than a year on any day.
const OVERDUE_DAYS: i64 = 370;

fn faults(job: &DrawnJob) -> String {
    if job.faults.is_empty() {
        return String::new();
    }
    let lines: String = job.faults.iter().map(|(fault, onset)| entry(fault, *onset)).collect();
    format!("    faults: [\n{lines}    ],\n")
}

/// One fault as it is written.
fn entry(fault: &Fault, onset: Onset) -> String {
    // What can be read can be written.
    let written = ron::to_string(fault).unwrap_or_default();
    match onset {
        Onset::Start => format!("        (fault: {written}),\n"),
        onset => {
            let onset = ron::to_string(&onset).unwrap_or_default();
            format!("        (fault: {written}, onset: {onset}),\n")
        }
    }
}
