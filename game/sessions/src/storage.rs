//! Where a front end finds scenarios and keeps what people make, behind one trait: a window knows
//! neither folders nor files, and the same window can stand on another kind of storage.

use std::fmt::Debug;
use std::path::PathBuf;

use sim_core::scenario::Scenario;
use sim_core::scenario::site_look::SiteLook;

use crate::error::FrontEndError;
use crate::live::LiveSession;
use crate::opened::Opened;

/// What a storage calls a scenario or a kept session. Only the storage itself can read it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StorageId(pub(crate) PathBuf);

/// A scenario as a list shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct ScenarioCard {
    /// Its name in the storage.
    pub id: StorageId,
    /// Its title.
    pub title: String,
    /// What the visit is for, and what anybody would see on arrival; `None` where the scenario does not
    /// tell it. What the scenario teaches is told after the work.
    pub situation: Option<String>,
    /// How its site looks on arrival; `None` when it cannot be opened.
    pub look: Option<SiteLook>,
    /// What kind of job it is.
    pub job: JobKind,
    /// Time limit, minutes.
    pub limit_min: Option<f64>,
    /// What is wrong with it, when it cannot be opened.
    pub trouble: Option<String>,
}

/// A kind of job, by which a list groups its scenarios.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum JobKind {
    /// A calibration.
    Calibration,
    /// A calibration and the run after it.
    WithRun,
    /// A check of the flow, or a calibration at one flow alone.
    FlowCheck,
    /// Work against the clock.
    Timed,
    /// A lesson on some phases of the work.
    Lesson,
    /// It cannot be opened.
    Unknown,
}

impl JobKind {
    /// All of them, in the order of a list.
    pub const ALL: [Self; 6] = [
        Self::Calibration,
        Self::WithRun,
        Self::FlowCheck,
        Self::Timed,
        Self::Lesson,
        Self::Unknown,
    ];

    /// The kind of a scenario's job, as its order has it.
    pub fn of(scenario: &Scenario) -> Self {
        if scenario.terms.phases.is_some() {
            return Self::Lesson;
        }
        let check = scenario.flow_check.filter(|check| check.is_whole_job());
        match (scenario.terms.time_limit_min, &scenario.run, check) {
            (Some(_), _, _) => Self::Timed,
            (None, Some(_), _) => Self::WithRun,
            (None, None, Some(_)) => Self::FlowCheck,
            (None, None, None) => Self::Calibration,
        }
    }

    /// What stands above such jobs in a list.
    pub const fn heading(self) -> &'static str {
        match self {
            Self::Lesson => "Lessons on one phase of the work",
            Self::Calibration => "Calibrations",
            Self::WithRun => "Calibrations with a 24-hour run",
            Self::FlowCheck => "Flow checks, and calibrations at one flow",
            Self::Timed => "Against the clock",
            Self::Unknown => "Scenarios that cannot be opened",
        }
    }
}

/// What was got in a session.
#[derive(Debug, Clone, PartialEq)]
pub struct MarksGot {
    /// Head of the session's journal.
    pub head: String,
    /// Percent of the marks that could be given.
    pub percent: f64,
    /// Whether it was passed.
    pub passed: bool,
}

/// A session that is kept, as a list shows it.
#[derive(Debug, Clone, PartialEq)]
pub struct KeptSession {
    /// Its name in the storage.
    pub id: StorageId,
    /// The scenario's title.
    pub title: String,
    /// The seed of its bench; `None` where the journal does not say it in words of this version.
    pub seed: Option<u64>,
    /// Minutes of bench time so far; `None` likewise.
    pub minutes: Option<u64>,
    /// What can be done with it.
    pub state: KeptState,
}

/// What can be done with a session that is kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum KeptState {
    /// It can be resumed.
    Unfinished,
    /// It has ended, and its debrief can be opened.
    Ended,
    /// It can be opened by this other version of the program only.
    OtherVersion(String),
    /// Its journal cannot be read, and why.
    Unreadable(String),
}

/// A text that a storage keeps, and what to call it in a message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptText {
    /// Its name for people.
    pub name: String,
    /// What stands in it; `None` when nothing was kept yet.
    pub text: Option<String>,
}

/// Scenarios, journals, settings and reports, wherever they are, and the clock that dates them.
///
/// Every call may take its time, and a window makes those that read much beside its frames.
pub trait Storage: Debug + Send + Sync {
    /// Every scenario, in the order in which it is offered.
    fn scenarios(&self) -> Vec<ScenarioCard>;

    /// Every session that is kept, the latest first. No journal is read whole for it.
    fn kept_sessions(&self) -> Vec<KeptSession>;

    /// Begins a session. Where no journal can be kept it begins without one, and the notice says so.
    ///
    /// # Errors
    ///
    /// When the scenario has problems.
    fn begin(&self, scenario: &StorageId, seed: u64) -> Result<Opened, FrontEndError>;

    /// Goes on with a session that is kept, into its own journal.
    ///
    /// # Errors
    ///
    /// When its journal does not hold, or cannot be written to.
    fn resume(&self, session: &StorageId) -> Result<Opened, FrontEndError>;

    /// Replays a session that has ended; its journal is only read.
    ///
    /// # Errors
    ///
    /// When its journal does not hold, or the session has not ended.
    fn replay_ended(&self, session: &StorageId) -> Result<Box<dyn LiveSession>, FrontEndError>;

    /// What was got in a session that has ended; `None` if its journal does not hold. The whole session is
    /// replayed for it.
    fn marks_got(&self, session: &StorageId) -> Option<MarksGot>;

    /// The settings as they were kept.
    ///
    /// # Errors
    ///
    /// When there is nowhere to keep any, or they cannot be read.
    fn settings(&self) -> Result<KeptText, FrontEndError>;

    /// Keeps the settings.
    ///
    /// # Errors
    ///
    /// When they cannot be written.
    fn keep_settings(&self, text: &str) -> Result<(), FrontEndError>;

    /// The clock on the wall where this storage is: seconds since 1970-01-01 00:00 UTC.
    fn wall_clock_s(&self) -> u64;

    /// Keeps the files of a report, an earlier report of the same name being replaced, and says where
    /// they are.
    ///
    /// # Errors
    ///
    /// When there is nowhere to keep them, or they cannot be written.
    fn keep_report(&self, name: &str, files: &[(&str, Vec<u8>)]) -> Result<String, FrontEndError>;
}

/// Shows other programs the latest of something, such as what a screen reader is told.
pub trait Publisher: Debug + Send + Sync {
    /// Puts this in the place of what was there, at once.
    ///
    /// # Errors
    ///
    /// When it cannot be written.
    fn publish(&self, content: &[u8]) -> Result<(), FrontEndError>;
}
