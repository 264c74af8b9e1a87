//! The flow check against a standard, on the sampler as it runs: above a filter, on its controller,
//! warm.
//!
//! The calibration line gives one flow, the standard another; their percent difference is compared
//! with the limit on the work order. A sampler that fails is calibrated again, and samples since
//! the last good check are not valid (audits and flow checks of 40 CFR Part 58 App. A, MEMORY; the
//! limits are those of the scenario).
//!
//! Where the sampler is calibrated at its controlled flow alone, there is no line: the flow that the
//! order asks for takes its place.

use super::certificate::CERTIFICATE_PAIR;
use super::evidence::{At, Evidence, TraineeDecision, place};
use super::fluid::density_at;
use super::manometer::{tube_trouble, zero_of_sum_in};
use super::occasions::leg_reads;
use super::outcome::{Outcome, beyond};
use super::own_sums::{own_curve, start_flow};
use super::rows::{as_written, checks_of};
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{AirConditions, Curve, TransferStandard};
use crate::field_book::{Decision, Field, PointNumber};
use crate::rig::parts::{BlowerPlug, PartPlace, RigPart};
use crate::scenario::setup::{FlowCheckOrder, FlowOfRun};
use crate::session::ground_truth::GroundTruth;
use crate::units::for_text;

/// Running time before the first reading, s (READ for a calibration, 40 CFR Part 50 App. B, 9.3.3).
const WARM_S: f64 = 300.0;
/// Time for which the flow has been steady before a reading, s (CHOSEN: the controller settles in
/// 12).
const STEADY_S: f64 = 15.0;
/// Opening of the knob that counts as fully open.
const OPEN: f64 = 0.99;
/// How far the zero of the sum of both legs may be off, in.
const ZERO_OF_SUM_IN: f64 = 0.12;
/// Tilt that matters, degrees: it makes the pressure read 1.5 percent too high.
const TILT_DEG: f64 = 10.0;
/// How far a written reading may be from what was visible, divisions.
const READ_OFF_DIVISIONS: f64 = 1.0;
/// How far a written flow may be from what the readings give, m3/min.
const FLOW_OFF_M3_MIN: f64 = 0.0061;
/// How far a written percent difference may be from what the readings give, percent.
const DIFFERENCE_OFF_PCT: f64 = 0.6;
/// How near to its limit a percent difference makes either outcome right, percent.
const NEAR_PCT: f64 = 1.5;

/// A flow check calculated from what was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct OwnCheck {
    /// Mean flow by the standard, standard m3/min.
    pub standard: f64,
    /// Mean flow by the line, or the ordered flow where no line is checked, standard m3/min.
    pub line: f64,
}

impl OwnCheck {
    /// The percent difference: how much more flow the line gives than the standard, percent of the
    /// standard's flow.
    pub fn difference_pct(&self) -> f64 {
        100.0 * (self.line / self.standard - 1.0)
    }
}

/// The flow check that should have been made, unless there was a reason to stop before it.
pub(super) fn ordered(evidence: &Evidence<'_>) -> Option<FlowCheckOrder> {
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

/// The air of the check as written, or else that of the calibration.
pub(super) fn own_air(evidence: &Evidence<'_>) -> Option<AirConditions> {
    let number = |field| evidence.book.number(field);
    let pressure = number(Field::CheckPressure).or_else(|| number(Field::Pressure))?;
    let temperature = number(Field::CheckTemperature).or_else(|| number(Field::Temperature))?;
    AirConditions::as_read(pressure, temperature).ok()
}

/// The calibration line that is checked.
fn line(evidence: &Evidence<'_>) -> Option<Curve> {
    let order = &evidence.setup.work_order;
    if !order.is_check_alone() {
        return own_curve(evidence);
    }
    let last = order.last_line.as_ref()?;
    Curve::new(last.slope, last.intercept, evidence.setup.expression()).ok()
}

/// The flow that the sampler is believed to have when its pen stands here: that of the line, or the
/// ordered flow where no line is checked, standard m3/min.
fn told(evidence: &Evidence<'_>, chart: f64, air: AirConditions) -> Option<f64> {
    let order = &evidence.setup.work_order;
    if order.at_controlled_flow().is_some() {
        return Some(order.target_flow_std_m3_min);
    }
    line(evidence)?.in_air(air).flow_std_m3_min(chart, air).ok()
}

/// The flow check calculated from the trainee's readings.
pub(crate) fn own_check(evidence: &Evidence<'_>) -> Option<OwnCheck> {
    let number = |field| evidence.book.number(field);
    let air = own_air(evidence)?;
    let standard = TransferStandard::new(
        number(Field::CertificateSlope)?,
        number(Field::CertificateIntercept)?,
    )
    .ok()?;
    let (mut sum, mut line_sum, mut count) = (0.0, 0.0, 0.0);
    for reading in readings(evidence) {
        let delta_h_in =
            number(Field::CheckUp(reading))?.abs() + number(Field::CheckDown(reading))?.abs();
        let delta_h_in = delta_h_in * density_at(evidence, Field::CheckUp(reading));
        sum += standard.flow_std_m3_min(delta_h_in, air).ok()?;
        line_sum += told(evidence, number(Field::CheckChart(reading))?, air)?;
        count += 1.0;
    }
    (count > 0.0).then(|| OwnCheck { standard: sum / count, line: line_sum / count })
}

/// The ratio of the flow of the run to the flow that the line gives: the standard's flow at the
/// check over the line's flow for the pen when the sampler was left. It is one if the flow of the
/// run is taken from the line.
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

/// The true percent difference: the mean over the readings of the flow that the line gives for a
/// pen without friction in the true air, or of the ordered flow where no line is checked, against the true flow as the calibrator's laboratory would
/// state it, because line and calibrator are compared in the terms of one certificate.
pub(crate) fn true_difference_pct(evidence: &Evidence<'_>) -> Option<f64> {
    let (mut sum, mut count) = (0.0, 0.0);
    for at in readings(evidence).into_iter().filter_map(|r| evidence.read(Field::CheckUp(r))) {
        let facts = at.facts();
        let air = AirConditions::as_read(facts.pressure_mmhg, facts.temperature_c).ok()?;
        let told = told(evidence, facts.pen_at_rest, air)?;
        sum += 100.0 * (told / facts.flow_std_m3_min - 1.0);
        count += 1.0;
    }
    let mean = Some(sum / count).filter(|mean: &f64| count > 0.0 && mean.is_finite())?;
    Some(evidence.setup.without_laboratory_pct(mean))
}

/// The ordered flow check is made.
///
/// A reading has both legs and the pen. Broken by fewer readings than ordered; kept by all of them.
pub static CHECK_MADE: ProcedureRule = ProcedureRule {
    id: "check-made",
    title: "Check the flow as often as ordered",
    why: "A line that nobody checks is believed until the next calibration.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR Part 58, App. A"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        Outcome::over(ordered(evidence), |check| {
            let pen = |reading: &_| evidence.book.number(Field::CheckChart(*reading)).is_some();
            let made = readings(evidence).iter().filter(|reading| pen(reading)).count();
            let text = format!("{made} of {} readings of the flow check were made", check.readings);
            (made < usize::from(check.readings)).then(|| Slip::at(evidence.end_tick, text))
        })
    },
};

/// The sampler is checked as it runs.
///
/// A filter under the calibrator, the knob fully open, the blower on its controller and warm, the
/// flow steady, the valves open, the tube clear and on the pressure tap, and the sum of both legs true:
/// no bubble and no great tilt. A scale that is merely shifted cancels in that sum. Broken by a check
/// without a filter; kept by a check above a fresh one.
pub static CHECK_AS_IT_RUNS: ProcedureRule = ProcedureRule {
    id: "check-as-it-runs",
    title: "Check the sampler as it runs",
    why: "Without its filter and controller it is a different sampler, and the pen shows a different flow.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.4"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        // One slip is enough, because the readings of a check are all made in the same way.
        Outcome::over(leg_reads(evidence), |at| {
            Some(Slip::at(at.tick(), otherwise(at.facts()).or_else(|| untrue(evidence, at))?))
        })
        .first_only()
    },
};

/// How the sampler at a reading differs from the sampler as it runs.
fn otherwise(facts: &GroundTruth) -> Option<String> {
    let at = |part| place(facts, part);
    let text = if at(RigPart::Calibrator) != PartPlace::Adapter || !facts.tube_on_tap {
        "read without the calibrator on the holder and the tube on its pressure tap"
    } else if at(RigPart::Filter) != PartPlace::Holder {
        "checked without a filter under the calibrator"
    } else if facts.blower_plug != BlowerPlug::Controller {
        "checked with the blower not on its controller"
    } else if facts.opening < OPEN {
        "checked with the knob partly closed"
    } else if facts.running_s < WARM_S {
        "checked with a cold blower"
    } else if facts.steady_s < STEADY_S {
        "read before the flow had settled"
    } else {
        return None;
    };
    Some(text.to_owned())
}

/// Why the manometer does not show the true pressure at a reading.
fn untrue(evidence: &Evidence<'_>, at: At<'_>) -> Option<String> {
    let facts = at.facts();
    let off_in = zero_of_sum_in(facts);
    let tilt_deg = facts.tilt_deg.abs();
    if facts.valve_quarters.iter().any(|&quarters| quarters < 4) {
        Some("read with a manometer valve not fully open".to_owned())
    } else if beyond(tilt_deg, TILT_DEG) {
        Some(format!("read with the manometer {tilt_deg:.0}° out of plumb"))
    } else if beyond(off_in.abs(), ZERO_OF_SUM_IN) {
        let off_in = for_text(off_in, 2);
        Some(format!("read on a manometer whose legs together are {off_in:+.2} in off zero"))
    } else {
        tube_trouble(evidence, at).map(|trouble| format!("read with {trouble}"))
    }
}

/// Legs and pen are written as visible.
///
/// Within one division each. Broken by one leg doubled, or by a pen reading two divisions off; kept
/// by half a division.
pub static CHECK_READ: ProcedureRule = ProcedureRule {
    id: "check-read",
    title: "Write the readings of the check as you see them",
    why: "A check is only as good as its readings.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        Outcome::over(checks_of(evidence), |row| {
            let wrong = row
                .readings(evidence)
                .find(|reading| reading.off().is_none_or(|off| beyond(off, READ_OFF_DIVISIONS)))?;
            let (label, text) = (wrong.field.label(), as_written(evidence, wrong));
            Some(Slip::at(evidence.read(wrong.field)?.tick(), format!("{label}: {text}")))
        })
    },
};

/// Flows and percent difference follow from the trainee's readings.
///
/// Within 0.006 m3/min and 0.6 percent. Broken by a difference with the wrong sign; kept by
/// 100 (line - standard)/standard, or by 100 (ordered - standard)/standard where no line is checked.
pub static CHECK_SUMS: ProcedureRule = ProcedureRule {
    id: "check-sums",
    title: "Calculate both flows and their percent difference",
    why: "The percent difference is what is compared with the limit.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 58, App. A"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(order) = ordered(evidence) else { return Outcome::NotReached };
        let Some(own) = own_check(evidence) else { return nothing_to_calculate(evidence) };
        let wanted = [
            (Field::CheckFlow, own.standard, FLOW_OFF_M3_MIN, "m³/min"),
            (Field::CheckLineFlow, own.line, FLOW_OFF_M3_MIN, "m³/min"),
            (Field::CheckDifference, own.difference_pct(), DIFFERENCE_OFF_PCT, "%"),
        ];
        let asked = wanted.into_iter().filter(|(field, ..)| order.sums().contains(field));
        let wrong = asked.into_iter().find_map(|(field, own, off, unit)| {
            let written = evidence.book.number(field);
            if written.is_some_and(|written| !beyond((written - own).abs(), off)) {
                return None;
            }
            let tick = evidence.written(field).map_or(evidence.end_tick, |at| at.tick());
            let wrote = written.map_or_else(|| "nothing".to_owned(), |number| number.to_string());
            let words = field.label();
            let own = for_text(own, 3);
            let text = format!("{words}: wrote {wrote}, but your readings give {own:.3} {unit}");
            Some(Slip::at(tick, text))
        });
        Outcome::reached(wrong)
    },
};

/// The controller is trimmed until the standard shows the ordered flow.
///
/// Only where the sampler is calibrated at its controlled flow alone; within the limit of the order.
/// Broken by reading the standard with the screw as it was found, a tenth off; kept by trimming first.
pub static TRIMMED_BY_STANDARD: ProcedureRule = ProcedureRule {
    id: "check-trimmed",
    title: "Trim the controller until the standard shows the ordered flow",
    why: "This one flow is all that the calibration knows: the runs are made at it, or at none that is known.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.4"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let order = &evidence.setup.work_order;
        let ordered = ordered(evidence).filter(|_| order.at_controlled_flow().is_some());
        let Some((check, truth)) = ordered.zip(true_difference_pct(evidence)) else {
            return Outcome::NotReached;
        };
        let first = readings(evidence).into_iter().find_map(|r| evidence.read(Field::CheckUp(r)));
        let tick = first.map_or(evidence.end_tick, |at| at.tick());
        let (wanted, off) = (for_text(order.target_flow_std_m3_min, 2), for_text(truth, 1));
        let text = format!(
            "the standard was read with the ordered flow of {wanted:.2} m³/min {off:+.1} % off its own"
        );
        Outcome::at(tick, (truth.abs() > check.within_pct + NEAR_PCT).then_some(text))
    },
};

/// The outcome where no flow follows from the readings of the check: what is missing for it. Without
/// any reading another rule is broken.
pub(super) fn nothing_to_calculate(evidence: &Evidence<'_>) -> Outcome {
    let made = readings(evidence);
    if made.is_empty() {
        return Outcome::NotReached;
    }
    let number = |field| evidence.book.number(field).is_some();
    let pen = made.iter().map(|&reading| Field::CheckChart(reading)).find(|&field| !number(field));
    if let Some(field) = pen {
        return Outcome::without(evidence, field);
    }
    if own_air(evidence).is_none() {
        return Outcome::without_one_of(evidence, &[Field::Temperature, Field::Pressure]);
    }
    let [slope, intercept] = CERTIFICATE_PAIR;
    let fields = match evidence.setup.work_order.is_check_alone() {
        true => vec![slope, intercept],
        false => vec![slope, intercept, Field::Slope, Field::Intercept],
    };
    Outcome::without_one_of(evidence, &fields)
}

/// The check is called passed exactly when it is; if it failed, a new calibration is called for and
/// the samples since the last good check are named.
///
/// Near the limit either outcome is right. Broken by passing a sampler that is too far off; kept by
/// "failed: recalibrate; samples since 2026-03-02 not valid".
pub static CHECK_JUDGED: ProcedureRule = ProcedureRule {
    id: "check-judged",
    title: "Write passed or failed, and what is to be done",
    why: "A check is of use only if something is done about its outcome.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR Part 58, App. A; the limit is that of the work order"),
    phase: WorkPhase::Check,
    repair: Repair::None,
    test: |evidence| {
        let Some(check) = ordered(evidence) else { return Outcome::NotReached };
        let Some(truth) = true_difference_pct(evidence) else {
            return nothing_to_calculate(evidence);
        };
        let decided = evidence.decided(Field::CheckOutcome);
        let tick = decided.map_or(evidence.end_tick, |(at, _, _)| at.tick());
        let slip = |text: String| Outcome::broken(Slip::at(tick, text));
        let (again, not_valid_since) = match decided {
            Some((_, Decision::CheckFailed { calibrate_again, not_valid_since }, _)) => {
                (calibrate_again, not_valid_since)
            }
            Some((_, Decision::CheckPassed, _)) => (false, None),
            _ => return slip("the check was called neither passed nor failed".to_owned()),
        };
        let passed = matches!(decided, Some((_, Decision::CheckPassed, _)));
        let failed = !passed;
        let over = truth.abs() - check.within_pct;
        if passed && over > NEAR_PCT || failed && over < -NEAR_PCT {
            let said = if passed { "passed" } else { "failed" };
            let (limit, truth) = (check.within_pct, for_text(truth, 1));
            return slip(format!(
                "written as {said}, but the percent difference is really {truth:+.1} % (limit \
                 {limit} %)"
            ));
        }
        if failed && !again {
            return slip("failed, but the outcome does not call for a new calibration".to_owned());
        }
        match check.last_good {
            Some(date) if failed && not_valid_since != Some(date) => slip(format!(
                "failed, but the samples since the last good check on {date} are not mentioned"
            )),
            _ => Outcome::Kept,
        }
    },
};
