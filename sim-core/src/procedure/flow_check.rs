//! The check of the flow against a standard, on the sampler as it runs: above a filter, on its
//! controller, warm.
//!
//! The line tells one flow, the standard another; the difference is held against the limit that the
//! work order states. What fails is calibrated anew, and what was sampled since the last good check
//! is not valid (audits and flow checks of 40 CFR Part 58 App. A, from memory; the limits are the
//! scenario's).

use super::evidence::{At, Evidence, TraineeDecision, place};
use super::instrument::{Instrument, nearest_seen};
use super::own_sums::{own_slope_and_intercept, start_flow};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{AirConditions, Curve, TransferStandard};
use crate::field_book::{Field, PointNumber};
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::scenario::setup::{FlowCheckOrder, FlowOfRun};
use crate::session::ground_truth::GroundTruth;

/// Running time before the first reading, s (READ for a calibration, 40 CFR 50 App. B, 9.3.3).
const WARM_S: f64 = 300.0;
/// Time that the flow has stood before a reading, s (CHOSEN: the controller settles in 12).
const STEADY_S: f64 = 15.0;
/// Opening of the knob that counts as fully open.
const OPEN: f64 = 0.99;
/// How far the zero may stand off, in.
const ZERO_IN: f64 = 0.06;
/// How far a written reading may be from what was to be seen, divisions.
const READ_OFF_DIVISIONS: f64 = 1.0;
/// How far a written flow may be from the own readings, m3/min.
const FLOW_OFF_M3_MIN: f64 = 0.0061;
/// How far a written difference may be from the own readings, percent.
const DIFFERENCE_OFF_PCT: f64 = 0.6;
/// How near to its limit a difference lets either word be right, percent.
const NEAR_PCT: f64 = 1.5;

/// A check worked out from what was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct OwnCheck {
    /// Mean flow by the standard, standard m3/min.
    pub standard: f64,
    /// Mean flow by the line, standard m3/min.
    pub line: f64,
}

impl OwnCheck {
    /// By how much the line tells more than the standard, percent of the standard's flow.
    pub fn difference_pct(&self) -> f64 {
        100.0 * (self.line / self.standard - 1.0)
    }
}

/// The check that was to be made, where nothing called for stopping before it.
fn ordered(evidence: &Evidence<'_>) -> Option<FlowCheckOrder> {
    let order = &evidence.setup.work_order;
    let reached = order.is_check_alone() || evidence.verdict() == TraineeDecision::Accepted;
    order.flow_check.filter(|_| reached && !evidence.rightly_stopped())
}

/// The numbers of the readings of a check that have both legs written.
pub(crate) fn readings(evidence: &Evidence<'_>) -> Vec<PointNumber> {
    let there = |field| evidence.book.number(field).is_some();
    PointNumber::all()
        .filter(|&number| there(Field::CheckUp(number)) && there(Field::CheckDown(number)))
        .collect()
}

/// The air of the check as written; that of the calibration where none is.
fn own_air(evidence: &Evidence<'_>) -> Option<AirConditions> {
    let number = |field| evidence.book.number(field);
    let pressure = number(Field::CheckPressure).or_else(|| number(Field::Pressure))?;
    let temperature = number(Field::CheckTemperature).or_else(|| number(Field::Temperature))?;
    AirConditions::as_read(pressure, temperature).ok()
}

/// The line that is checked.
fn line(evidence: &Evidence<'_>) -> Option<Curve> {
    let order = &evidence.setup.work_order;
    let (slope, intercept) = if order.is_check_alone() {
        order.last_line.as_ref().map(|line| (line.slope, line.intercept))?
    } else {
        own_slope_and_intercept(evidence)?
    };
    Curve::new(slope, intercept, evidence.setup.expression()).ok()
}

/// The check worked out from the own readings.
pub(crate) fn own_check(evidence: &Evidence<'_>) -> Option<OwnCheck> {
    let number = |field| evidence.book.number(field);
    let air = own_air(evidence)?;
    let standard = TransferStandard::new(
        number(Field::CertificateSlope)?,
        number(Field::CertificateIntercept)?,
    )
    .ok()?;
    let curve = line(evidence)?;
    let (mut sum, mut line_sum, mut count) = (0.0, 0.0, 0.0);
    for reading in readings(evidence) {
        let delta_h_in =
            number(Field::CheckUp(reading))?.abs() + number(Field::CheckDown(reading))?.abs();
        sum += standard.flow_std_m3_min(delta_h_in, air).ok()?;
        line_sum += curve.flow_std_m3_min(number(Field::CheckChart(reading))?, air).ok()?;
        count += 1.0;
    }
    (count > 0.0).then(|| OwnCheck { standard: sum / count, line: line_sum / count })
}

/// By how much more flow than the line tells was in the run, as a ratio: what the standard told at the
/// check over what the line tells for the pen with which the sampler was left. One where the flow of
/// the run is the line's.
pub(crate) fn of_run(evidence: &Evidence<'_>) -> f64 {
    let of_check = evidence
        .setup
        .work_order
        .check_of_own_line()
        .filter(|check| check.flow_of_run == FlowOfRun::Check);
    let told = of_check.and_then(|_| {
        let start = start_flow(evidence, own_air(evidence)?)?;
        Some(own_check(evidence)?.standard / start)
    });
    told.unwrap_or(1.0)
}

/// By how much the line truly told more than was drawn, percent: the mean over the readings of what
/// a pen without friction meant by the line in the true air, against the true flow.
pub(crate) fn true_difference_pct(evidence: &Evidence<'_>) -> Option<f64> {
    let curve = line(evidence)?;
    let (mut sum, mut count) = (0.0, 0.0);
    for at in readings(evidence).into_iter().filter_map(|r| evidence.written(Field::CheckUp(r))) {
        let facts = at.facts();
        let air = AirConditions::as_read(facts.pressure_mmhg, facts.temperature_c).ok()?;
        let told = curve.flow_std_m3_min(facts.pen_at_rest, air).ok()?;
        sum += 100.0 * (told / facts.flow_std_m3_min - 1.0);
        count += 1.0;
    }
    (count > 0.0 && f64::is_finite(sum)).then(|| sum / count)
}

/// The check that is ordered is made.
///
/// Broken by fewer readings than ordered; kept by all of them.
pub static CHECK_MADE: ProcedureRule = ProcedureRule {
    id: "check-made",
    title: "Check the flow as often as ordered",
    why: "A line that nobody checks is believed until the next calibration.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR 58 App. A (flow checks and audits, from memory)"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(check) = ordered(evidence) else { return Vec::new() };
        let made = readings(evidence).len();
        if made >= usize::from(check.readings) {
            return Vec::new();
        }
        let text = format!("{made} of {} readings of the flow check", check.readings);
        vec![Slip::at(evidence.end_tick, text)]
    },
};

/// The sampler is checked as it runs.
///
/// A filter under the calibrator, the knob fully open, the blower on its controller and warm, the
/// flow at rest, the manometer zeroed, its valves open, the tube on its tap. Broken by a check
/// without a filter; kept by one above a fresh one.
pub static CHECK_AS_IT_RUNS: ProcedureRule = ProcedureRule {
    id: "check-as-it-runs",
    title: "Check the sampler as it runs",
    why: "Without its filter and controller it is another sampler: the pen means another flow.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR 50 App. B, 9.4 (from memory)"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let read = readings(evidence).into_iter().filter_map(|reading| {
            let at = evidence.written(Field::CheckUp(reading))?;
            Some((at, otherwise(at.facts())?))
        });
        // Once is enough: it is one way of checking.
        read.take(1).map(|(at, text)| Slip::at(at.tick(), text)).collect()
    },
};

/// What is otherwise than it runs, at a reading.
fn otherwise(facts: &GroundTruth) -> Option<&'static str> {
    let at = |part| place(facts, part);
    if at(RigPart::Calibrator) != PartPlace::Adapter || !facts.tube_on_tap {
        Some("read without the calibrator on the holder and its tube on the tap")
    } else if at(RigPart::Filter) != PartPlace::Holder {
        Some("checked without a filter under the calibrator")
    } else if facts.blower_plug != BlowerPlug::Controller {
        Some("checked with the blower off its controller")
    } else if facts.opening < OPEN {
        Some("checked with the knob partly closed")
    } else if facts.running_s < WARM_S {
        Some("checked on a cold blower")
    } else if facts.steady_s < STEADY_S {
        Some("read before the flow had settled")
    } else if facts.valve_quarters.iter().any(|&quarters| quarters < 4) {
        Some("read with a valve of the manometer not fully open")
    } else if facts.zero_in.iter().sum::<f64>().abs() > 2.0 * ZERO_IN {
        Some("read on a manometer that was not zeroed")
    } else {
        None
    }
}

/// Legs and pen are written as they are seen.
///
/// Within one division each. Broken by one leg doubled or a pen that was never tapped into sight;
/// kept by half a division.
pub static CHECK_READ: ProcedureRule = ProcedureRule {
    id: "check-read",
    title: "Write the readings of the check as seen",
    why: "The check is as good as its readings.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let mut slips = Vec::new();
        for reading in readings(evidence) {
            let all = [
                (Field::CheckUp(reading), Instrument::LegUp),
                (Field::CheckDown(reading), Instrument::LegDown),
                (Field::CheckChart(reading), Instrument::Pen),
            ];
            let off = all.into_iter().find_map(|(field, instrument)| {
                let at: At<'_> = evidence.written(field)?;
                let written = evidence.book.number(field)?;
                let (seen, off) = nearest_seen(evidence, instrument, at, written);
                let unit = instrument.unit();
                (off > READ_OFF_DIVISIONS * instrument.division()).then(|| {
                    let words = field.label();
                    (at.tick(), format!("{words}: wrote {written}, to be seen {seen:.2} {unit}"))
                })
            });
            slips.extend(off.map(|(tick, text)| Slip::at(tick, text)));
        }
        slips
    },
};

/// Flows and difference follow from the own readings.
///
/// Within 0.006 m3/min and 0.6 percent. Broken by a difference taken the wrong way round; kept by
/// 100 (line - standard)/standard.
pub static CHECK_SUMS: ProcedureRule = ProcedureRule {
    id: "check-sums",
    title: "Work out both flows and their difference",
    why: "The difference is what is held against the limit.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("percent difference of a flow check (from memory)"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let (Some(_), Some(own)) = (ordered(evidence), own_check(evidence)) else {
            return Vec::new();
        };
        let wanted = [
            (Field::CheckFlow, own.standard, FLOW_OFF_M3_MIN, "m³/min"),
            (Field::CheckLineFlow, own.line, FLOW_OFF_M3_MIN, "m³/min"),
            (Field::CheckDifference, own.difference_pct(), DIFFERENCE_OFF_PCT, "%"),
        ];
        let wrong = wanted.into_iter().find_map(|(field, own, off, unit)| {
            let written = evidence.book.number(field);
            if written.is_some_and(|written| (written - own).abs() <= off) {
                return None;
            }
            let tick = evidence.written(field).map_or(evidence.end_tick, |at| at.tick());
            let wrote = written.map_or_else(|| "nothing".to_owned(), |number| number.to_string());
            let words = field.label();
            let text = format!("{words}: wrote {wrote}, the own readings give {own:.3} {unit}");
            Some(Slip::at(tick, text))
        });
        wrong.into_iter().collect()
    },
};

/// Passed exactly when it is; what fails is calibrated anew, and what was sampled since the last
/// good check named.
///
/// Near the limit either word is right. Broken by letting pass what is too far off; kept by
/// "failed: recalibrate; samples since 2026-03-02 not valid".
pub static CHECK_JUDGED: ProcedureRule = ProcedureRule {
    id: "check-judged",
    title: "Passed or failed, and what follows",
    why: "What a check finds is worth what is done about it.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR 58 App. A (from memory); the limit is the work order's"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(check) = ordered(evidence) else { return Vec::new() };
        let Some(truth) = true_difference_pct(evidence) else { return Vec::new() };
        let at = evidence.written(Field::CheckOutcome);
        let tick = at.map_or(evidence.end_tick, |at| at.tick());
        let slip = |text: String| vec![Slip::at(tick, text)];
        let text = evidence.book.text(Field::CheckOutcome).unwrap_or_default().to_lowercase();
        let (passed, failed) = (text.contains("pass"), text.contains("fail"));
        if passed == failed {
            return slip("neither passed nor failed is written".to_owned());
        }
        let over = truth.abs() - check.within_pct;
        if passed && over > NEAR_PCT || failed && over < -NEAR_PCT {
            let said = if passed { "passed" } else { "failed" };
            let limit = check.within_pct;
            return slip(format!(
                "called {said}: the line told {truth:+.1} %, within {limit} % are allowed"
            ));
        }
        if failed && !text.contains("calibrat") {
            return slip("failed, and that it is to be calibrated anew is not written".to_owned());
        }
        let since = check.last_good.map(|date| date.to_string());
        match since {
            Some(date) if failed && !text.contains(&date) => {
                slip(format!("failed, and samples since the last good check, {date}, not named"))
            }
            _ => Vec::new(),
        }
    },
};
