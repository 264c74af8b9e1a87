//! Judgement: faults in force against remarks, false alarms, right answers, right decision.

use serde::Serialize;

use super::PartScore;
use crate::fault::Fault;
use crate::field_book::Field;
use crate::procedure::Finding;
use crate::procedure::evidence::{At, Evidence};
use crate::procedure::faults::{false_alarms, faults_in_force};
use crate::procedure::looked::looked_before;
use crate::rig::parts::{FilterSide, Seat};
use crate::session::action::{Action, FaultPlace, Remark, Response};
use crate::session::facts::{Facts, RunFacts};
use crate::time::Tick;

/// Worth of a fault found and answered wrongly.
const WRONG_ANSWER: f64 = 0.6;
/// Worth of a fault put right without a word.
const SILENT: f64 = 0.6;
/// Loss for each place at which a false alarm was raised.
const FALSE_ALARM: f64 = 0.25;
/// Share of the part that stands on the decision.
const SHARE_DECISION: f64 = 0.4;

/// A fault, or a report of one, and what it is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultJudged {
    /// Where.
    pub place: FaultPlace,
    /// The fault in force; none for a false alarm.
    pub fault: Option<Fault>,
    /// What it is, in words; for a false alarm the trainee's words.
    pub what: String,
    /// When it was reported, if it was.
    pub reported: Option<Tick>,
    /// What the trainee did about it.
    pub response: Option<Response>,
    /// What comes of it.
    pub verdict: FaultVerdict,
}

/// What comes of a fault or a report.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultVerdict {
    /// Reported and answered rightly.
    Found,
    /// Reported, with an answer that does not help.
    WrongResponse,
    /// Put right without a report.
    PutRightSilently,
    /// Not found.
    Missed,
    /// Reported where nothing was wrong.
    FalseAlarm,
    /// Reported before the place was ever looked at: it counts neither way.
    Guessed,
}

/// Every fault in force and every false alarm, judged.
pub fn judge(evidence: &Evidence<'_>) -> Vec<FaultJudged> {
    let (mut remarks, mut guesses): (Vec<_>, Vec<_>) =
        evidence.remarks().partition(|&(at, remark)| looked_before(evidence, remark.place, at));
    let mut judged: Vec<FaultJudged> = Vec::new();
    for fault in faults_in_force(evidence) {
        let (name, right) = fault.answer();
        let here = |remark: &Remark| remark.place == fault.place();
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
            Some((_, remark)) if right.contains(&remark.response) => FaultVerdict::Found,
            Some(_) => FaultVerdict::WrongResponse,
            None if put_right(evidence, &fault) => FaultVerdict::PutRightSilently,
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
    let groundless = |(at, remark): (At<'_>, &Remark), verdict| FaultJudged {
        place: remark.place,
        fault: None,
        what: remark.what.clone(),
        reported: Some(at.tick()),
        response: Some(remark.response),
        verdict,
    };
    let alarms = false_alarms(evidence);
    judged.extend(alarms.into_iter().map(|said| groundless(said, FaultVerdict::FalseAlarm)));
    judged.extend(guesses.into_iter().map(|said| groundless(said, FaultVerdict::Guessed)));
    judged
}

/// Whether anything was reported by somebody who had looked first.
pub(crate) fn anything_seen_and_said(evidence: &Evidence<'_>) -> bool {
    evidence.remarks().any(|(at, remark)| looked_before(evidence, remark.place, at))
}

/// Whether a fault was put right, or got round, though nobody said so.
pub(super) fn put_right(evidence: &Evidence<'_>, fault: &Fault) -> bool {
    let did = |wanted: &dyn Fn(&Action) -> bool| evidence.moments.iter().any(|m| wanted(&m.action));
    let first = evidence.first_reading();
    let at_first = |right: &dyn Fn(&Facts) -> bool| first.is_some_and(|at| right(at.facts()));
    let when_written = |field, right: &dyn Fn(&Facts) -> bool| {
        evidence.written(field).is_some_and(|at| right(at.facts()))
    };
    let at_leaving = |right: &dyn Fn(&RunFacts) -> bool| {
        let run = evidence.leaving().and_then(|at| at.facts().run.as_ref());
        run.is_some_and(right)
    };
    match fault {
        Fault::ManometerOutOfPlumb { .. } => at_first(&|facts| facts.tilt_deg.abs() <= 1.0),
        Fault::TubeKinked => did(&|action| matches!(action, Action::StraightenTube)),
        Fault::TubeLoose { .. } => {
            let pushes = evidence.moments.iter().filter(|m| m.action == Action::ConnectTube);
            pushes.count() > 1
        }
        Fault::WasherBelow { .. } => {
            at_first(&|facts| facts.washer_above.iter().all(|above| *above))
        }
        Fault::TubeWet { .. } => did(&|action| matches!(action, Action::DrainTube)),
        Fault::CalibratorGasketMissing { .. } => at_first(&|facts| facts.calibrator_gasket),
        Fault::HolderGasketMissing { .. } => at_first(&|facts| facts.holder_gasket),
        Fault::PenZeroOff { .. } => did(&|action| matches!(action, Action::SetPenZero { .. })),
        Fault::BarometerAtSeaLevel => {
            when_written(Field::Pressure, &|facts| facts.barometer_at_station)
        }
        Fault::ThermometerInSun { .. } => {
            when_written(Field::Temperature, &|facts| facts.thermometer_shaded)
        }
        Fault::FilterTorn { .. } | Fault::FilterPinholes { .. } | Fault::FilterWet { .. } => {
            at_leaving(&|run| run.sheet.number > 1)
        }
        Fault::FilterUpsideDown => at_leaving(&|run| run.sheet.up == FilterSide::Rough),
        Fault::FilterOffCentre => at_leaving(&|run| run.sheet.seat == Seat::Centred),
        Fault::TripperLoose { .. } => at_leaving(&|run| !run.tripper_loose.contains(&true)),
        Fault::TimerWrongDay => at_leaving(&|run| run.dial_ahead_min.abs() < 60.0),
        Fault::CertificateExpired
        | Fault::CertificateOfAnother
        | Fault::CertificateActualFirst
        | Fault::CertificateDigitsExchanged => {
            use crate::procedure::certificate as rules;
            let kept = [
                &rules::CERTIFICATE_SERIAL,
                &rules::CERTIFICATE_CURRENT,
                &rules::CERTIFICATE_COPIED,
                &rules::STANDARD_PAIR,
            ];
            evidence.book.number(Field::CertificateSlope).is_some()
                && kept.iter().all(|rule| rule.findings(evidence).is_empty())
        }
        _ => false,
    }
}

/// The part: faults found and false alarms, and the decision.
pub(super) fn part(judged: &[FaultJudged], findings: &[Finding]) -> PartScore {
    let mut reasons = Vec::new();
    let (mut count, mut sum, mut alarms) = (0_u32, 0.0, 0.0);
    for one in judged {
        let place = one.place.words();
        let worth = match one.verdict {
            FaultVerdict::Found => 1.0,
            FaultVerdict::WrongResponse => {
                reasons.push(format!("{}: found, and the answer does not help", one.what));
                WRONG_ANSWER
            }
            FaultVerdict::PutRightSilently => {
                reasons.push(format!("{}: put right and not reported", one.what));
                SILENT
            }
            FaultVerdict::Guessed => {
                reasons.push(format!("{}: guessed, the {place} was not looked at", one.what));
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
                reasons.push(format!("false alarm at the {place}: {}", one.what));
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
