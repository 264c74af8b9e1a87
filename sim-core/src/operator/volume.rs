//! Phase L: the chart is read at intervals; mean air, volume, concentration and validity follow.

use super::memory::{Memory, OperatorPhase, PhaseProgress};
use super::recover::{DRAWS, drawn_min};
use super::{Observation, arithmetic, averages, flow_check, load};
use crate::calibration::{
    AirConditions, FilterMasses, HIGHEST_FLOW_M3_MIN, LOWEST_FLOW_M3_MIN, RUN_MINUTES,
    RUN_MINUTES_TOLERANCE, RunPart, RunVolume, concentration, run_volume,
};
use crate::field_book::{Field, PointNumber};
use crate::scenario::run::ScheduledTime;
use crate::scenario::setup::FlowOfRun;
use crate::session::action::{Decision, FaultKind, Response, Sight};
use crate::session::view::run::{RunStanding, RunView};

/// How many times the chart is read for each hour.
const READINGS_AN_HOUR: u32 = 1;
/// How far from its hour a reading of the trace may be taken, h.
const NEAR_H: f64 = 0.06;
/// Spread of the readings, divided by their mean, above which the run is divided into parts.
const CHANGED_MUCH: f64 = 0.10;
/// Length of a part, h.
const PART_H: usize = 4;

/// The calculations of the run.
#[derive(Debug, Default)]
pub(super) struct VolumePhase {
    looked: bool,
}

impl OperatorPhase for VolumePhase {
    fn go_on(&mut self, observed: &Observation<'_>, memory: &mut Memory) -> PhaseProgress {
        let Some(run) = observed.view.run.as_deref() else { return PhaseProgress::Finished };
        if run.standing != RunStanding::Back {
            return PhaseProgress::Finished;
        }
        if !self.looked {
            self.looked = true;
            memory.looks(Sight::WeatherSheet);
            memory.waits(60.0);
            return PhaseProgress::More;
        }
        worked_out(run, observed, memory);
        PhaseProgress::Finished
    }
}

/// The readings of the trace, one for each hour in which the pen recorded the run.
fn readings(run: &RunView, memory: &mut Memory) -> Vec<f64> {
    let Some(trace) = &run.kept_chart else { return Vec::new() };
    let hours = (0..24 * READINGS_AN_HOUR)
        .map(|number| (f64::from(number) + 0.5) / f64::from(READINGS_AN_HOUR));
    hours
        .filter_map(|hour| {
            let drawn = |&&(at, pen): &&(f64, f64)| (at - hour).abs() < NEAR_H && pen > DRAWS;
            trace.iter().find(drawn).map(|&(_, pen)| pen)
        })
        .map(|pen| memory.reads_chart(pen))
        .collect()
}

fn mean(values: impl ExactSizeIterator<Item = f64>) -> f64 {
    let count = values.len().max(1) as f64;
    values.sum::<f64>() / count
}

fn worked_out(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) {
    let number = |field| observed.book.number(field);
    let read = readings(run, memory);
    let before = number(Field::MeterBefore).unwrap_or_default();
    let minutes = if memory.has_reported(FaultKind::MeterDead) {
        by_the_record(run, observed, memory)
    } else {
        arithmetic::rounded(number(Field::MeterAfter).unwrap_or_default() - before, 1).max(0.0)
    };
    let chart = arithmetic::rounded(mean(read.iter().copied()), 1);
    let pressure = arithmetic::rounded(mean(run.weather.iter().map(|line| line.pressure_mmhg)), 1);
    let temperature =
        arithmetic::rounded(mean(run.weather.iter().map(|line| line.temperature_c)), 1);
    memory.writes(Field::RunMinutes, format!("{minutes:.1}"));
    memory.writes(Field::MeanChart, format!("{chart:.1}"));
    memory.writes(Field::RunPressure, format!("{pressure:.1}"));
    memory.writes(Field::RunTemperature, format!("{temperature:.1}"));
    let parts = parts(&read, chart, minutes, memory);
    let air = AirConditions::as_read(pressure, temperature).ok();
    let curve = air.and_then(|air| averages::line_in(air, memory));
    let sums = curve.zip(air).and_then(|(curve, air)| {
        let by_line = run_volume(curve, &parts, air).ok()?;
        let of_check = load::flow_of_run(observed) == FlowOfRun::Check;
        let start = number(Field::StartChart).filter(|_| of_check);
        match flow_check::ratio(curve, start, memory) {
            Some(ratio) => {
                let flow = ratio * by_line.mean_flow_std_m3_min;
                RunVolume::from_flow(flow, by_line.minutes, air).ok()
            }
            None => Some(by_line),
        }
    });
    if let Some(sums) = &sums {
        memory.writes(Field::RunFlow, format!("{:.3}", sums.mean_flow_std_m3_min));
        memory.writes(Field::Volume, format!("{:.1}", sums.volume_std_m3));
        let masses = run
            .masses
            .map(|masses| FilterMasses { before_g: masses.before_g, after_g: masses.after_g });
        let dust = masses.and_then(|masses| concentration(masses, sums).ok());
        if let Some(dust) = dust {
            memory.writes(Field::Concentration, format!("{:.1}", dust.ug_std_m3));
        }
    }
    memory.thinks(sums.as_ref().map_or_else(
        || format!("The run took {minutes:.0} min, and no flow can be worked out."),
        |sums| {
            format!(
                "The run took {minutes:.0} min ({:.0} to {:.0} are asked for) at {:.3} m3/min ({LOWEST_FLOW_M3_MIN:.1} to \
                 {HIGHEST_FLOW_M3_MIN:.1}).",
                RUN_MINUTES - RUN_MINUTES_TOLERANCE,
                RUN_MINUTES + RUN_MINUTES_TOLERANCE,
                sums.mean_flow_actual_m3_min
            )
        },
    ));
    let (validity, reason) = validity(sums.as_ref(), minutes, memory);
    memory.decides(validity, &reason);
}

/// How far set times and trace may be apart, min: a chart of a day is read no better.
const RECORDS_APART_MIN: f64 = 10.0;

/// The minutes of a run whose meter is dead: by the set times (40 CFR Part 50 App. B, 8.15), or by the
/// trace where the dial or the trace says that the run was another.
fn by_the_record(run: &RunView, observed: &Observation<'_>, memory: &mut Memory) -> f64 {
    let traced = run.kept_chart.as_deref().map_or(0.0, drawn_min);
    let set = observed.papers.work_order.run.as_ref().map_or(0.0, |order| {
        let minutes = |at: ScheduledTime| 1440.0 * f64::from(at.day) + 60.0 * at.at.hours();
        minutes(order.off) - minutes(order.on)
    });
    let dial_is_off = [FaultKind::PowerCut, FaultKind::TimerGains]
        .into_iter()
        .any(|kind| memory.has_reported(kind));
    let clock_is_slow = memory.has_reported(FaultKind::ChartClockSlow);
    let apart = (set - traced).abs() > RECORDS_APART_MIN && !clock_is_slow;
    let minutes = if traced > 0.0 && (dial_is_off || apart) { traced } else { set };
    memory.thinks(format!(
        "Without the meter: the set times give {set:.0} min, the trace {traced:.0} min; {minutes:.0} min are used."
    ));
    arithmetic::rounded(minutes, 0)
}

/// One part, or several if the flow changed much; several parts are written to the field book.
fn parts(read: &[f64], chart: f64, minutes: f64, memory: &mut Memory) -> Vec<RunPart> {
    let low = read.iter().copied().fold(f64::INFINITY, f64::min);
    let high = read.iter().copied().fold(0.0, f64::max);
    if !read.is_empty() {
        memory.thinks(format!(
            "The {} readings of the trace lie between {low:.1} and {high:.1} divisions, {:.0} % of their mean (one mean \
             serves below {:.0} %).",
            read.len(),
            100.0 * (high - low) / chart,
            100.0 * CHANGED_MUCH
        ));
    }
    if read.is_empty() || (high - low) < CHANGED_MUCH * chart {
        return vec![RunPart { chart, minutes }];
    }
    // A pen that sticks draws steps of its own.
    if !memory.has_reported(FaultKind::PenSticks) {
        memory.reports(
            FaultKind::FilterClogs,
            Response::Noted,
            "the trace falls: the filter loaded until the controller could not hold the flow",
        );
    }
    let each = minutes / read.len() as f64;
    let parts: Vec<RunPart> = read
        .chunks(PART_H)
        .map(|hours| RunPart {
            chart: arithmetic::rounded(mean(hours.iter().copied()), 1),
            minutes: arithmetic::rounded(each * hours.len() as f64, 1),
        })
        .collect();
    for (part, number) in parts.iter().zip(PointNumber::all()) {
        memory.writes(Field::PartChart(number), format!("{:.1}", part.chart));
        memory.writes(Field::PartMinutes(number), format!("{:.1}", part.minutes));
    }
    parts
}

/// What the operator decides about the sample, and why.
fn validity(sums: Option<&RunVolume>, minutes: f64, memory: &Memory) -> (Decision, String) {
    let mut against: Vec<String> = Vec::new();
    if (minutes - RUN_MINUTES).abs() > RUN_MINUTES_TOLERANCE {
        against.push(format!("{minutes:.0} min, 1380 to 1500 are asked for"));
    }
    let range = LOWEST_FLOW_M3_MIN..=HIGHEST_FLOW_M3_MIN;
    match sums {
        Some(sums) if !range.contains(&sums.mean_flow_actual_m3_min) => {
            against.push(format!("mean flow {:.3} m3/min", sums.mean_flow_actual_m3_min));
        }
        None => against.push("no flow can be worked out".to_owned()),
        Some(_) => {}
    }
    if memory.filter_torn {
        against.push("the filter is torn".to_owned());
    }
    let decision =
        if against.is_empty() { Decision::SampleValid } else { Decision::SampleNotValid };
    (decision, against.join("; "))
}
