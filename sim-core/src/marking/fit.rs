//! The fit: the trainee's calculations, their curve against the true response of the rig, and the
//! spread and number of points.

use super::part_score::PartScore;
use super::readings::remaining_share;
use crate::field_book::Field;
use crate::procedure::ProcedureFinding;
use crate::procedure::evidence::{Evidence, TraineeDecision};
use crate::procedure::flow_check;
use crate::procedure::own_sums::{OwnSums, own_delta_h, own_flow_error_pct};
use crate::procedure::sums::{FLOW_OFF_M3_MIN, TERM_OFF, line_matches};
use crate::scenario::lesson::LessonPhase;
use crate::units::for_text;

/// Fraction of the part that depends on the calculations.
const SHARE_SUMS: f64 = 0.35;
/// Fraction of the part that depends on the curve.
const SHARE_CURVE: f64 = 0.45;
/// Flow error at the set point that costs nothing, percent (CHOSEN: the scatter of honest
/// readings).
const FREE_PCT: f64 = 1.0;
/// Error of the volume of a run that costs nothing, percent (CHOSEN: the bias of the method is
/// almost a percent).
const FREE_RUN_PCT: f64 = 2.0;
/// Flow error beyond the free one at which the curve is worth nothing, percent (CHOSEN).
const LOST_PCT: f64 = 3.0;

/// The part.
pub(super) fn part(evidence: &Evidence<'_>, findings: &[ProcedureFinding]) -> PartScore {
    let mut reasons = Vec::new();
    if evidence.lesson().is_some() {
        return of_lesson(evidence, findings);
    }
    if evidence.setup.work_order.is_check_alone() {
        let share = check_share(evidence, findings, &mut reasons);
        return PartScore::earned(share, reasons);
    }
    let sums = sums_share(evidence, &mut reasons);
    let mut curve = curve_share(evidence, &mut reasons);
    if evidence.run_was_made() {
        curve = 0.5 * (curve + volume_share(evidence, &mut reasons));
    }
    let spread = spread_share(evidence, findings, &mut reasons);
    let share = SHARE_SUMS * sums + SHARE_CURVE * curve + (1.0 - SHARE_SUMS - SHARE_CURVE) * spread;
    PartScore::earned(share, reasons)
}

/// The part in a lesson: what belongs to its phases, by the weights that it has in a whole job.
fn of_lesson(evidence: &Evidence<'_>, findings: &[ProcedureFinding]) -> PartScore {
    let mut reasons = Vec::new();
    let mut shares: Vec<(f64, f64)> = Vec::new();
    let has = |phase| evidence.assesses(phase);
    if evidence.setup.work_order.is_check_alone() {
        if has(LessonPhase::FlowCheck) {
            shares.push((1.0, check_share(evidence, findings, &mut reasons)));
        }
    } else {
        if has(LessonPhase::Calculations) {
            shares.push((SHARE_SUMS, sums_share(evidence, &mut reasons)));
            shares.push((SHARE_CURVE, curve_share(evidence, &mut reasons)));
        }
        if has(LessonPhase::Volume) && evidence.run_was_made() {
            shares.push((SHARE_CURVE, volume_share(evidence, &mut reasons)));
        }
        if has(LessonPhase::Points) {
            let share = spread_share(evidence, findings, &mut reasons);
            shares.push((1.0 - SHARE_SUMS - SHARE_CURVE, share));
        }
    }
    let of: f64 = shares.iter().map(|(weight, _)| weight).sum();
    if of <= 0.0 {
        return PartScore::outside_lesson();
    }
    let got: f64 = shares.iter().map(|(weight, share)| weight * share).sum();
    PartScore::earned(got / of, reasons)
}

/// What a check of the last calibration line is worth, 0 to 1: its calculations, and how near its
/// percent difference comes to the true one.
fn check_share(
    evidence: &Evidence<'_>,
    findings: &[ProcedureFinding],
    reasons: &mut Vec<String>,
) -> f64 {
    let slipped = |id: &str| findings.iter().find(|finding| finding.rule == id);
    let mut sums = 1.0;
    for finding in ["check-made", "check-sums"].into_iter().filter_map(slipped) {
        sums = 0.0;
        reasons.push(finding.evidence.clone());
    }
    let own = flow_check::own_check(evidence).map(|own| own.difference_pct());
    let truth = flow_check::true_difference_pct(evidence);
    let near = match own.zip(truth) {
        Some((own, truth)) => {
            let share = remaining_share((own - truth).abs() - FREE_PCT, LOST_PCT);
            if share < 1.0 {
                let (own, truth) = (for_text(own, 1), for_text(truth, 1));
                reasons.push(format!(
                    "your readings give a percent difference of {own:+.1} %, but really it is \
                     {truth:+.1} %"
                ));
            }
            share
        }
        None => {
            reasons.push(
                "there is no percent difference between calibration line and standard".to_owned(),
            );
            0.0
        }
    };
    0.5 * (sums + near)
}

/// The fraction of the calculations that are there and right, 0 to 1.
fn sums_share(evidence: &Evidence<'_>, reasons: &mut Vec<String>) -> f64 {
    let book = evidence.book;
    let sums = OwnSums::of(evidence);
    let mut results: Vec<(Field, bool)> = Vec::new();
    for number in book.points() {
        let delta_h = book.number(Field::DeltaH(number)).zip(own_delta_h(evidence, number));
        let right = delta_h.is_some_and(|(written, own)| (written - own).abs() <= 0.051);
        results.push((Field::DeltaH(number), right));
        let own = sums.points.iter().find(|point| point.number == number);
        let flow = book.number(Field::PointFlow(number)).zip(own);
        let right = flow.is_some_and(|(flow, own)| (flow - own.flow).abs() <= FLOW_OFF_M3_MIN);
        results.push((Field::PointFlow(number), right));
        let term = book.number(Field::ChartTerm(number)).zip(own);
        let right = term.is_some_and(|(term, own)| (term - own.term).abs() <= TERM_OFF);
        results.push((Field::ChartTerm(number), right));
    }
    for (field, right) in line_matches(evidence, &sums) {
        // The line counts as much as the calculations of five points.
        results.extend([(field, right == Some(true)); 5]);
    }
    let right = results.iter().filter(|(_, right)| *right).count();
    let mut wrong: Vec<String> =
        results.iter().filter(|(_, right)| !right).map(|(field, _)| field.label()).collect();
    wrong.dedup();
    if !wrong.is_empty() {
        reasons.push(format!(
            "missing, or different from what your readings give: {}",
            wrong.join(", ")
        ));
    }
    right as f64 / results.len() as f64
}

/// How near the trainee's curve comes to the truth, 0 to 1.
fn curve_share(evidence: &Evidence<'_>, reasons: &mut Vec<String>) -> f64 {
    match own_flow_error_pct(evidence) {
        // A calibration that was refused does no harm.
        _ if evidence.verdict() == TraineeDecision::Refused && !evidence.points().is_empty() => 1.0,
        Some(error) => {
            let share = remaining_share(error.abs() - FREE_PCT, LOST_PCT);
            if share < 1.0 {
                let error = for_text(error, 1);
                reasons.push(format!(
                    "volumes are off by {error:+.1} % at the ordered flow, apart from the bias of \
                     the certificate"
                ));
            }
            share
        }
        None => {
            reasons.push("there is no calibration curve that gives the ordered flow".to_owned());
            0.0
        }
    }
}

/// How near the volume of a run comes to the truth, 0 to 1.
fn volume_share(evidence: &Evidence<'_>, reasons: &mut Vec<String>) -> f64 {
    let truth = crate::procedure::volume::truth(evidence).map(|truth| truth.volume_std_m3);
    let written = evidence.book.number(Field::Volume);
    let Some((written, truth)) = written.zip(truth) else {
        reasons.push("the volume of the run is missing".to_owned());
        return 0.0;
    };
    let error = evidence.setup.without_laboratory_pct(100.0 * (written / truth - 1.0));
    let share = remaining_share(error.abs() - FREE_RUN_PCT, LOST_PCT);
    if share < 1.0 {
        let error = for_text(error, 1);
        reasons.push(format!(
            "the volume of the run is off by {error:+.1} %, apart from the bias of the certificate"
        ));
    }
    share
}

/// What spread and number of points are worth, 0 to 1.
fn spread_share(
    evidence: &Evidence<'_>,
    findings: &[ProcedureFinding],
    reasons: &mut Vec<String>,
) -> f64 {
    if evidence.points().is_empty() {
        reasons.push("no points were taken".to_owned());
        return 0.0;
    }
    let mut share = 1.0;
    for finding in findings {
        share -= match finding.rule {
            "points-enough" | "points-spread" => 0.6,
            "points-as-ordered" => 0.3,
            _ => continue,
        };
        reasons.push(finding.evidence.clone());
    }
    f64::max(share, 0.0)
}
