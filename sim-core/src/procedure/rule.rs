//! Rules and their findings.

use serde::Serialize;

use super::evidence::Evidence;
use super::outcome::Outcome;
use crate::field_book::{Field, PointNumber};
use crate::time::Tick;

pub use super::slip::{Slip, SlipWeight};

/// One rule of the work: a small object that examines a session and reports where it was broken.
///
/// A rule examines the state at the moment that matters, for example when a leg was read, and never
/// a fixed order of actions: any order that is safe and sound is right.
#[derive(Debug)]
pub struct ProcedureRule {
    /// Name in scenarios and records, in kebab case.
    pub id: &'static str,
    /// What is to be done, in a few words.
    pub title: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What is at stake.
    pub severity: Severity,
    /// Whether breaking it decides the result whatever the marks are.
    pub decides: Decides,
    /// Where it comes from.
    pub source: RuleSource,
    /// The phase of the work to which it belongs.
    pub phase: WorkPhase,
    /// What would have to be changed in the session to undo the slip.
    pub repair: Repair,
    /// Judges a session.
    pub test: fn(&Evidence<'_>) -> Outcome,
}

impl ProcedureRule {
    /// The outcome of this rule in a session.
    ///
    /// Who rightly stopped the work need not complete the record: then nothing is missing from it.
    pub fn judge(&self, evidence: &Evidence<'_>) -> Outcome {
        match (self.test)(evidence) {
            Outcome::CannotJudge(_) if evidence.rightly_stopped() => Outcome::NotReached,
            outcome => outcome,
        }
    }

    /// Every finding of this rule in a session.
    pub fn findings(&self, evidence: &Evidence<'_>) -> Vec<ProcedureFinding> {
        match self.judge(evidence) {
            Outcome::Broken(slips) => self.findings_of(slips, RowsRead::of(evidence)),
            Outcome::Kept | Outcome::NotReached | Outcome::CannotJudge(_) => Vec::new(),
        }
    }

    /// The findings that these slips make in a session with so many points and checks.
    pub(super) fn findings_of(&self, slips: Vec<Slip>, read: RowsRead) -> Vec<ProcedureFinding> {
        let decisive = match self.decides {
            Decides::Never => false,
            Decides::Always => true,
            Decides::AsHabit => is_habit(&slips, read),
        };
        slips
            .into_iter()
            .map(|slip| ProcedureFinding {
                rule: self.id,
                title: self.title,
                why: self.why,
                severity: self.severity,
                critical: self.severity == Severity::Critical,
                decisive: decisive && slip.weight == SlipWeight::Full,
                phase: self.phase,
                source: self.source,
                repair: self.repair,
                tick: slip.tick,
                point: slip.point,
                evidence: slip.evidence,
            })
            .collect()
    }
}

/// How many points and readings of a flow check there are.
#[derive(Debug, Clone, Copy)]
pub(super) struct RowsRead {
    points: usize,
    checks: usize,
}

impl RowsRead {
    /// Those of a session.
    pub fn of(evidence: &Evidence<'_>) -> Self {
        let read = |number| {
            let fields =
                [Field::CheckUp(number), Field::CheckDown(number), Field::CheckChart(number)];
            fields.into_iter().any(|field| evidence.reading(field).is_some())
        };
        let checks = PointNumber::all().filter(|number| read(*number)).count();
        Self { points: evidence.points().len(), checks }
    }
}

/// Whether slips were made at more than half of the points, or of the readings of a flow check, which
/// makes them a habit.
fn is_habit(slips: &[Slip], read: RowsRead) -> bool {
    let most = |number: fn(&Slip) -> Option<u8>, of: usize| {
        let mut numbers: Vec<u8> = slips.iter().filter_map(number).collect();
        numbers.sort_unstable();
        numbers.dedup();
        2 * numbers.len() > of && !numbers.is_empty()
    };
    most(|slip| slip.point, read.points) || most(|slip| slip.check, read.checks)
}

/// What is at stake when a rule is broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Life: one finding fails the session, whatever the rest.
    Critical,
    /// Safety, without an immediate danger to life.
    Safety,
    /// The sampled volume.
    Data,
    /// Good practice.
    Practice,
}

/// Whether a broken rule of data decides the result.
///
/// A rule decides if breaking it spoils the volume of every later sample and nothing else in the record
/// shows it. One slip at one point only costs marks; the same slip at more than half of the points is a
/// habit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Decides {
    /// It only costs marks.
    Never,
    /// Broken at more than half of the points, the result is `not yet`.
    AsHabit,
    /// Broken once, the result is `not yet`.
    Always,
}

/// Where a rule comes from. People see the text alone; how well the source is known stays in the code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RuleSource {
    /// A citation with its section, or "common practice".
    pub text: &'static str,
    /// How well it is known.
    pub mark: SourceMark,
}

impl RuleSource {
    /// A source that was read.
    pub const fn read(text: &'static str) -> Self {
        Self { text, mark: SourceMark::Read }
    }

    /// A source that is known and was not read again.
    pub const fn memory(text: &'static str) -> Self {
        Self { text, mark: SourceMark::Memory }
    }

    /// What the trade does, without a written source.
    pub const PRACTICE: Self = Self { text: "common practice", mark: SourceMark::Practice };

    /// What sampling manuals and their calibration forms advise, from memory and without a section.
    pub const MANUALS: Self = Self::memory("common practice");
}

/// How well a source is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SourceMark {
    /// Read in the named source.
    Read,
    /// Known, but not read again.
    Memory,
    /// Common practice, without a written source.
    Practice,
}

/// A phase of the work.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum WorkPhase {
    /// Work order, weather, certificate, conditions.
    Arrive,
    /// Preparing: sampler dead, filter out, adapter plate and calibrator on.
    Strip,
    /// Manometer hung, zeroed, connected to the calibrator.
    Manometer,
    /// Blower on mains, warm-up, leak check.
    Power,
    /// The points.
    Points,
    /// Everything back as it was.
    Restore,
    /// The calculations (flows, corrected chart readings, line) and the decision.
    Sums,
    /// Target flow and the chart reading for it.
    SetPoint,
    /// The flow check against a standard.
    Check,
    /// Filter, controller, timer and chart set up for the run.
    Load,
    /// Filter and chart recovered.
    Recover,
    /// Volume, concentration, validity.
    Volume,
}

/// What undoes a slip when a session is replayed without it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Repair {
    /// The slip does not change any volume.
    None,
    /// Use the current original certificate of this calibrator.
    RightCertificate,
    /// Copy slope and intercept as printed.
    CopyCertificate,
    /// Use the pair for standard conditions.
    StandardPair,
    /// Use the pressure of the station.
    StationPressure,
    /// Use the temperature in the shade.
    ShadeTemperature,
    /// Write conditions as shown.
    ReadConditions,
    /// Make nuts, washers and gaskets tight.
    CloseLeak,
    /// Take the filter out.
    RemoveFilter,
    /// Hang the manometer plumb.
    PlumbManometer,
    /// Open both valves.
    OpenValves,
    /// Zero the manometer.
    ZeroManometer,
    /// Push the tube onto the pressure tap, without kink or water.
    ClearTube,
    /// Put the blower directly on the mains.
    MotorOnLine,
    /// Let the blower run five minutes before the first point.
    WaitFiveMinutes,
    /// Take the missing points.
    AddPoints,
    /// Let the flow settle for two minutes before reading.
    WaitTwoMinutes,
    /// Tap the pen until it is at rest.
    TapPen,
    /// Uncap the pen and lower it.
    PenOnPaper,
    /// Read the second leg and add it.
    AddSecondLeg,
    /// Read at eye level.
    EyeLevel,
    /// Write what was seen.
    ReadAsSeen,
    /// Keep the fluid in the manometer while the openings are covered.
    KeepFluid,
    /// Plug the blower back into the controller and put the sampler in order.
    RestoreSampler,
    /// Repeat the calculations from the trainee's readings.
    RedoSums,
    /// Use the expression of the corrected chart reading for the recorder on the bench.
    RightExpression,
    /// Decide as the line and the faults require.
    RightDecision,
    /// Repeat the calculations of the run from its readings.
    RedoRunSums,
    /// Take the set point from the trainee's line at the conditions of the run.
    SetPointFromLine,
    /// A fresh battery is put into the electronic manometer before it runs low.
    FreshBattery,
}

/// A rule that was broken, with when, where and how.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ProcedureFinding {
    /// Id of the rule.
    pub rule: &'static str,
    /// Title of the rule.
    pub title: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// What is at stake.
    pub severity: Severity,
    /// Whether it fails the session for safety.
    pub critical: bool,
    /// Whether it makes the result `not yet` whatever the marks are.
    pub decisive: bool,
    /// The phase of the work.
    pub phase: WorkPhase,
    /// Where the rule comes from.
    pub source: RuleSource,
    /// What undoes it.
    pub repair: Repair,
    /// When.
    pub tick: Tick,
    /// The number of the point, if it was at one.
    pub point: Option<u8>,
    /// What shows it, with numbers and units.
    pub evidence: String,
}
