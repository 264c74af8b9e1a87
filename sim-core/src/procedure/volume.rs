//! Phase L, the volume: minutes, mean chart, mean air, volume, concentration, valid or not.

use super::evidence::Evidence;
use super::faults::faults_in_force;
use super::flow_check;
use super::outcome::{Outcome, beyond};
use super::own_sums::own_curve;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use super::set_point::RANGE_ACTUAL_M3_MIN;
use crate::calibration::{
    AVERAGES_PRESSURE_WINDOW_MMHG, AVERAGES_TEMPERATURE_WINDOW_K, AirConditions, RUN_MINUTES,
    RUN_MINUTES_TOLERANCE, RecorderScale, RunPart, RunVolume, run_volume,
};
use crate::fault::FaultKind;
use crate::field_book::{Decision, Field, PointNumber};
use crate::session::ground_truth::SampleTruth;
use crate::time::spoken;
use crate::units::for_text;

/// How far the minutes may be from the difference of the written meter readings.
const MINUTES_OFF: f64 = 1.1;
/// How far the minutes may be from the time that really passed, when they are taken from the set times
/// or read off the trace (CHOSEN: half a division of a chart of a day).
const RECORD_OFF_MIN: f64 = 8.0;
/// How far the mean chart reading may be from that of the trace, divisions (CHOSEN).
const MEAN_OFF: f64 = 1.5;
/// How far the mean pressure of the run may be off, mmHg (CHOSEN: 0.2 % of flow).
const PRESSURE_OFF_MMHG: f64 = 3.0;
/// How far the mean temperature of the run may be off, K (CHOSEN: 0.3 % of flow).
const TEMPERATURE_OFF_K: f64 = 2.0;
/// How far the volume may be from what the readings give, as a fraction.
const VOLUME_OFF: f64 = 0.003;
/// How far the flow through a size-selective inlet may be from its design flow, as a fraction
/// (MEMORY).
const DESIGN_TOLERANCE: f64 = 0.1;
/// Highest over lowest flow from which a run is divided into parts (CHOSEN).
const CHANGED_MUCH: f64 = 1.10;

/// What the run actually sampled, if one was made.
pub(crate) fn truth(evidence: &Evidence<'_>) -> Option<SampleTruth> {
    evidence.end.run.as_ref().filter(|run| run.left)?.truth
}

/// The parts of the run as written; if there are none, the whole run as one part.
pub(crate) fn own_parts(evidence: &Evidence<'_>) -> Vec<RunPart> {
    let number = |field| evidence.book.number(field);
    let parts: Vec<RunPart> = PointNumber::all()
        .filter_map(|part| {
            let chart = number(Field::PartChart(part))?;
            Some(RunPart { chart, minutes: number(Field::PartMinutes(part))? })
        })
        .collect();
    if !parts.is_empty() {
        return parts;
    }
    let whole = number(Field::MeanChart).zip(number(Field::RunMinutes));
    whole.map(|(chart, minutes)| RunPart { chart, minutes }).into_iter().collect()
}

/// The calculations of the run, repeated from the trainee's readings.
pub(crate) fn own_run(evidence: &Evidence<'_>) -> Option<RunVolume> {
    let number = |field| evidence.book.number(field);
    let air = AirConditions::as_read(number(Field::RunPressure)?, number(Field::RunTemperature)?);
    let air = air.ok()?;
    let curve = own_curve(evidence)?.in_air(air);
    let by_line = run_volume(curve, &own_parts(evidence), air).ok()?;
    let flow = by_line.mean_flow_std_m3_min * flow_check::of_run(evidence);
    RunVolume::from_flow(flow, by_line.minutes, air).ok()
}

/// The volume that the trainee's line gives for a perfectly read trace in the true air of the run,
/// standard m3.
pub(crate) fn of_perfect_trace(evidence: &Evidence<'_>, truth: &SampleTruth) -> Option<f64> {
    let air = AirConditions::as_read(truth.mean_pressure_mmhg, truth.mean_temperature_c).ok()?;
    let curve = own_curve(evidence)?.in_air(air);
    let part = RunPart { chart: truth.mean_pen, minutes: truth.powered_min };
    let ratio = flow_check::of_run(evidence);
    run_volume(curve, &[part], air).ok().map(|run| ratio * run.volume_std_m3)
}

/// The outcome of a rule about a field of a run that was made.
fn about(
    evidence: &Evidence<'_>,
    field: Field,
    wrong: impl Fn(f64, &SampleTruth) -> Option<String>,
) -> Outcome {
    Outcome::over(truth(evidence), |truth| {
        let at = evidence.written(field);
        let tick = at.map_or(evidence.end_tick, |at| at.tick());
        let text = match evidence.book.number(field) {
            Some(written) => wrong(written, &truth)?,
            None => format!("{} is missing", field.label()),
        };
        Some(Slip::at(tick, text))
    })
}

/// Why the parts of the run give no mean: one of them has no minutes.
fn part_without_minutes(evidence: &Evidence<'_>) -> Option<Outcome> {
    let number = |field| evidence.book.number(field);
    let empty = |part: &PointNumber| {
        let chart = number(Field::PartChart(*part)).is_some();
        chart && number(Field::PartMinutes(*part)).is_none_or(|minutes| minutes <= 0.0)
    };
    let part = PointNumber::all().find(empty)?;
    let what = format!("the {} are not above 0", Field::PartMinutes(part).label());
    Some(Outcome::CannotJudge(what))
}

/// The minutes are those for which the sampler ran: the difference of both readings of the elapsed-time
/// meter, or, near enough to the truth, the set times or the trace.
///
/// Broken by writing 1440 because that was ordered, after a power cut; kept by subtracting, and by 1440
/// from the set times if the run was not interrupted. A dead meter gives no minutes: then set times and
/// trace alone count.
pub static RUN_MINUTES_RIGHT: ProcedureRule = ProcedureRule {
    id: "run-minutes",
    title: "Take the minutes of the run from the elapsed-time meter, the set times or the trace",
    why: "The volume is the flow times the minutes for which it flowed.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 8.15"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        let number = |field| evidence.book.number(field);
        let meter = number(Field::MeterAfter).zip(number(Field::MeterBefore));
        // A meter that stands still measures nothing.
        let meter_is_dead =
            faults_in_force(evidence).iter().any(|fault| fault.kind() == FaultKind::MeterDead);
        about(evidence, Field::RunMinutes, |written, truth| {
            let own = meter.map_or(truth.powered_min, |(after, before)| after - before);
            let by_meter = !meter_is_dead && !beyond((written - own).abs(), MINUTES_OFF);
            let by_record = !beyond((written - truth.powered_min).abs(), RECORD_OFF_MIN);
            let (own, ran) = (for_text(own, 1), for_text(truth.powered_min, 0));
            (!by_meter && !by_record).then(|| {
                format!(
                    "wrote {written} min, but the elapsed-time meter gives {own:.1} min, and the \
                     sampler ran for {ran:.0} min"
                )
            })
        })
    },
};

/// The mean chart reading is that of the trace.
///
/// Within a division; for parts, their time-weighted mean. Broken by writing the set point; kept by
/// reading the trace hour by hour.
pub static MEAN_CHART: ProcedureRule = ProcedureRule {
    id: "mean-chart",
    title: "Take the mean chart reading from the trace",
    why: "The flow that was set is not necessarily the flow that was held for a day.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 10.1"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        if let Some(outcome) = part_without_minutes(evidence).filter(|_| truth(evidence).is_some())
        {
            return outcome;
        }
        let parts = own_parts(evidence);
        let minutes: f64 = parts.iter().map(|part| part.minutes).sum();
        let by_parts = parts.iter().map(|part| part.chart * part.minutes).sum::<f64>() / minutes;
        about(evidence, Field::MeanChart, |written, truth| {
            let own = if parts.len() > 1 { by_parts } else { written };
            let off = beyond((own - truth.mean_pen).abs(), MEAN_OFF);
            let (own, pen) = (for_text(own, 1), for_text(truth.mean_pen, 1));
            off.then(|| format!("mean chart reading {own:.1}, but the trace gives {pen:.1}"))
        })
    },
};

/// Pressure and temperature are the means of the run, or averages of the season.
///
/// Within 3 mmHg and 2 K of the means. The averages on the work order may be used instead, as long as
/// the run stays within 60 mmHg and 15 K of them. Broken by those of the calibration; kept by the mean
/// of the logger's lines for the hours of the run, and by the averages.
pub static RUN_AIR: ProcedureRule = ProcedureRule {
    id: "run-air",
    title: "Use the mean pressure and temperature of the run, or the averages of the season",
    why: "15 mmHg or 6 K changes the volume by 1 percent.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3.9 and 10.1"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        let order = &evidence.setup.work_order;
        let pressure = about(evidence, Field::RunPressure, |written, truth| {
            let off = written - truth.mean_pressure_mmhg;
            let average = order.run_pressure_mmhg;
            let of_season = (written - average).abs() <= 1.0
                && (truth.mean_pressure_mmhg - average).abs() <= AVERAGES_PRESSURE_WINDOW_MMHG;
            (beyond(off.abs(), PRESSURE_OFF_MMHG) && !of_season)
                .then(|| format!("wrote {written} mmHg, {off:+.1} mmHg from the mean of the run"))
        });
        let temperature = about(evidence, Field::RunTemperature, |written, truth| {
            let off = written - truth.mean_temperature_c;
            let average = order.run_temperature_c;
            let of_season = (written - average).abs() <= 1.0
                && (truth.mean_temperature_c - average).abs() <= AVERAGES_TEMPERATURE_WINDOW_K;
            (beyond(off.abs(), TEMPERATURE_OFF_K) && !of_season)
                .then(|| format!("wrote {written} °C, {off:+.1} K from the mean of the run"))
        });
        pressure.and(temperature)
    },
};

/// The volume follows from the trainee's readings.
///
/// Within 0.3 percent. Broken by an arithmetic slip; kept by (I sqrt(P/760 298/T) - B)/M times the
/// minutes, or the sum over parts.
pub static RUN_VOLUME: ProcedureRule = ProcedureRule {
    id: "run-volume",
    title: "Calculate the volume from your readings",
    why: "The volume is what all the work was for.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 10.1"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        if truth(evidence).is_none() {
            return Outcome::NotReached;
        }
        if let Some(outcome) = part_without_minutes(evidence) {
            return outcome;
        }
        let Some(own) = own_run(evidence) else {
            let mut fields = vec![Field::RunPressure, Field::RunTemperature];
            fields.extend([Field::Slope, Field::Intercept]);
            if own_parts(evidence).is_empty() {
                fields.extend([Field::MeanChart, Field::RunMinutes]);
            }
            return Outcome::without_one_of(evidence, &fields);
        };
        about(evidence, Field::Volume, |written, _| {
            let own = own.volume_std_m3;
            let off = beyond((written / own - 1.0).abs(), VOLUME_OFF);
            off.then(|| format!("wrote {written} m³, but your readings give {own:.1} m³"))
        })
    },
};

/// A run in which the flow changed a lot is divided into parts, where one mean would give another
/// volume.
///
/// Only on an indicator that is linear in pressure: on a square-root chart, as on that of a mass flow
/// meter, the flow is linear in the reading, and one mean gives the same volume. Broken by one mean for
/// a trace that fell by a tenth; kept by parts, each with its mean and minutes.
pub static RUN_SPLIT: ProcedureRule = ProcedureRule {
    id: "run-split",
    title: "Divide the run into parts if the flow changed a lot",
    why: "The mean of a curve is not the curve at the mean.",
    severity: Severity::Practice,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 10.1.2"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        let curved = evidence.setup.expression().recorder == RecorderScale::LinearInPressure;
        let changed = truth(evidence).filter(|truth| {
            curved && truth.highest_std_m3_min > CHANGED_MUCH * truth.lowest_std_m3_min
        });
        if let Some(outcome) = part_without_minutes(evidence).filter(|_| changed.is_some()) {
            return outcome;
        }
        Outcome::over(changed, |truth| {
            let (low, high) = (truth.lowest_std_m3_min, truth.highest_std_m3_min);
            let text = format!("one mean for a flow between {low:.2} and {high:.2} m³/min");
            (own_parts(evidence).len() < 2).then(|| Slip::at(evidence.end_tick, text))
        })
    },
};

/// The concentration follows from the masses and the trainee's volume.
///
/// Within a percent, if the laboratory has given the masses. Broken by grams taken for milligrams;
/// kept by (W2 - W1) 10^6 / V.
pub static CONCENTRATION: ProcedureRule = ProcedureRule {
    id: "concentration",
    title: "Calculate the concentration from the masses and the volume",
    why: "The concentration is the number that is reported.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 10"),
    phase: WorkPhase::Volume,
    repair: Repair::RedoRunSums,
    test: |evidence| {
        let gained_g = evidence.end.run.as_ref().and_then(|run| run.gained_g);
        let Some(gained_g) = gained_g.filter(|_| truth(evidence).is_some()) else {
            return Outcome::NotReached;
        };
        let Some(volume) = evidence.book.number(Field::Volume) else {
            return Outcome::without(evidence, Field::Volume);
        };
        about(evidence, Field::Concentration, |written, _| {
            let own = gained_g * 1e6 / volume;
            let off = beyond((written - own).abs(), 0.01 * own.abs() + 0.1);
            let own = for_text(own, 1);
            off.then(|| format!("wrote {written} µg/m³, but masses and volume give {own:.1} µg/m³"))
        })
    },
};

/// The sample is called valid exactly when it is.
///
/// Not valid: fewer than 1380 or more than 1500 min, a mean flow outside 1.1 to 1.7 m3/min in the air
/// of the run, a torn filter. Near a limit either is right. Broken by calling a run of 22 hours valid; kept by writing
/// the reason.
pub static VALIDITY: ProcedureRule = ProcedureRule {
    id: "validity-judged",
    title: "Write valid or not valid, with the reason",
    why: "A sample that is not valid must not be averaged with valid ones.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::read("40 CFR Part 50, App. B, 7.2, 8.8 and 8.15"),
    phase: WorkPhase::Volume,
    repair: Repair::None,
    test: |evidence| {
        let Some(truth) = truth(evidence) else { return Outcome::NotReached };
        let decided = evidence.decided(Field::Validity);
        let tick = decided.map_or(evidence.end_tick, |(at, _, _)| at.tick());
        let slip = |text: String| Outcome::broken(Slip::at(tick, text));
        let Some((_, decision, _)) = decided else {
            return slip("the field book does not say whether the sample is valid".to_owned());
        };
        let says_not = decision == Decision::SampleNotValid;
        match (against(evidence, &truth), says_not) {
            (Standing::NotValid(why), false) => slip(format!("written as valid, although {why}")),
            (Standing::Valid, true) => {
                slip("written as not valid, although nothing speaks against the sample".into())
            }
            _ => Outcome::Kept,
        }
    },
};

/// Whether a sample is valid.
enum Standing {
    Valid,
    Near,
    NotValid(String),
}

/// How far the mean flow was outside its range, m3/min of actual volume in the air of the run: 1.1 to
/// 1.7, or, with a size-selective inlet, within a tenth of its design flow (EPA quality assurance
/// handbook, MEMORY).
fn off_range(evidence: &Evidence<'_>, truth: &SampleTruth) -> f64 {
    let flow = actual_flow_m3_min(truth);
    let (low, high) = match evidence.setup.work_order.target_flow_actual_m3_min {
        Some(design) => ((1.0 - DESIGN_TOLERANCE) * design, (1.0 + DESIGN_TOLERANCE) * design),
        None => RANGE_ACTUAL_M3_MIN.into_inner(),
    };
    (low - flow).max(flow - high)
}

/// The mean flow in the air of the run, m3/min.
fn actual_flow_m3_min(truth: &SampleTruth) -> f64 {
    let air = AirConditions::as_read(truth.mean_pressure_mmhg, truth.mean_temperature_c);
    air.map_or(f64::NAN, |air| truth.mean_flow_std_m3_min / air.to_standard())
}

/// What speaks against a sample.
fn against(evidence: &Evidence<'_>, truth: &SampleTruth) -> Standing {
    let run = evidence.end.run.as_ref();
    let holes_mm2 = run.map_or(0.0, |run| run.sheet.holes_mm2);
    let minutes_off = (truth.powered_min - RUN_MINUTES).abs() - RUN_MINUTES_TOLERANCE;
    let flow = actual_flow_m3_min(truth);
    let flow_off = off_range(evidence, truth);
    if minutes_off > 2.0 {
        let minutes = truth.powered_min.round() as u64;
        Standing::NotValid(format!("the run lasted {}", spoken(60 * minutes)))
    } else if flow_off > 0.02 {
        let flow = for_text(flow, 2);
        Standing::NotValid(format!("the mean flow was {flow:.2} m³/min in the air of the run"))
    } else if holes_mm2 > 16.0 {
        Standing::NotValid("the filter was torn".to_owned())
    } else if minutes_off > -2.0 || flow_off > -0.02 || holes_mm2 > 0.0 {
        Standing::Near
    } else {
        Standing::Valid
    }
}
