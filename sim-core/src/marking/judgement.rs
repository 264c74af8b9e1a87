//! Judgement: faults in force against reports, false alarms, right responses, right decision.

use serde::Serialize;

use super::part_score::PartScore;
use super::remedied::{carried_out, last_reading, remedied};
use crate::fault::Fault;
use crate::procedure::ProcedureFinding;
use crate::procedure::evidence::Evidence;
use crate::procedure::faults::faults_in_force;
use crate::procedure::knowable::{never_showed, shown_before};
use crate::procedure::reports::{About, CauseNamed, ReportHeld, reports_held};
use crate::scenario::lesson::LessonPhase;
use crate::session::action::{FaultPlace, Response, SuspectedCause};
use crate::time::Tick;

/// Worth of a fault that was found but met with a wrong response.
const WRONG_ANSWER: f64 = 0.6;
/// Worth of a fault whose place was found, but whose cause was left open although it could be told.
const CAUSE_OPEN: f64 = 0.7;
/// Worth of a fault whose place was found, but that was taken for another one.
const WRONG_CAUSE: f64 = 0.4;
/// Worth of a fault that was corrected without a report.
const SILENT: f64 = 0.6;
/// Loss for each false alarm.
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
    /// What the trainee took for the cause, if it was reported.
    pub suspected: Option<SuspectedCause>,
    /// What the trainee did about it.
    pub response: Option<Response>,
    /// The verdict.
    pub verdict: FaultVerdict,
}

/// The verdict on a fault or a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultVerdict {
    /// Reported, with the cause and a right response.
    Found,
    /// Reported with a right response, but without the cause, which could be told.
    CauseOpen,
    /// Reported with a right response, but taken for another fault.
    WrongCause,
    /// Reported, with a response that does not help.
    WrongResponse,
    /// Reported as corrected or allowed for, although it was not: it counts as not found.
    OnlySaid,
    /// Corrected without a report.
    PutRightSilently,
    /// Not found.
    Missed,
    /// Not found, and nobody on the roof could have told it: it costs nothing.
    NeverShowed,
    /// Reported where nothing of the kind was wrong.
    FalseAlarm,
    /// Reported before anything that was looked at, heard or handled could have shown it: it counts
    /// as not found.
    Guessed,
}

impl FaultVerdict {
    /// Whether the fault was noticed in one way or another: reported on good grounds, or corrected.
    pub const fn is_noticed(self) -> bool {
        self.is_found() || matches!(self, Self::PutRightSilently)
    }

    /// Whether the fault was reported on good grounds, whatever was made of it.
    pub const fn is_found(self) -> bool {
        matches!(self, Self::Found | Self::CauseOpen | Self::WrongCause | Self::WrongResponse)
    }
}

/// Every fault in force and every false alarm, judged.
pub fn judge(evidence: &Evidence<'_>) -> Vec<FaultJudged> {
    let held = reports_held(evidence);
    let mut judged: Vec<FaultJudged> = Vec::new();
    for fault in faults_in_force(evidence) {
        let report = held.iter().find_map(|one| match one.about {
            About::Fault(about, named) if about == fault => Some((one, named)),
            _ => None,
        });
        let verdict = match report {
            Some((one, named)) => on_report(evidence, &fault, one, named),
            // A fault that shows only in a run could not be found if no run was made.
            None if fault.belongs_to_run() && !evidence.run_was_made() => continue,
            // Nor could one spoil anything that began after the last reading it could have touched.
            None if began_after_readings(evidence, &fault) => continue,
            None if remedied(evidence, &fault) => FaultVerdict::PutRightSilently,
            None if never_showed(evidence, &fault) => FaultVerdict::NeverShowed,
            None => FaultVerdict::Missed,
        };
        judged.push(FaultJudged {
            place: fault.place(),
            fault: Some(fault),
            what: fault.answer().0.to_owned(),
            reported: report.map(|(one, _)| one.at.tick()),
            suspected: report.map(|(one, _)| one.report.cause.clone()),
            response: report.map(|(one, _)| one.report.response),
            verdict,
        });
    }
    let alarms = held.iter().filter(|one| one.about == About::Nothing);
    judged.extend(alarms.map(|one| FaultJudged {
        place: one.report.place,
        fault: None,
        what: one.report.words(),
        reported: Some(one.at.tick()),
        suspected: Some(one.report.cause.clone()),
        response: Some(one.report.response),
        verdict: FaultVerdict::FalseAlarm,
    }));
    judged
}

/// Whether a fault of what measures the flow for a calibration or a check began only after the last
/// reading of either.
fn began_after_readings(evidence: &Evidence<'_>, fault: &Fault) -> bool {
    let measures = matches!(
        fault.place(),
        FaultPlace::Manometer
            | FaultPlace::Tube
            | FaultPlace::Calibrator
            | FaultPlace::Barometer
            | FaultPlace::Thermometer
            | FaultPlace::Weather
    );
    let last = last_reading(evidence);
    measures
        && last.is_some_and(|last| {
            let mut until = evidence.events.iter().take(last.index + 1);
            until.all(|moment| !moment.before.faults.contains(fault))
        })
}

/// The verdict on a fault that was reported.
fn on_report(
    evidence: &Evidence<'_>,
    fault: &Fault,
    one: &ReportHeld<'_>,
    named: CauseNamed,
) -> FaultVerdict {
    let response = one.report.response;
    if !shown_before(evidence, fault, one.at) {
        FaultVerdict::Guessed
    } else if !carried_out(evidence, fault, response) {
        FaultVerdict::OnlySaid
    } else if !fault.answer().1.contains(&response) {
        FaultVerdict::WrongResponse
    } else {
        match named {
            CauseNamed::Right => FaultVerdict::Found,
            CauseNamed::NotYet if !fault.sheet().cause_shows => FaultVerdict::Found,
            CauseNamed::NotYet => FaultVerdict::CauseOpen,
            CauseNamed::Wrong => FaultVerdict::WrongCause,
        }
    }
}

/// Whether a fault that rules out a calibration was reported on good grounds.
pub(crate) fn anything_seen_and_said(evidence: &Evidence<'_>) -> bool {
    reports_held(evidence).iter().any(|one| match one.about {
        About::Fault(fault, _) => shown_before(evidence, &fault, one.at),
        About::OtherMeans => true,
        About::Nothing => false,
    })
}

/// Whether there is a decision to be made: a lesson may end before it.
fn decides(evidence: &Evidence<'_>) -> bool {
    [LessonPhase::Calculations, LessonPhase::FlowCheck].into_iter().any(|p| evidence.assesses(p))
}

/// The part: faults found and false alarms, and the decision.
pub(super) fn part(
    evidence: &Evidence<'_>,
    judged: &[FaultJudged],
    findings: &[ProcedureFinding],
) -> PartScore {
    let mut reasons = Vec::new();
    let (mut count, mut sum, mut alarms) = (0_u32, 0.0, 0.0);
    for one in judged {
        let place = one.place.words();
        let worth = match one.verdict {
            FaultVerdict::Found => 1.0,
            FaultVerdict::CauseOpen => {
                let what = &one.what;
                reasons.push(format!("{what}: found at the {place}, but the cause was left open"));
                CAUSE_OPEN
            }
            FaultVerdict::WrongCause => {
                let suspected =
                    one.suspected.as_ref().map_or("something else", SuspectedCause::words);
                reasons.push(format!("{}: taken for {suspected}", one.what));
                WRONG_CAUSE
            }
            FaultVerdict::NeverShowed => continue,
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
                let what = &one.what;
                reasons.push(format!("{what}: reported before anything had shown it: a guess"));
                0.0
            }
            FaultVerdict::Missed => {
                reasons.push(format!("{}: not found", one.what));
                0.0
            }
            FaultVerdict::FalseAlarm => {
                reasons.push(format!("false alarm about the {place}: “{}”", one.what));
                alarms += FALSE_ALARM;
                continue;
            }
        };
        count += 1;
        sum += worth;
    }
    let faults = if count == 0 { 1.0 } else { sum / f64::from(count) };
    let faults = f64::max(faults - alarms, 0.0);
    if !decides(evidence) {
        return match judged.is_empty() {
            true => PartScore::outside_lesson(),
            false => PartScore::earned(faults, reasons),
        };
    }
    let decision = findings
        .iter()
        .find(|finding| {
            matches!(
                finding.rule,
                "decision-sound"
                    | "decision-written"
                    | "correlation"
                    | "residuals"
                    | "last-line"
                    | "agrees-with-reports"
                    | "history-read"
            )
        })
        .map_or(1.0, |finding| {
            reasons.push(finding.evidence.clone());
            0.0
        });
    PartScore::earned((1.0 - SHARE_DECISION) * faults + SHARE_DECISION * decision, reasons)
}
