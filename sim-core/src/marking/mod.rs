//! Truth, marks, and findings: what a signed session is worth, and why.
//!
//! Six parts with weights from the scenario. Two things stand above the sum: a critical finding of
//! safety, and a decisive finding of data; either makes the result `not yet`. Why a rule decides is
//! said at [`crate::procedure`].

pub mod compared;
pub mod cost;
mod fit;
pub mod judgement;
pub mod readings;
mod record;
mod remedied;
mod rules_kept;
pub mod time_line;
pub mod truth;

#[cfg(test)]
mod marking_tests;

use serde::Serialize;

use crate::field_book::Field;
use crate::procedure::{self, Ending, Evidence, ProcedureFinding, strip};

pub use crate::procedure::TrueResponse;
pub use crate::session::ground_truth::SampleTruth;
pub use judgement::{FaultJudged, FaultVerdict};
pub use readings::ReadingJudged;

/// What a session is worth, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Marks {
    /// The six parts: safety, readings, fit, procedure, judgement, record.
    pub parts: [MarkPart; 6],
    /// Their sum.
    pub total: f64,
    /// Marks needed.
    pub pass_mark: f64,
    /// Whether it is passed. If not, it is not yet.
    pub passed: bool,
    /// The finding that stands above the sum, if there is one.
    pub gate: Option<ProcedureFinding>,
    /// How far the work came.
    pub standing: Standing,
    /// Every finding, in the order of the work.
    pub findings: Vec<ProcedureFinding>,
    /// Faults in force and false alarms.
    pub faults: Vec<FaultJudged>,
    /// Every reading.
    pub readings: Vec<ReadingJudged>,
    /// Error of the volumes at the ordered flow by the own curve, percent.
    pub set_point_flow_error_pct: Option<f64>,
    /// The run, where one was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<RunJudged>,
}

/// A run as written, against what it truly drew.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunJudged {
    /// What is true of it.
    pub truth: SampleTruth,
    /// The volume as written, standard m3.
    pub volume_std_m3: Option<f64>,
    /// Error of that volume, percent.
    pub error_pct: Option<f64>,
    /// Error of the volume that the own line gives for the trace, read perfectly, in the true air
    /// of the run, percent: what line and method leave.
    pub perfect_trace_error_pct: Option<f64>,
}

/// One part of the marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkPart {
    /// Its name.
    pub name: MarkPartName,
    /// What it can give.
    pub weight: f64,
    /// What it gave.
    pub got: f64,
    /// Why it gave no more.
    pub reasons: Vec<String>,
}

/// The parts of the marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkPartName {
    /// Safety rules.
    Safety,
    /// Values as read.
    Readings,
    /// Sums, curve, points.
    Fit,
    /// Rules of data and practice.
    Procedure,
    /// Faults and decision.
    Judgement,
    /// The field book.
    Record,
}

/// How far the work came.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// There are points enough for a line.
    Worked,
    /// It was rightly stopped before: thunder, or something that lets no calibration stand.
    RightlyStopped,
    /// It was broken off.
    BrokenOff,
}

/// A part before its weight.
#[derive(Debug, Clone)]
struct PartScore {
    /// What is left of it, 0 to 1.
    share: f64,
    /// Why it is no more.
    reasons: Vec<String>,
}

impl PartScore {
    /// A part that was never reached because the work was rightly stopped.
    fn not_reached() -> Self {
        Self { share: 1.0, reasons: vec!["not reached: the work was rightly stopped".to_owned()] }
    }

    /// A part of a session that was broken off: worth as much as came of the points of a line.
    fn cut_to(mut self, points: usize) -> Self {
        self.share *= points.min(POINTS_OF_A_LINE) as f64 / POINTS_OF_A_LINE as f64;
        self.reasons.push(match points {
            0 => "no point was taken, and nothing called for stopping".to_owned(),
            _ => format!("broken off after {points} of {POINTS_OF_A_LINE} points of a line"),
        });
        self
    }

    /// Safety of a session that was broken off: half of it at most, nothing when no hand went in.
    fn capped(mut self, hands: strip::Hands) -> Self {
        let (most, reason) = match hands {
            strip::Hands::WentIn => (0.5, "broken off: only what was done is counted"),
            strip::Hands::StayedOut => (0.0, "nothing was done that could be done safely"),
        };
        self.share = self.share.min(most);
        self.reasons.push(reason.to_owned());
        self
    }
}

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

/// The run against the truth, where one was made.
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

/// Points that make a line.
const POINTS_OF_A_LINE: usize = 3;

/// Points of a line that were taken; where only a check is ordered, its readings, all of which count
/// for as much as a line's three.
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

/// How far the work came.
fn standing(evidence: &Evidence<'_>) -> Standing {
    use crate::procedure::evidence::TraineeDecision;
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

/// A field of the book in words.
pub fn field_words(field: Field) -> String {
    let point = |name: &str, number: crate::field_book::PointNumber| {
        format!("{name} of point {}", number.number())
    };
    let check = |name: &str, number: crate::field_book::PointNumber| {
        format!("{name} of reading {} of the check", number.number())
    };
    match field {
        Field::CalibratorSerial => "calibrator's serial number".to_owned(),
        Field::CertificateSerial => "certificate's serial number".to_owned(),
        Field::CertificateDate => "certificate's date".to_owned(),
        Field::CertificateSlope => "certificate's slope".to_owned(),
        Field::CertificateIntercept => "certificate's intercept".to_owned(),
        Field::Temperature => "temperature".to_owned(),
        Field::Pressure => "pressure".to_owned(),
        Field::Up(number) => point("leg up", number),
        Field::Down(number) => point("leg down", number),
        Field::DeltaH(number) => point("sum of both legs", number),
        Field::Chart(number) => point("chart reading", number),
        Field::PointFlow(number) => point("flow", number),
        Field::ChartTerm(number) => point("chart term", number),
        Field::Expression => "expression".to_owned(),
        Field::Slope => "slope".to_owned(),
        Field::Intercept => "intercept".to_owned(),
        Field::Correlation => "correlation coefficient".to_owned(),
        Field::Decision => "decision".to_owned(),
        Field::TargetFlow => "target flow".to_owned(),
        Field::SetPoint => "chart reading of the set point".to_owned(),
        Field::CheckTemperature => "temperature of the check".to_owned(),
        Field::CheckPressure => "pressure of the check".to_owned(),
        Field::CheckUp(number) => check("leg up", number),
        Field::CheckDown(number) => check("leg down", number),
        Field::CheckChart(number) => check("chart reading", number),
        Field::CheckFlow => "flow of the check by the standard".to_owned(),
        Field::CheckLineFlow => "flow of the check by the line".to_owned(),
        Field::CheckDifference => "difference of the check".to_owned(),
        Field::CheckOutcome => "outcome of the check".to_owned(),
        Field::FilterNumber => "filter's number".to_owned(),
        Field::MeterBefore => "meter before the run".to_owned(),
        Field::StartChart => "chart reading at the start".to_owned(),
        Field::EndChart => "chart reading at the end".to_owned(),
        Field::MeterAfter => "meter after the run".to_owned(),
        Field::RunMinutes => "minutes of the run".to_owned(),
        Field::MeanChart => "mean chart reading of the run".to_owned(),
        Field::PartChart(number) => format!("mean chart reading of part {}", number.number()),
        Field::PartMinutes(number) => format!("minutes of part {}", number.number()),
        Field::RunPressure => "mean pressure of the run".to_owned(),
        Field::RunTemperature => "mean temperature of the run".to_owned(),
        Field::RunFlow => "mean flow of the run".to_owned(),
        Field::Volume => "volume".to_owned(),
        Field::Concentration => "concentration".to_owned(),
        Field::Validity => "validity".to_owned(),
        Field::Custody => "custody".to_owned(),
        Field::NextFilterNumber => "next filter's number".to_owned(),
        Field::Remarks => "remarks".to_owned(),
    }
}
