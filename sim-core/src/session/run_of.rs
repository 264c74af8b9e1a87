//! What can be seen of a run, and what is true of it.

use super::action::Sight;
use super::ground_truth::{RunGroundTruth, SampleTruth};
use super::state::SessionState;
use super::unattended_run::{RunStage, UnattendedRun};
use super::view::run::{
    DialView, FilterView, Holes, LabMasses, RunStanding, RunView, TripperView, WeatherLine,
};
use crate::rig::flow::filter::FilterSheet;
use crate::rig::parts::{PartPlace, RigPart, Trip};
use crate::scenario::setup::Setup;
use crate::time::{TICKS_PER_SECOND, Tick};
use crate::units::{PA_PER_MMHG, ZERO_CELSIUS_K};

/// Holes larger than this are visible to the naked eye, mm2.
const TEAR_MM2: f64 = 16.0;
/// Deposit at which the face counts as fully grey, kg/m2 (CHOSEN).
const GREY_KG_M2: f64 = 0.01;
/// Wetness from which a sheet feels damp.
const DAMP: f64 = 1.1;

/// What can be seen of the run, if one is ordered.
pub(super) fn view(state: &SessionState, setup: &Setup) -> Option<RunView> {
    let run = state.run?;
    let back = run.stage == RunStage::Back;
    let folder = setup.work_order.run.as_ref().map_or(0, |order| order.filters.len() as u8);
    let kept = state.rig.kept_chart.as_ref();
    Some(RunView {
        standing: match run.stage {
            RunStage::Before => RunStanding::Before,
            RunStage::Away(_) => RunStanding::Away,
            RunStage::Back => RunStanding::Back,
        },
        back: (
            setup.station.date.later(days_at(setup, run.back)),
            setup.station.start.after(run.back),
        ),
        timer: dial(state),
        filter: filter(state, setup),
        fresh_filters: folder.saturating_sub(run.taken),
        added_filters: state.rig.added.sheets,
        takes_fresh: super::apply::run::takes_fresh(state, setup),
        weather: if back { weather(state, setup, &run) } else { Vec::new() },
        kept_chart: kept
            .map(|paper| paper.trace().iter().map(|ink| (ink.hour, ink.divisions)).collect()),
        masses: masses(state, setup, &run),
        sample: state.rig.kept_filter.and_then(|kept| number_of(&kept.sheet, setup)),
    })
}

/// Days from the day of the session to the day of a tick.
pub(super) fn days_at(setup: &Setup, tick: Tick) -> i64 {
    let hours = setup.station.start.hours() + tick.seconds() / 3600.0;
    (hours / 24.0).floor() as i64
}

fn dial(state: &SessionState) -> DialView {
    let timer = &state.rig.timer;
    let told = timer.dial(state.station.surroundings().week);
    let close = state.eyes.focus == Sight::Timer;
    let tripper = |which| {
        let tripper = timer.tripper(which);
        TripperView {
            weekday: tripper.weekday,
            hours: tripper.hours,
            loose: close.then(|| timer.is_loose(which)),
        }
    };
    DialView {
        weekday: told.weekday,
        hours: told.hours,
        on: tripper(Trip::On),
        off: tripper(Trip::Off),
        meter_min: timer.elapsed_s() / 60.0,
    }
}

fn filter(state: &SessionState, setup: &Setup) -> FilterView {
    let rig = &state.rig;
    let (sheet, place) = (&rig.filter.sheet, rig.mounting.place(RigPart::Filter));
    let in_hand = place == PartPlace::Hand;
    let close = state.eyes.focus == Sight::Filter;
    let on_holder = place == PartPlace::Holder && rig.mounting.lid_open;
    let number = number_of(sheet, setup);
    let holes = match sheet.holes_mm2 {
        holes if holes > TEAR_MM2 && (in_hand || close) => Some(Holes::Tear),
        holes if holes > 0.0 && sheet.seen_through => Some(Holes::Pinholes),
        _ => sheet.seen_through.then_some(Holes::Sound),
    };
    FilterView {
        number: number.filter(|_| in_hand || close || sheet.in_envelope),
        up: sheet.up,
        holes,
        seat: (close && on_holder).then_some(sheet.seat),
        grip: in_hand.then_some(sheet.grip),
        grey: (rig.filter.deposit_kg_m2 / GREY_KG_M2).min(1.0),
        damp: sheet.wetness > DAMP,
        folded_out: sheet.folded_out,
        in_envelope: sheet.in_envelope,
    }
}

/// The number on a filter sheet's edge, if the sheet came from the folder.
fn number_of(sheet: &FilterSheet, setup: &Setup) -> Option<String> {
    let filters = &setup.work_order.run.as_ref()?.filters;
    Some(filters.get(usize::from(sheet.number).checked_sub(1)?)?.number.clone())
}

/// The lines that the logger printed for the ordered hours of the run.
fn weather(state: &SessionState, setup: &Setup, run: &UnattendedRun) -> Vec<WeatherLine> {
    let (Some(sample), Some(order)) = (&state.rig.sample, &setup.work_order.run) else {
        return Vec::new();
    };
    let off = order.off.tick(setup.station.start).unwrap_or(run.back);
    let tenth = |value: f64| (value * 10.0).round() / 10.0;
    let left_s = run.left.seconds();
    sample
        .log()
        .iter()
        .map(|line| (line, left_s + 3600.0 * line.hours))
        .filter(|(_, at)| (run.on.seconds()..=off.seconds() + 1.0).contains(at))
        .map(|(line, at)| {
            let tick = Tick((at * TICKS_PER_SECOND as f64).round() as u64);
            WeatherLine {
                date: setup.station.date.later(days_at(setup, tick)),
                time: setup.station.start.after(tick),
                pressure_mmhg: tenth(line.pressure_pa / PA_PER_MMHG),
                temperature_c: tenth(line.temperature_k - ZERO_CELSIUS_K),
            }
        })
        .collect()
}

/// What the laboratory wrote about the filter of the run, once it is in its envelope.
fn masses(state: &SessionState, setup: &Setup, run: &UnattendedRun) -> Option<LabMasses> {
    let index = usize::from(state.rig.run_filter().sheet.number).checked_sub(1)?;
    let before_g = setup.work_order.run.as_ref()?.filters.get(index)?.mass_g;
    let after_g = tenth_mg(before_g + gained_g(state, run)?);
    Some(LabMasses { before_g, after_g })
}

/// The gain in mass that the laboratory finds, g, once the filter of the run is folded in its
/// envelope.
fn gained_g(state: &SessionState, run: &UnattendedRun) -> Option<f64> {
    let rig = &state.rig;
    let filter = rig.run_filter();
    let sheet = &filter.sheet;
    let there = run.stage == RunStage::Back && sheet.in_envelope && sheet.folded_out.is_some();
    there.then(|| tenth_mg(1e3 * filter.gained_kg(&rig.parameters.filter)))
}

/// Rounded as a balance reads: to a tenth of a milligram.
fn tenth_mg(grams: f64) -> f64 {
    (grams * 1e4).round() / 1e4
}

/// What is true of the run, if one is ordered.
pub(super) fn ground_truth(state: &SessionState) -> Option<RunGroundTruth> {
    let run = state.run?;
    let rig = &state.rig;
    let timer = &rig.timer;
    let now = state.station.surroundings().week;
    let dial_ahead_min = 60.0 * timer.dial(now).hours_after(now);
    let chart_ahead_h = (rig.chart.hour() - now.hours + 12.0).rem_euclid(24.0) - 12.0;
    let sample = rig.sample.as_ref();
    Some(RunGroundTruth {
        left: run.stage != RunStage::Before,
        back: run.stage == RunStage::Back,
        sheet: rig.run_filter().sheet,
        next_sheet: rig.kept_filter.map(|_| rig.filter.sheet),
        deposit_kg_m2: rig.run_filter().deposit_kg_m2,
        added_filters: rig.added.sheets,
        timer_switch: timer.switch,
        trippers: [Trip::On, Trip::Off].map(|which| {
            let tripper = timer.tripper(which);
            (tripper.weekday, tripper.hours)
        }),
        tripper_loose: [Trip::On, Trip::Off].map(|which| timer.is_loose(which)),
        dial_ahead_min,
        meter_min: timer.elapsed_s() / 60.0,
        chart_ahead_min: 60.0 * chart_ahead_h,
        chart_ink: rig.chart.trace().len(),
        chart_kept: rig.kept_chart.is_some(),
        recorder_open: rig.recorder.is_door_open(),
        set_std_m3_min: rig.flow_controller.set_point_std_m3_min(&rig.parameters.flow_controller),
        gained_g: gained_g(state, &run),
        truth: sample.map(|sample| SampleTruth {
            volume_std_m3: sample.volume_std_m3,
            filtered_std_m3: sample.filtered_std_m3,
            powered_min: sample.powered_s / 60.0,
            starts: sample.starts,
            lowest_std_m3_min: sample.lowest_std_m3_min,
            highest_std_m3_min: sample.highest_std_m3_min,
            mean_flow_std_m3_min: sample.mean_flow_std_m3_min().unwrap_or(0.0),
            mean_pressure_mmhg: sample.mean_pressure_pa().unwrap_or(0.0) / PA_PER_MMHG,
            mean_temperature_c: sample
                .mean_temperature_k()
                .map_or(0.0, |kelvin| kelvin - ZERO_CELSIUS_K),
            mean_pen: sample.mean_pen().unwrap_or(0.0),
            mean_pen_at_rest: sample.mean_pen_at_rest().unwrap_or(0.0),
        }),
    })
}
