//! Marking a session: its six parts, and the findings that override their sum.

use super::judgement::FaultJudged;
use super::marks::{MarkPart, MarkPartName, Marks, RunJudged, Standing};
use super::part_score::{POINTS_OF_A_LINE, PartScore};
use super::readings::ReadingJudged;
use super::{fit, judgement, readings, record, rules_kept};
use crate::field_book::Field;
use crate::procedure::evidence::{TraineeDecision, place};
use crate::procedure::{self, Ending, Evidence, ProcedureFinding, RulesJudged, Severity, strip};
use crate::rig::parts::{PartPlace, RigPart};
use crate::scenario::lesson::LessonPhase;

/// Marks a session.
pub fn mark(evidence: &Evidence<'_>) -> Marks {
    let RulesJudged { outcomes, findings } = procedure::judge(evidence);
    let mut faults = judgement::judge(evidence);
    // In a lesson, what the careful operator found before it was not found by the trainee.
    faults.retain(|judged| judged.reported.is_none_or(|tick| evidence.is_trainees(tick)));
    let readings = readings::judge(evidence);
    let standing = standing(evidence);
    let parts = parts(evidence, standing, (&findings, &faults, &readings));
    let (total, of) = parts
        .iter()
        .filter(|part| part.assessed)
        .fold((0.0, 0.0), |(got, of), part| (got + part.got, of + part.weight));
    let gate = findings
        .iter()
        .find(|finding| finding.critical)
        .or_else(|| findings.iter().find(|finding| finding.decisive))
        .cloned();
    let terms = &evidence.setup.terms;
    let missing = |name: &_| parts.iter().all(|part| part.name != *name || !part.assessed);
    let unassessed: Vec<MarkPartName> = terms.assessed.iter().copied().filter(missing).collect();
    let needed = terms.pass_mark * of / 100.0;
    // A share of nothing is no pass.
    let enough = of > 0.0 && total >= needed - ROUNDING;
    Marks {
        parts,
        total,
        of,
        pass_mark: terms.pass_mark,
        needed,
        passed: gate.is_none()
            && enough
            && unassessed.is_empty()
            && standing != Standing::BrokenOff,
        gate,
        standing,
        unassessed,
        rules: outcomes,
        findings,
        faults,
        readings,
        run: run_judged(evidence),
        set_point_flow_error_pct: procedure::own_sums::set_point_flow_error_pct(evidence),
    }
}

/// How far a sum of weighted parts may be rounded.
const ROUNDING: f64 = 1e-9;

/// The six parts.
fn parts(
    evidence: &Evidence<'_>,
    standing: Standing,
    (findings, faults, readings): (&[ProcedureFinding], &[FaultJudged], &[ReadingJudged]),
) -> [MarkPart; 6] {
    let points = taken(evidence);
    let done = |score: PartScore| match standing {
        // Where no points are to be taken, none are missing.
        Standing::BrokenOff if measures(evidence) => score.cut_to(points),
        _ => score,
    };
    let reached = |score: PartScore| match standing {
        Standing::RightlyStopped => PartScore::not_reached(),
        _ => done(score),
    };
    let hands = strip::handled(evidence);
    let safety = match (standing, hands) {
        (Standing::BrokenOff, _) => rules_kept::safety(findings).capped(hands),
        (Standing::RightlyStopped, strip::Hands::StayedOut) if !unsafe_work(findings) => {
            PartScore::not_reached()
        }
        (_, strip::Hands::StayedOut) if evidence.lesson().is_some() && !unsafe_work(findings) => {
            PartScore::outside_lesson()
        }
        _ => rules_kept::safety(findings),
    };
    let weights = &evidence.setup.terms.weights;
    [
        (MarkPartName::Safety, safety),
        (MarkPartName::Readings, reached(readings::part(evidence, readings))),
        (MarkPartName::Fit, reached(fit::part(evidence, findings))),
        (MarkPartName::Procedure, done(rules_kept::procedure(findings, points))),
        (MarkPartName::Judgement, done(judgement::part(evidence, faults, findings))),
        (MarkPartName::Record, reached(record::part(evidence))),
    ]
    .map(|(name, score)| weighted(name, weights.of(name), score))
}

/// A part with its weight.
fn weighted(name: MarkPartName, weight: f64, score: PartScore) -> MarkPart {
    let got = score.share.map_or(0.0, |share| weight * share.clamp(0.0, 1.0));
    MarkPart { name, weight, got, assessed: score.share.is_some(), reasons: score.reasons }
}

/// Whether a rule of safety was broken.
fn unsafe_work(findings: &[ProcedureFinding]) -> bool {
    let safety = |severity| matches!(severity, Severity::Critical | Severity::Safety);
    findings.iter().any(|finding| safety(finding.severity))
}

/// The run against the truth, if one was made.
fn run_judged(evidence: &Evidence<'_>) -> Option<RunJudged> {
    if !evidence.assesses(LessonPhase::Volume) {
        return None;
    }
    let truth = procedure::volume::truth(evidence)?;
    let percent = |volume: f64| {
        let error = 100.0 * (volume / truth.volume_std_m3 - 1.0);
        error.is_finite().then_some(error)
    };
    let volume_std_m3 = evidence.book.number(Field::Volume);
    Some(RunJudged {
        truth,
        volume_std_m3,
        error_pct: volume_std_m3.and_then(percent),
        perfect_trace_error_pct: procedure::volume::of_perfect_trace(evidence, &truth)
            .and_then(percent),
    })
}

/// The number of points taken. If only a flow check is ordered, the number of its readings; a
/// complete check counts at least as much as the points of a line.
fn taken(evidence: &Evidence<'_>) -> usize {
    let order = &evidence.setup.work_order;
    match order.flow_check.filter(|_| order.is_check_alone()) {
        Some(check) => {
            let read = procedure::flow_check::readings(evidence).len();
            let whole = read >= usize::from(check.readings);
            if whole { read.max(POINTS_OF_A_LINE) } else { read }
        }
        None => evidence.points().len(),
    }
}

/// Whether points or readings of a check are to be taken: in a lesson, only if it has that phase.
fn measures(evidence: &Evidence<'_>) -> bool {
    let phase = match evidence.setup.work_order.is_check_alone() {
        true => LessonPhase::FlowCheck,
        false => LessonPhase::Points,
    };
    evidence.assesses(phase)
}

/// Whether the calibrator stands on its plate at the end, where a lesson on mounting it ends before the
/// points.
fn is_mounted(evidence: &Evidence<'_>) -> bool {
    let mounts = evidence.lesson().is_some_and(|lesson| {
        lesson.phases.has(LessonPhase::Mounting) && lesson.phases.to < LessonPhase::Points
    });
    !mounts || place(evidence.end, RigPart::Calibrator) == PartPlace::Adapter
}

/// How far the work got.
fn standing(evidence: &Evidence<'_>) -> Standing {
    if evidence.fled_from_thunder() {
        return Standing::RightlyStopped;
    }
    if !measures(evidence) {
        // In a lesson without points, work is done until the trainee leaves.
        return match evidence.ended == Ending::LeftRoof || !is_mounted(evidence) {
            true => Standing::BrokenOff,
            false => Standing::Worked,
        };
    }
    if taken(evidence) >= POINTS_OF_A_LINE {
        return Standing::Worked;
    }
    let ended = evidence.ended != Ending::TimeOut;
    let refused =
        evidence.verdict() == TraineeDecision::Refused || evidence.ended == Ending::LeftRoof;
    let said = judgement::anything_seen_and_said(evidence);
    let stopped = evidence.ended_in_thunder()
        || refused && said && procedure::faults::grounds_for_refusal(evidence);
    if ended && stopped { Standing::RightlyStopped } else { Standing::BrokenOff }
}
