//! Marking a session: its six parts, and the findings that override their sum.

use super::marks::{MarkPart, MarkPartName, Marks, RunJudged, Standing};
use super::part_score::{POINTS_OF_A_LINE, PartScore};
use super::{fit, judgement, readings, record, rules_kept};
use crate::field_book::Field;
use crate::procedure::evidence::TraineeDecision;
use crate::procedure::{self, Ending, Evidence, strip};

/// Marks a session.
pub fn mark(evidence: &Evidence<'_>) -> Marks {
    let findings = procedure::findings(evidence);
    let faults = judgement::judge(evidence);
    let readings = readings::judge(evidence);
    let standing = standing(evidence);
    let points = taken(evidence);
    let done = |score: PartScore| match standing {
        Standing::BrokenOff => score.cut_to(points),
        _ => score,
    };
    let reached = |score: PartScore| match standing {
        Standing::RightlyStopped => PartScore::not_reached(),
        _ => done(score),
    };
    let weights = &evidence.setup.terms.weights;
    let part = |name, weight: f64, score: PartScore| MarkPart {
        name,
        weight,
        got: weight * score.share.clamp(0.0, 1.0),
        reasons: score.reasons,
    };
    let safety = match standing {
        Standing::BrokenOff => rules_kept::safety(&findings).capped(strip::handled(evidence)),
        _ => rules_kept::safety(&findings),
    };
    let parts = [
        part(MarkPartName::Safety, weights.safety, safety),
        part(
            MarkPartName::Readings,
            weights.readings,
            reached(readings::part(evidence, &readings)),
        ),
        part(MarkPartName::Fit, weights.fit, reached(fit::part(evidence, &findings))),
        part(
            MarkPartName::Procedure,
            weights.procedure,
            done(rules_kept::procedure(&findings, points)),
        ),
        part(MarkPartName::Judgement, weights.judgement, done(judgement::part(&faults, &findings))),
        part(MarkPartName::Record, weights.record, reached(record::part(evidence))),
    ];
    let total: f64 = parts.iter().map(|part| part.got).sum();
    let gate = findings
        .iter()
        .find(|finding| finding.critical)
        .or_else(|| findings.iter().find(|finding| finding.decisive))
        .cloned();
    let pass_mark = evidence.setup.terms.pass_mark;
    Marks {
        parts,
        total,
        pass_mark,
        passed: gate.is_none() && total >= pass_mark && standing != Standing::BrokenOff,
        gate,
        standing,
        findings,
        faults,
        readings,
        run: run_judged(evidence),
        set_point_flow_error_pct: procedure::own_sums::set_point_flow_error_pct(evidence),
    }
}

/// The run against the truth, if one was made.
fn run_judged(evidence: &Evidence<'_>) -> Option<RunJudged> {
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

/// How far the work got.
fn standing(evidence: &Evidence<'_>) -> Standing {
    if evidence.fled_from_thunder() {
        return Standing::RightlyStopped;
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
