//! One concrete bench: everything a session needs, with every spread of the scenario drawn.

use serde::{Deserialize, Deserializer, Serialize};

use crate::calibration::{self, Expression};
use crate::fault::{Fault, Onset};
use crate::rig::RigParameters;
use crate::rig::flow::calibrator::CalibratorKind;
use crate::rig::manometer::electronic::ManometerKind;
use crate::rig::recorder::RecorderKind;
use crate::text::no_such_value;
use crate::time::{Date, TimeOfDay};

pub use crate::rig::station::WeatherPlan;
pub use crate::rig::station::run_weather::RunWeather;
pub use crate::scenario::averages::SeasonAverages;
pub use crate::scenario::flow_check::{CheckedLine, FlowCheckOrder, FlowOfRun};
pub use crate::scenario::lesson::{LessonHelp, LessonPhase, LessonPhases};
pub use crate::scenario::run::{AddedFiltersOrder, NextRunOrder, RunOrder};
pub use crate::scenario::sampler_history::{PastVisit, PastWork, SamplerHistory};

/// A scenario with every spread drawn: what a session runs on.
#[derive(Debug, Clone)]
pub struct Setup {
    /// Where and when.
    pub station: StationCard,
    /// The job.
    pub work_order: WorkOrder,
    /// The certificates in the box, the top one first.
    pub certificates: Vec<Certificate>,
    /// By how much the flows by the certificate of the calibrator on the bench are too high because
    /// of the laboratory that made it, percent. Nobody on the roof can know it.
    pub laboratory_bias_pct: f64,
    /// The weather and the mains.
    pub weather: WeatherPlan,
    /// The weather of the run, if one is ordered.
    pub run: Option<RunWeather>,
    /// The parameters of every instrument, and the state of the rig at the start.
    pub rig: RigParameters,
    /// Faults with their sizes and onsets.
    pub faults: Vec<(Fault, Onset)>,
    /// What the trainee may ask for, how it is marked, and how long it may take.
    pub terms: SessionTerms,
}

impl Setup {
    /// A true flow as a perfect reader finds it by the certificate of the calibrator on the bench.
    pub fn as_certified(&self, flow: f64) -> f64 {
        flow * (1.0 + self.laboratory_bias_pct / 100.0)
    }

    /// An error of flow or volume, percent, less what the bias of the laboratory has in it.
    pub fn without_laboratory_pct(&self, error_pct: f64) -> f64 {
        100.0 * ((1.0 + error_pct / 100.0) / self.as_certified(1.0) - 1.0)
    }

    /// The expression of the corrected chart reading for the recorder of this bench, with each
    /// reading corrected for the air at its time.
    pub const fn expression(&self) -> Expression {
        expression_for(self.rig.recorder.kind)
    }
}

/// The expression of the corrected chart reading for a kind of recorder.
pub(super) const fn expression_for(kind: RecorderKind) -> Expression {
    Expression::actual(match kind {
        RecorderKind::SquareRoot => calibration::RecorderScale::SquareRoot,
        RecorderKind::Linear => calibration::RecorderScale::LinearInPressure,
        RecorderKind::MassFlow => calibration::RecorderScale::MassFlow,
    })
}

/// What is printed on the station's card.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct StationCard {
    /// Name of the station.
    pub name: String,
    /// Height above sea level, m.
    pub elevation_m: f64,
    /// Today.
    pub date: Date,
    /// Time of day at which the session begins.
    pub start: TimeOfDay,
    /// Serial number of the sampler.
    pub sampler_serial: String,
}

/// The work order.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkOrder {
    /// Its number.
    pub number: String,
    /// What is to be done, in plain words.
    pub text: String,
    /// Serial number of the calibrator to be used.
    pub calibrator_serial: String,
    /// Target flow at standard conditions, m3/min.
    pub target_flow_std_m3_min: f64,
    /// The design flow of a size-selective inlet at the conditions of the run, m3/min. The order
    /// prints it instead of the flow at standard conditions.
    pub target_flow_actual_m3_min: Option<f64>,
    /// Expected mean station pressure of the run, mmHg.
    pub run_pressure_mmhg: f64,
    /// Expected mean temperature of the run, degrees Celsius.
    pub run_temperature_c: f64,
    /// How many points are ordered.
    pub points: u8,
    /// Whether the points are to be taken with a filter under the calibrator.
    pub filter_in_place: bool,
    /// Averages of the season to be built into the calibration line.
    pub averages: Option<SeasonAverages>,
    /// Line of the last calibration: date, slope, intercept.
    pub last_line: Option<LastLine>,
    /// The unattended run, if one is ordered.
    pub run: Option<RunOrder>,
    /// The flow check, if one is ordered.
    pub flow_check: Option<FlowCheckOrder>,
    /// The history of the sampler, if its control chart is to be kept.
    pub history: Option<SamplerHistory>,
    /// The kind of calibrator that is at hand for it.
    pub calibrator: CalibratorKind,
    /// The kind of manometer that is at hand for it.
    pub manometer: ManometerKind,
}

impl WorkOrder {
    /// Whether the sampler is only held against the standard as it runs, and no line is made: a check
    /// of the last calibration line, or a calibration at the controlled flow alone.
    pub fn is_check_alone(&self) -> bool {
        self.flow_check.is_some_and(|check| check.is_whole_job())
    }

    /// The calibration at the controlled flow alone, if that is what is ordered.
    pub fn at_controlled_flow(&self) -> Option<FlowCheckOrder> {
        self.flow_check.filter(|check| check.line == CheckedLine::ControlledFlow)
    }

    /// The run for which the sampler is to be set up after the run of the session, if one is
    /// ordered.
    pub fn next_run(&self) -> Option<NextRunOrder> {
        self.run.as_ref().and_then(|run| run.next)
    }

    /// The test of the flow controller with added filters, if one is ordered.
    pub fn added_filters(&self) -> Option<AddedFiltersOrder> {
        self.run.as_ref().and_then(|run| run.added_filters)
    }

    /// The check that a calibration ends with, if one is ordered.
    pub fn check_of_own_line(&self) -> Option<FlowCheckOrder> {
        self.flow_check.filter(|check| check.line == CheckedLine::Own)
    }
}

/// The line of the last calibration, for comparison.
#[derive(Debug, Clone, PartialEq)]
pub struct LastLine {
    /// When it was made.
    pub date: Date,
    /// Its slope.
    pub slope: f64,
    /// Its intercept.
    pub intercept: f64,
}

/// A calibrator's certificate as printed.
#[derive(Debug, Clone, PartialEq)]
pub struct Certificate {
    /// What is printed at its top.
    pub heading: CertificateHeading,
    /// Serial number of the calibrator it is for.
    pub serial: String,
    /// When it was made.
    pub date: Date,
    /// Pair at standard conditions: slope m and intercept b of sqrt(dH P/760 298/T) on Qstd.
    pub standard: CertificatePair,
    /// Pair at actual conditions: slope and intercept of sqrt(dH T/P) on Qa (K, mmHg).
    pub actual: CertificatePair,
    /// Correlation coefficient.
    pub correlation: f64,
    /// Whether the actual-conditions pair is printed above the standard one.
    pub actual_first: bool,
}

impl Certificate {
    /// Whether it is a copy.
    pub fn is_copy(&self) -> bool {
        self.heading == CertificateHeading::Copy
    }

    /// Whether, on this day, it is neither dated in the future nor older than a year (annual
    /// recalibration, 40 CFR Part 50 App. B, 9.2.17, READ).
    pub fn is_current(&self, on: Date) -> bool {
        (0..=LONGEST_AGE_DAYS).contains(&on.days_since(self.date))
    }
}

/// Longest age of a certificate, days: a year, even a leap year.
pub(crate) const LONGEST_AGE_DAYS: i64 = 366;

/// What stands at the top of a certificate.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize)]
#[serde(into = "&'static str")]
pub enum CertificateHeading {
    /// The laboratory's own paper.
    #[default]
    Original,
    /// A copy of it.
    Copy,
}

impl CertificateHeading {
    /// The words that are printed, and written in a scenario.
    pub const fn printed(self) -> &'static str {
        match self {
            Self::Original => "certificate",
            Self::Copy => "copy of certificate",
        }
    }
}

impl From<CertificateHeading> for &'static str {
    fn from(heading: CertificateHeading) -> Self {
        heading.printed()
    }
}

impl<'de> Deserialize<'de> for CertificateHeading {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        let text = String::deserialize(reader)?;
        [Self::Original, Self::Copy]
            .into_iter()
            .find(|heading| heading.printed() == text)
            .ok_or_else(|| no_such_value(&text, "\"certificate\" or \"copy of certificate\""))
    }
}

/// A slope and an intercept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CertificatePair {
    /// Slope.
    pub slope: f64,
    /// Intercept.
    pub intercept: f64,
}

/// What help is allowed, how the session is marked, and how long it may take.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename = "Terms", deny_unknown_fields, default)]
pub struct SessionTerms {
    /// Help with what to do now and why, and a demonstration of the next step.
    pub help: bool,
    /// The calculations, done for the trainee on request.
    pub sums: bool,
    /// A plot of the trainee's points, on request.
    pub plot: bool,
    /// Readings in words, for those who cannot see a scale; if left out, wherever there is help.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub readings_in_words: Option<bool>,
    /// A checklist of the phases, which the trainee ticks; if left out, wherever there is help.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub checklist: Option<bool>,
    /// Rules that are not in force, by id.
    pub rules_off: Vec<String>,
    /// Weights of the six parts of the marks.
    pub weights: Weights,
    /// Marks needed to pass, of 100; of fewer in proportion, if not every part was assessed.
    pub pass_mark: f64,
    /// Parts of the marks that must have been assessed for a pass.
    pub assessed: Vec<MarkPartName>,
    /// Time limit, minutes of bench time; in a lesson they count from its beginning.
    pub time_limit_min: Option<f64>,
    /// The phases that belong to it, if it is a lesson: the others are done by the careful operator, or
    /// not at all.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub phases: Option<LessonPhases>,
}

/// The parts of the marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum MarkPartName {
    /// Safety rules.
    Safety,
    /// Values as read.
    Readings,
    /// Calculations, curve, points.
    Fit,
    /// Rules of data and practice.
    Procedure,
    /// Faults and decision.
    Judgement,
    /// The field book.
    Record,
}

impl MarkPartName {
    /// Every part, in their order.
    pub const ALL: [Self; 6] =
        [Self::Safety, Self::Readings, Self::Fit, Self::Procedure, Self::Judgement, Self::Record];

    /// The part as a scenario names it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Safety => "safety",
            Self::Readings => "readings",
            Self::Fit => "fit",
            Self::Procedure => "procedure",
            Self::Judgement => "judgement",
            Self::Record => "record",
        }
    }
}

/// Weights of the parts of the marks; they add up to 100.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Weights {
    /// Safety.
    pub safety: f64,
    /// Readings.
    pub readings: f64,
    /// Fit.
    pub fit: f64,
    /// Procedure.
    pub procedure: f64,
    /// Judgement.
    pub judgement: f64,
    /// Record.
    pub record: f64,
}

impl Weights {
    /// The weight of a part.
    pub const fn of(&self, part: MarkPartName) -> f64 {
        match part {
            MarkPartName::Safety => self.safety,
            MarkPartName::Readings => self.readings,
            MarkPartName::Fit => self.fit,
            MarkPartName::Procedure => self.procedure,
            MarkPartName::Judgement => self.judgement,
            MarkPartName::Record => self.record,
        }
    }

    /// The weight of a part, to be changed.
    pub const fn of_mut(&mut self, part: MarkPartName) -> &mut f64 {
        match part {
            MarkPartName::Safety => &mut self.safety,
            MarkPartName::Readings => &mut self.readings,
            MarkPartName::Fit => &mut self.fit,
            MarkPartName::Procedure => &mut self.procedure,
            MarkPartName::Judgement => &mut self.judgement,
            MarkPartName::Record => &mut self.record,
        }
    }
}

impl Default for Weights {
    fn default() -> Self {
        Self {
            safety: 15.0,
            readings: 25.0,
            fit: 20.0,
            procedure: 15.0,
            judgement: 15.0,
            record: 10.0,
        }
    }
}

impl SessionTerms {
    /// The terms as they hold at the bench: a lesson that is silent gives no help.
    pub(super) fn at_bench(&self) -> Self {
        let silent = self.phases.is_some_and(|phases| phases.help == LessonHelp::Silent);
        Self { help: self.help && !silent, ..self.clone() }
    }

    /// Whether readings may be had in words: in practice, and elsewhere if the scenario says so.
    pub fn allows_readings_in_words(&self) -> bool {
        self.readings_in_words.unwrap_or(self.help)
    }

    /// Whether there is a checklist: in practice, and elsewhere if the scenario says so.
    pub fn allows_checklist(&self) -> bool {
        self.checklist.unwrap_or(self.help)
    }
}

impl Default for SessionTerms {
    fn default() -> Self {
        Self {
            help: true,
            sums: false,
            plot: true,
            readings_in_words: None,
            checklist: None,
            rules_off: Vec::new(),
            weights: Weights::default(),
            pass_mark: 75.0,
            assessed: Vec::new(),
            time_limit_min: None,
            phases: None,
        }
    }
}
