//! Judgement: faults in force against reports, false alarms, right responses, right decision.

use serde::Serialize;

use super::part_score::PartScore;
use super::remedied::{carried_out, remedied};
use crate::fault::Fault;
use crate::procedure::ProcedureFinding;
use crate::procedure::evidence::{At, Evidence};
use crate::procedure::faults::{false_alarms, faults_in_force};
use crate::procedure::inspection::looked_before;
use crate::session::action::{FaultPlace, FaultReport, Response};
use crate::time::Tick;

/// Worth of a fault that was found but met with a wrong response.
const WRONG_ANSWER: f64 = 0.6;
/// Worth of a fault that was corrected without a report.
const SILENT: f64 = 0.6;
/// Loss for each place at which a false alarm was raised.
const FALSE_ALARM: f64 = 0.25;
/// Fraction of the part that depends on the decision.
const SHARE_DECISION: f64 = 0.4;

/// A fault, or a report of one, and the verdict on it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultJudged {
    /// Where.
    pub place: FaultPlace,
    /// The fault in force; none for a false alarm.
    pub fault: Option<Fault>,
    /// What it is, in words; for a false alarm, in the trainee's words.
    pub what: String,
    /// When it was reported, if it was.
    pub reported: Option<Tick>,
    /// What the trainee did about it.
    pub response: Option<Response>,
    /// The verdict.
    pub verdict: FaultVerdict,
}

/// The verdict on a fault or a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultVerdict {
    /// Reported, with a right response.
    Found,
    /// Reported, with a response that does not help.
    WrongResponse,
    /// Reported as corrected or allowed for, although it was not: it counts as not found.
    OnlySaid,
    /// Corrected without a report.
    PutRightSilently,
    /// Not found.
    Missed,
    /// Reported where nothing was wrong.
    FalseAlarm,
    /// Reported without ever having looked at the place: it is neither a find nor a false alarm.
    Guessed,
}

/// Every fault in force and every false alarm, judged.
pub fn judge(evidence: &Evidence<'_>) -> Vec<FaultJudged> {
    let (mut remarks, mut guesses): (Vec<_>, Vec<_>) =
        evidence.remarks().partition(|&(at, remark)| looked_before(evidence, remark.place, at));
    let mut judged: Vec<FaultJudged> = Vec::new();
    for fault in faults_in_force(evidence) {
        let (name, right) = fault.answer();
        let here = |remark: &FaultReport| remark.place == fault.place();
        let index = remarks
            .iter()
            .position(|(_, remark)| here(remark) && right.contains(&remark.response))
            .or_else(|| remarks.iter().position(|(_, remark)| here(remark)));
        let found = index.map(|index| remarks.remove(index));
        let guess = match found {
            None => guesses.iter().position(|(_, remark)| here(remark)),
            Some(_) => None,
        };
        let guess = guess.map(|index| guesses.remove(index));
        let verdict = match found {
            Some((_, remark)) if !carried_out(evidence, &fault, remark.response) => {
                FaultVerdict::OnlySaid
            }
            Some((_, remark)) if right.contains(&remark.response) => FaultVerdict::Found,
            Some(_) => FaultVerdict::WrongResponse,
            // A fault that shows only in a run could not be found if no run was made.
            None if fault.belongs_to_run() && !evidence.run_was_made() && guess.is_none() => {
                continue;
            }
            None if remedied(evidence, &fault) => FaultVerdict::PutRightSilently,
            None if guess.is_some() => FaultVerdict::Guessed,
            None => FaultVerdict::Missed,
        };
        let said = found.or(guess);
        judged.push(FaultJudged {
            place: fault.place(),
            fault: Some(fault),
            what: name.to_owned(),
            reported: said.map(|(at, _)| at.tick()),
            response: said.map(|(_, remark)| remark.response),
            verdict,
        });
    }
    let groundless = |(at, remark): (At<'_>, &FaultReport), verdict| FaultJudged {
        place: remark.place,
        fault: None,
        what: remark.words(),
        reported: Some(at.tick()),
        response: Some(remark.response),
        verdict,
    };
    let alarms = false_alarms(evidence);
    judged.extend(alarms.into_iter().map(|said| groundless(said, FaultVerdict::FalseAlarm)));
    judged.extend(guesses.into_iter().map(|said| groundless(said, FaultVerdict::Guessed)));
    judged
}

/// Whether anything was reported after looking at it.
pub(crate) fn anything_seen_and_said(evidence: &Evidence<'_>) -> bool {
    evidence.remarks().any(|(at, remark)| looked_before(evidence, remark.place, at))
}

/// The part: faults found and false alarms, and the decision.
pub(super) fn part(judged: &[FaultJudged], findings: &[ProcedureFinding]) -> PartScore {
    let mut reasons = Vec::new();
    let (mut count, mut sum, mut alarms) = (0_u32, 0.0, 0.0);
    for one in judged {
        let place = one.place.words();
        let worth = match one.verdict {
            FaultVerdict::Found => 1.0,
            FaultVerdict::WrongResponse => {
                reasons.push(format!("{}: found, but the response does not help", one.what));
                WRONG_ANSWER
            }
            FaultVerdict::OnlySaid => {
                reasons.push(format!("{}: reported as dealt with, but it was not", one.what));
                0.0
            }
            FaultVerdict::PutRightSilently => {
                reasons.push(format!("{}: corrected, but not reported", one.what));
                SILENT
            }
            FaultVerdict::Guessed => {
                reasons.push(format!("{}: guessed, without a look at the {place}", one.what));
                if one.fault.is_none() {
                    continue;
                }
                0.0
            }
            FaultVerdict::Missed => {
                reasons.push(format!("{}: not found", one.what));
                0.0
            }
            FaultVerdict::FalseAlarm => {
                reasons.push(format!("false alarm about the {place}: {}", one.what));
                alarms += FALSE_ALARM;
                continue;
            }
        };
        count += 1;
        sum += worth;
    }
    let faults = if count == 0 { 1.0 } else { sum / f64::from(count) };
    let faults = f64::max(faults - alarms, 0.0);
    let decision = findings
        .iter()
        .find(|finding| {
            matches!(
                finding.rule,
                "decision-sound" | "decision-written" | "correlation" | "residuals" | "last-line"
            )
        })
        .map_or(1.0, |finding| {
            reasons.push(finding.evidence.clone());
            0.0
        });
    PartScore { share: (1.0 - SHARE_DECISION) * faults + SHARE_DECISION * decision, reasons }
}
