//! A session under way: what can be done in it, and how its time passes.

use super::action::{Action, Sight};
use super::clock::{ClockEvent, ClockNote};
use super::deeds::Deeds;
use super::ended_session::EndedSession;
use super::ending::Ending;
use super::error::{ActError, BeginError};
use super::ground_truth::{EventRecord, GroundTruth};
use super::journal::{self, JournalLine, JournalSink, SinkError, Writer};
use super::lesson_began::LessonBegan;
use super::next_reading::NextReading;
use super::own_judgement::OwnJudgement;
use super::papers::SitePapers;
use super::source::SessionSource;
use super::state::SessionState;
use super::unattended_run::Pace;
use super::view::View;
use super::view_of;
use crate::digest::{Digest, Digestible as _};
use crate::field_book::FieldBook;
use crate::noise::Stream;
use crate::scenario::build::BuildError;
use crate::scenario::setup::{LessonPhase, Setup};
use crate::scenario::{KnownRules, Scenario};
use crate::time::{TICKS_PER_SECOND, Tick};

/// Ticks between two checksums in the journal: one minute.
const CHECK_EVERY: u64 = 60 * TICKS_PER_SECOND;

/// Ticks between two checksums while nobody is there: one hour.
const CHECK_EVERY_AWAY: u64 = 60 * CHECK_EVERY;

/// Standard deviation of the tilt at which the manometer hangs at first, degrees (CHOSEN).
const HOOK_TILT_SD_DEG: f64 = 1.5;

/// A session under way.
#[derive(Debug)]
pub struct Session {
    pub(super) setup: Setup,
    pub(super) scenario: SessionSource,
    pub(super) writer: Writer,
    pub(super) state: SessionState,
    pub(super) now: Tick,
    pub(super) deeds: Deeds,
    /// A checksum that could not be written when it was due: it is written before anything else.
    pub(super) owed: Option<JournalLine>,
    pub(super) events: Vec<EventRecord>,
    pub(super) clock: Vec<ClockNote>,
    pub(super) ended: Option<(Tick, Ending)>,
    pub(super) judgement: Option<OwnJudgement>,
    /// When the lesson began, if this is one that has begun.
    pub(super) lesson: Option<LessonBegan>,
}

impl Session {
    /// Begins a session from the text of a scenario and a seed.
    ///
    /// # Errors
    ///
    /// When the scenario has problems or is a lesson, or the journal cannot be written.
    pub fn begin(text: &str, seed: u64, ink: Box<dyn JournalSink>) -> Result<Self, BeginError> {
        Self::begin_at_arrival(text, seed, ink)?.not_a_lesson()
    }

    /// As [`begin`](Self::begin); of a lesson, the session that is still to be brought to its beginning.
    pub(crate) fn begin_at_arrival(
        text: &str,
        seed: u64,
        ink: Box<dyn JournalSink>,
    ) -> Result<Self, BeginError> {
        let mut session = Self::written_by(text, seed, Writer::new(Default::default(), ink))?;
        session.write_head()?;
        Ok(session)
    }

    /// Begins a session of which no journal is wanted, as a trial does by the thousand: the same
    /// session to the last bit, without lines and checksums. Its head and its digest stand for
    /// nothing.
    ///
    /// # Errors
    ///
    /// When the scenario has problems or is a lesson.
    pub fn begin_unrecorded(text: &str, seed: u64) -> Result<Self, BeginError> {
        Self::unrecorded_at_arrival(text, seed)?.not_a_lesson()
    }

    /// As [`begin_unrecorded`](Self::begin_unrecorded); of a lesson, the session that is still to be
    /// brought to its beginning.
    pub(crate) fn unrecorded_at_arrival(text: &str, seed: u64) -> Result<Self, BeginError> {
        Self::written_by(text, seed, Writer::unrecorded())
    }

    /// Refuses a lesson: nobody may work in it before its beginning is reached.
    fn not_a_lesson(self) -> Result<Self, BeginError> {
        match self.setup.terms.phases {
            Some(_) => Err(BeginError::IsLesson),
            None => Ok(self),
        }
    }

    fn written_by(text: &str, seed: u64, writer: Writer) -> Result<Self, BeginError> {
        let scenario =
            crate::scenario::check(text, KnownRules::Any).map_err(BeginError::Scenario)?;
        let drawn = scenario.draw(seed);
        let sha256 = crate::digest::sha256_hex(text.as_bytes());
        let source = SessionSource { text: text.to_owned(), sha256, seed, drawn };
        Ok(Self::at_start(&scenario, source, writer)?)
    }

    /// The session at its first tick, with nothing written yet.
    pub(super) fn at_start(
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
    pub(super) fn on_bench(setup: Setup, source: SessionSource, writer: Writer) -> Self {
        let state = SessionState::at_start(&setup, source.seed);
        Self {
            setup,
            scenario: source,
            writer,
            state,
            now: Tick(0),
            deeds: Deeds::default(),
            owed: None,
            events: Vec::new(),
            clock: Vec::new(),
            ended: None,
            judgement: None,
            lesson: None,
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

    /// Does one action: at the current tick, or as soon as the hands are free from the last one. It
    /// has its effect at once, and then hands and eyes are busy with it. Its line in the journal is
    /// safe before anything changes.
    ///
    /// # Errors
    ///
    /// When the action cannot be done or recorded, or the session is over; then nothing has
    /// changed, except that the time may have passed for which the hands were busy. The session is
    /// over as well when its time runs out while they are. When only the seal after a last action cannot be written, the session has ended all
    /// the same, and replaying the journal seals it.
    pub fn act(&mut self, action: Action) -> Result<(), ActError> {
        if self.ended.is_some() {
            return Err(ActError::Ended);
        }
        self.write_owed()?;
        self.free_hands_for(&action)?;
        let mut next = self.state.at(self.now);
        let before = next.ground_truth();
        next.perform(&self.setup, &action)?;
        if self.writer.is_wanted() {
            let line = JournalLine::Act { tick: self.now, action: action.clone() }.body()?;
            self.writer.write_body(&line)?;
            self.deeds.add(&line);
        }
        let after = next.ground_truth();
        self.state = next;
        let ending = match action {
            Action::Sign => Some(Ending::Signed),
            Action::LeaveRoof => Some(Ending::LeftRoof),
            _ => None,
        };
        self.events.push(EventRecord { tick: self.now, action, before, after });
        if let Some(ending) = ending {
            self.end(ending)?;
        }
        Ok(())
    }

    /// Lets the time pass for which hands and eyes are still busy, unless the action cannot be done
    /// anyway.
    fn free_hands_for(&mut self, action: &Action) -> Result<(), ActError> {
        if self.now >= self.busy_until() {
            return Ok(());
        }
        self.state.at(self.now).perform(&self.setup, action)?;
        self.finish_hands()?;
        if self.ended.is_some() { Err(ActError::Ended) } else { Ok(()) }
    }

    /// Until when hands and eyes are busy with what was done last. It may be in the past.
    pub const fn busy_until(&self) -> Tick {
        self.state.busy_until
    }

    /// Lets time pass until hands and eyes are free.
    ///
    /// # Errors
    ///
    /// As [`Session::advance`].
    pub fn finish_hands(&mut self) -> Result<(), SinkError> {
        self.advance(self.busy_until().0.saturating_sub(self.now.0))
    }

    /// Records a wait and lets the time pass, or as much of it as the time limit leaves.
    ///
    /// # Errors
    ///
    /// As [`Session::act`].
    pub fn wait(&mut self, seconds: f64) -> Result<(), ActError> {
        self.act(Action::Wait { seconds })?;
        self.finish_hands()?;
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
    /// When a checksum cannot be written into the journal. Then time stops at the checksum, which
    /// is written before time goes on, or the session has ended without its seal.
    pub fn advance(&mut self, ticks: u64) -> Result<(), SinkError> {
        if self.ended.is_some() {
            return Ok(());
        }
        self.write_owed()?;
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
            if self.writer.is_wanted() && boundary.0.is_multiple_of(every) {
                let digest = self.checksum(&self.state);
                self.owed = Some(JournalLine::Check { tick: boundary, digest });
                self.write_owed()?;
            }
        }
        self.now = stop;
        if limit == Some(stop) {
            return self.end(Ending::TimeOut);
        }
        Ok(())
    }

    /// From here on the work is the trainee's: what was done so far is the beginning of the lesson.
    ///
    /// The line in the journal has the checksum of the state, and counts as a deed, so that no checksum
    /// after it is right with the lesson begun elsewhere.
    pub(crate) fn begin_lesson(&mut self) -> Result<(), SinkError> {
        self.write_owed()?;
        if self.writer.is_wanted() {
            let line = JournalLine::Lesson { tick: self.now, digest: self.digest() }.body()?;
            self.writer.write_body(&line)?;
            self.deeds.add(&line);
        }
        self.lesson = Some(LessonBegan { tick: self.now, events: self.events.len() });
        Ok(())
    }

    /// The reading that would come next, if this is a lesson that ends before the points.
    fn next_reading(
        &self,
        (tick, ending): (Tick, Ending),
        end: &GroundTruth,
    ) -> Option<NextReading> {
        let phases = self.setup.terms.phases?;
        if phases.to >= LessonPhase::Points || ending == Ending::LeftRoof {
            return None;
        }
        let alone = self.setup.work_order.is_check_alone();
        NextReading::after(&self.events, &self.state.book, (tick, end), alone)
    }

    /// When the lesson began, if this is one.
    pub const fn lesson_began(&self) -> Option<LessonBegan> {
        self.lesson
    }

    /// Writes the checksum that is owed to the journal.
    fn write_owed(&mut self) -> Result<(), SinkError> {
        if let Some(line) = &self.owed {
            self.writer.write(line)?;
            self.owed = None;
        }
        Ok(())
    }

    /// The checksum of a state, and of everything that was done to reach it.
    fn checksum(&self, state: &SessionState) -> String {
        let mut digest = Digest::new();
        state.digest(&mut digest);
        self.deeds.digest(&mut digest);
        digest.finish()
    }

    /// Seals the journal.
    pub(super) fn end(&mut self, ending: Ending) -> Result<(), SinkError> {
        self.state = self.state.at(self.now);
        // The last action is already in the journal, so the session has ended even if the seal
        // cannot be written.
        self.ended = Some((self.now, ending));
        if !self.writer.is_wanted() {
            return Ok(());
        }
        let digest = self.checksum(&self.state);
        self.writer.write(&JournalLine::Sealed { tick: self.now, ending, digest })
    }

    /// The tick at which the time limit runs out.
    pub(super) fn limit_tick(&self) -> Option<Tick> {
        let minutes = self.setup.terms.time_limit_min?;
        // The clock of a lesson starts where the lesson does.
        let from = match self.setup.terms.phases {
            Some(_) => self.lesson?.tick,
            None => Tick(0),
        };
        Some(from.later((minutes * 60.0 * TICKS_PER_SECOND as f64).round() as u64))
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
        self.events.iter().map(|moment| (moment.tick, &moment.action))
    }

    /// How the session ended, if it has.
    pub fn ended(&self) -> Option<Ending> {
        self.ended.map(|(_, ending)| ending)
    }

    /// Records what the wall clock shows.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written; the session goes on as it was.
    pub fn note_clock(
        &mut self,
        what: ClockEvent,
        unix_s: u64,
        why: &str,
    ) -> Result<(), SinkError> {
        self.write_owed()?;
        let note = ClockNote { tick: self.now, what, unix_s, why: why.to_owned() };
        self.writer.write(&JournalLine::Clock(note.clone()))?;
        self.clock.push(note);
        Ok(())
    }

    /// Every clock note so far, in order.
    pub fn clock(&self) -> &[ClockNote] {
        &self.clock
    }

    /// The head of the journal's chain, and the source of the session.
    pub fn seal(&self) -> (String, &SessionSource) {
        (self.writer.chain().head(), &self.scenario)
    }

    /// The state's checksum at the current tick.
    pub fn digest(&self) -> String {
        self.checksum(&self.state.at(self.now))
    }

    /// Opens the truth of a session that has ended.
    ///
    /// # Errors
    ///
    /// Gives the session back when it has not ended.
    pub fn open(self) -> Result<EndedSession, Box<Self>> {
        match self.ended {
            Some((tick, ending)) => {
                let end = self.state.ground_truth();
                let head = self.writer.chain().head();
                let next_reading = self.next_reading((tick, ending), &end);
                let Self { setup, scenario, state, events, clock, judgement, lesson, .. } = self;
                Ok(EndedSession {
                    setup,
                    source: scenario,
                    events,
                    clock,
                    judgement,
                    book: state.book,
                    end,
                    end_tick: tick,
                    ended: ending,
                    head,
                    rig: state.rig,
                    lesson,
                    next_reading,
                })
            }
            None => Err(Box::new(self)),
        }
    }
}
