//! What a session is worth, and why.

use serde::Serialize;

use super::{FaultJudged, ReadingJudged, SampleTruth};
use crate::procedure::{ProcedureFinding, RuleJudged};

pub use crate::scenario::setup::MarkPartName;

/// What a session is worth, and why.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Marks {
    /// The six parts: safety, readings, fit, procedure, judgement, record.
    pub parts: [MarkPart; 6],
    /// The sum of those that were assessed.
    pub total: f64,
    /// The most that those could give together: 100 if every part was assessed.
    pub of: f64,
    /// Marks needed to pass, of 100.
    pub pass_mark: f64,
    /// Marks needed to pass, of what could be given.
    pub needed: f64,
    /// Whether the session is passed; otherwise the result is `not yet`.
    pub passed: bool,
    /// The finding that overrides the sum, if there is one.
    pub gate: Option<ProcedureFinding>,
    /// How far the work got.
    pub standing: Standing,
    /// Parts that were not assessed, although the scenario asks for them.
    pub unassessed: Vec<MarkPartName>,
    /// The outcome of each rule in force, in the order of the work.
    pub rules: Vec<RuleJudged>,
    /// Every finding, in the order of the work.
    pub findings: Vec<ProcedureFinding>,
    /// Faults in force and false alarms.
    pub faults: Vec<FaultJudged>,
    /// Every reading.
    pub readings: Vec<ReadingJudged>,
    /// Error of the volumes at the ordered flow by the trainee's curve, percent.
    pub set_point_flow_error_pct: Option<f64>,
    /// The run, if one was made.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<RunJudged>,
}

impl Marks {
    /// The total in percent of what could be given; 0 if nothing was assessed.
    pub fn percent(&self) -> f64 {
        if self.of > 0.0 { 100.0 * self.total / self.of } else { 0.0 }
    }
}

/// A run as written, and what was actually sampled.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunJudged {
    /// What is true of it.
    pub truth: SampleTruth,
    /// The volume as written, standard m3.
    pub volume_std_m3: Option<f64>,
    /// Error of that volume, percent.
    pub error_pct: Option<f64>,
    /// Error of the volume that the trainee's line gives for a perfectly read trace in the true air
    /// of the run, percent: the bias of line and method.
    pub perfect_trace_error_pct: Option<f64>,
}

/// One part of the marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkPart {
    /// Its name.
    pub name: MarkPartName,
    /// The most that it can give.
    pub weight: f64,
    /// What it gave.
    pub got: f64,
    /// Whether it was assessed. A part that was rightly not reached is not: it is left out of the
    /// total.
    pub assessed: bool,
    /// Where marks were lost.
    pub reasons: Vec<String>,
}

/// How far the work got.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// There are enough points for a line.
    Worked,
    /// It was rightly stopped before: because of thunder, or of a fault that rules out a
    /// calibration.
    RightlyStopped,
    /// It was stopped without a good reason.
    BrokenOff,
}
