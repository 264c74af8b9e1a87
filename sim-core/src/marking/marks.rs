//! What a session is worth, and why.

use serde::Serialize;

use super::{FaultJudged, ReadingJudged, SampleTruth};
use crate::procedure::ProcedureFinding;

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
