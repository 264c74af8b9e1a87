//! A session: actions in, views out, ticks, and the journal from which all of it can be replayed.
//!
//! The state is stepped from boundary to boundary: to the next tick while the rotor changes its
//! speed, to the next whole second while it does not, and to the tick of every action. Between
//! boundaries a view is taken from a copy that is stepped through the remaining ticks, so looking
//! changes nothing, and the steps depend on the journal alone.

pub mod action;
pub mod apply;
pub mod clock;
pub(crate) mod counterfactual;
pub mod ended_session;
pub mod ending;
pub mod ground_truth;
mod ground_truth_of;
pub mod history;
pub mod journal;
mod onsets;
pub mod preview;
pub mod replay;
mod run_of;
mod state;
mod unattended;
pub mod view;
mod view_of;

use crate::field_book::FieldBook;
use crate::noise::Stream;
use crate::scenario::build::BuildError;
use crate::scenario::setup::Setup;
use crate::scenario::{Drawn, KnownRules, Scenario, ScenarioProblem};
use crate::time::{TICKS_PER_SECOND, Tick};

use action::{Action, Sight};
use apply::Refusal;
use clock::ClockNote;
use ended_session::EndedSession;
use ending::Ending;
use ground_truth::EventRecord;
use journal::{JournalLine, JournalSink, SinkError, Writer};
use state::{Eyes, SessionState};
use view::View;

pub use unattended::Pace;

/// Ticks between two checksums in the journal: one minute.
const CHECK_EVERY: u64 = 60 * TICKS_PER_SECOND;

/// Ticks between two checksums while nobody is there: one hour.
const CHECK_EVERY_AWAY: u64 = 60 * CHECK_EVERY;

/// Standard deviation of the tilt at which the manometer hangs at first, degrees (CHOSEN).
const HOOK_TILT_SD_DEG: f64 = 1.5;

/// A session under way.
#[derive(Debug)]
pub struct Session {
    setup: Setup,
    scenario: SessionSource,
    writer: Writer,
    state: SessionState,
    now: Tick,
    moments: Vec<EventRecord>,
    clock: Vec<ClockNote>,
    ended: Option<(Tick, Ending)>,
}

/// Where a session comes from: what it takes to replay it.
#[derive(Debug, Clone, PartialEq)]
pub struct SessionSource {
    /// The scenario as the trainer wrote it.
    pub text: String,
    /// SHA-256 of that text.
    pub sha256: String,
    /// The seed.
    pub seed: u64,
    /// The values drawn.
    pub drawn: Drawn,
}

/// Why a session could not begin.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum BeginError {
    /// The scenario has problems.
    #[error("problems found in the scenario: {}; the first: {}", .0.len(), .0.first().map(ToString::to_string).unwrap_or_default())]
    Scenario(Vec<ScenarioProblem>),
    /// No bench can be built from the numbers that were drawn.
    #[error(transparent)]
    Build(#[from] BuildError),
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
}

/// Why an action was not done. Nothing has changed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ActError {
    /// It cannot be done at the moment.
    #[error(transparent)]
    Refused(#[from] Refusal),
    /// The journal cannot be written.
    #[error(transparent)]
    Sink(#[from] SinkError),
    /// The session is over.
    #[error("the session has ended: nothing more can be done in it")]
    Ended,
}

impl Session {
    /// Begins a session from the text of a scenario and a seed.
    ///
    /// # Errors
    ///
    /// When the scenario has problems, or the journal cannot be written.
    pub fn begin(text: &str, seed: u64, ink: Box<dyn JournalSink>) -> Result<Self, BeginError> {
        let scenario =
            crate::scenario::check(text, KnownRules::Any).map_err(BeginError::Scenario)?;
        let drawn = scenario.draw(seed);
        let sha256 = crate::digest::sha256_hex(text.as_bytes());
        let source = SessionSource { text: text.to_owned(), sha256, seed, drawn };
        let mut session = Self::at_start(&scenario, source, Writer::new(Default::default(), ink))?;
        session.write_head()?;
        Ok(session)
    }

    /// The session at its first tick, with nothing written yet.
    fn at_start(
        scenario: &Scenario,
        source: SessionSource,
        writer: Writer,
    ) -> Result<Self, BuildError> {
        let mut setup = Setup::build(scenario, &source.drawn)?;
        let hook = Stream::new(source.seed, "manometer hook").normal();
        setup.rig.hook_tilt_deg = HOOK_TILT_SD_DEG * hook;
        Ok(Self::on_bench(setup, source, writer))
    }

    /// The session at its first tick on a bench that has been built.
    fn on_bench(setup: Setup, source: SessionSource, writer: Writer) -> Self {
        let state = SessionState::at_start(&setup, source.seed);
        Self {
            setup,
            scenario: source,
            writer,
            state,
            now: Tick(0),
            moments: Vec::new(),
            clock: Vec::new(),
            ended: None,
        }
    }

    /// Writes the three lines that every journal begins with.
    fn write_head(&mut self) -> Result<(), SinkError> {
        let SessionSource { text, sha256, seed, drawn } = &self.scenario;
        let version = crate::VERSION.to_owned();
        self.writer.write(&JournalLine::Journal { form: journal::FORM, version })?;
        self.writer.write(&JournalLine::Scenario { sha256: sha256.clone(), text: text.clone() })?;
        self.writer.write(&JournalLine::Drawn { seed: *seed, values: drawn.to_journal() })
    }

    /// Does one action at the current tick. Its line in the journal is safe before anything changes.
    ///
    /// # Errors
    ///
    /// When the action cannot be done or recorded, or the session is over; then nothing has changed.
    /// When only the seal after a last action cannot be written, the session has ended all the same,
    /// and replaying the journal seals it.
    pub fn act(&mut self, action: Action) -> Result<(), ActError> {
        if self.ended.is_some() {
            return Err(ActError::Ended);
        }
        let mut next = self.state.at(self.now);
        let before = next.facts();
        next.perform(&self.setup, &action)?;
        self.writer.write(&JournalLine::Act { tick: self.now, action: action.clone() })?;
        let after = next.facts();
        self.state = next;
        let ending = match action {
            Action::Sign => Some(Ending::Signed),
            Action::LeaveRoof => Some(Ending::LeftRoof),
            _ => None,
        };
        self.moments.push(EventRecord { tick: self.now, action, before, after });
        if let Some(ending) = ending {
            self.end(ending)?;
        }
        Ok(())
    }

    /// Records a wait and lets the time pass, or as much of it as the time limit leaves.
    ///
    /// # Errors
    ///
    /// As [`Session::act`].
    pub fn wait(&mut self, seconds: f64) -> Result<(), ActError> {
        self.act(Action::Wait { seconds })?;
        self.advance((seconds * TICKS_PER_SECOND as f64).round() as u64)?;
        Ok(())
    }

    /// Leaves the site and lets the run go by, until the trainee returns.
    ///
    /// # Errors
    ///
    /// As [`Session::act`].
    pub fn leave_site(&mut self) -> Result<(), ActError> {
        self.act(Action::LeaveSite)?;
        self.come_back()
    }

    /// Lets the rest of the run go by, if nobody is there.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written.
    pub fn come_back(&mut self) -> Result<(), ActError> {
        if let Some(run) = self.state.run.filter(|run| run.is_away()) {
            self.advance(run.back.0.saturating_sub(self.now.0))?;
        }
        Ok(())
    }

    /// Whether nobody is at the site.
    pub fn is_away(&self) -> bool {
        self.state.is_away()
    }

    /// Sets how an unattended run is stepped. A replay always takes the coarse pace.
    pub const fn set_pace(&mut self, pace: Pace) {
        self.state.pace = pace;
    }

    /// Lets time pass. Stops at the end of the session.
    ///
    /// # Errors
    ///
    /// When a checksum cannot be written into the journal. Then time stops at the checksum, which is
    /// missing from the journal, or the session has ended without its seal.
    pub fn advance(&mut self, ticks: u64) -> Result<(), SinkError> {
        if self.ended.is_some() {
            return Ok(());
        }
        let limit = self.limit_tick();
        let target = self.now.later(ticks);
        let stop = limit.map_or(target, |limit| target.min(limit));
        while let Some(boundary) = self.state.boundary_until(stop) {
            self.state.step_to(boundary);
            self.now = boundary;
            if !self.state.rig.is_finite() {
                return self.end(Ending::Broken);
            }
            let every = if self.state.is_away() { CHECK_EVERY_AWAY } else { CHECK_EVERY };
            if boundary.0.is_multiple_of(every) {
                let digest = self.state.digest();
                self.writer.write(&JournalLine::Check { tick: boundary, digest })?;
            }
        }
        self.now = stop;
        if limit == Some(stop) {
            return self.end(Ending::TimeOut);
        }
        Ok(())
    }

    /// Seals the journal.
    fn end(&mut self, ending: Ending) -> Result<(), SinkError> {
        self.state = self.state.at(self.now);
        // The last action is already in the journal, so the session has ended even if the seal
        // cannot be written.
        self.ended = Some((self.now, ending));
        let digest = self.state.digest();
        self.writer.write(&JournalLine::Sealed { tick: self.now, ending, digest })
    }

    /// The tick at which the time limit runs out.
    fn limit_tick(&self) -> Option<Tick> {
        let minutes = self.setup.terms.time_limit_min?;
        Some(Tick((minutes * 60.0 * TICKS_PER_SECOND as f64).round() as u64))
    }

    /// What can be seen now.
    pub fn view(&self) -> View {
        view_of::view(&self.state.at(self.now), &self.setup, self.now, self.limit_tick())
    }

    /// What the eyes are on, as [`view`](Self::view) has it, without looking.
    pub const fn focus(&self) -> Sight {
        self.state.eyes.focus
    }

    /// The field book.
    pub const fn book(&self) -> &FieldBook {
        &self.state.book
    }

    /// The papers that the trainee holds. Nothing in them is hidden.
    pub const fn papers(&self) -> SitePapers<'_> {
        SitePapers {
            station: &self.setup.station,
            work_order: &self.setup.work_order,
            certificates: self.setup.certificates.as_slice(),
            terms: &self.setup.terms,
        }
    }

    /// The current tick.
    pub const fn now(&self) -> Tick {
        self.now
    }

    /// Everything done so far, in order. The trainee may see all of it.
    pub fn done(&self) -> impl DoubleEndedIterator<Item = (Tick, &Action)> {
        self.moments.iter().map(|moment| (moment.tick, &moment.action))
    }

    /// How the session ended, if it has.
    pub fn ended(&self) -> Option<Ending> {
        self.ended.map(|(_, ending)| ending)
    }

    /// The head of the journal's chain, and the source of the session.
    pub fn seal(&self) -> (String, &SessionSource) {
        (self.writer.chain().head(), &self.scenario)
    }

    /// The state's checksum at the current tick.
    pub fn digest(&self) -> String {
        self.state.at(self.now).digest()
    }

    /// Opens the truth of a session that has ended.
    ///
    /// # Errors
    ///
    /// Gives the session back when it has not ended.
    pub fn open(self) -> Result<EndedSession, Box<Self>> {
        match self.ended {
            Some((tick, ending)) => {
                let end = self.state.facts();
                let head = self.writer.chain().head();
                let Self { setup, scenario, state, moments, clock, .. } = self;
                Ok(EndedSession {
                    setup,
                    source: scenario,
                    moments,
                    clock,
                    book: state.book,
                    end,
                    end_tick: tick,
                    ended: ending,
                    head,
                    rig: state.rig,
                })
            }
            None => Err(Box::new(self)),
        }
    }
}

/// The papers at the site.
#[derive(Debug, Clone, Copy)]
pub struct SitePapers<'a> {
    /// The station's card.
    pub station: &'a crate::scenario::setup::StationCard,
    /// The work order.
    pub work_order: &'a crate::scenario::setup::WorkOrder,
    /// The certificates in the box.
    pub certificates: &'a [crate::scenario::setup::Certificate],
    /// What help is allowed, and how the session is marked.
    pub terms: &'a crate::scenario::setup::SessionTerms,
}

#[cfg(test)]
mod gust_tests;
#[cfg(test)]
mod next_run_tests;
#[cfg(test)]
mod unattended_tests;
