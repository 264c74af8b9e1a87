//! The one way in which front ends drive a session, wherever the session lives.
//!
//! The window, the plain sentences and the JSON lines all hold a [`LiveSession`] and nothing
//! else; a [`Session`] in this process is one. What is true on the bench stays behind
//! [`LiveSession::finish`].

use std::fmt::Debug;

use sim_core::field_book::FieldBook;
use sim_core::session::action::{Action, Sight};
use sim_core::session::clock::{ClockEvent, ClockNote};
use sim_core::session::ending::Ending;
use sim_core::session::journal::SinkError;
use sim_core::session::judging::JudgeError;
use sim_core::session::own_judgement::OwnJudgement;
use sim_core::session::preview::Preview;
use sim_core::session::view::View;
use sim_core::session::{ActError, LessonBegan, Session, SitePapers};
use sim_core::time::Tick;

use crate::error::FrontEndError;
use crate::marked::{MarkedSession, mark_ended};

/// A session as a front end drives it.
pub trait LiveSession: Debug + Send + Sync {
    /// Does one action. Its line is in the journal before it has an effect.
    ///
    /// # Errors
    ///
    /// When the action is refused, the session has ended, or the journal cannot be written.
    fn act(&mut self, action: Action) -> Result<(), ActError>;

    /// Lets so many ticks pass.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written.
    fn advance(&mut self, ticks: u64) -> Result<(), SinkError>;

    /// Lets so many seconds pass, and puts the wait into the journal.
    ///
    /// # Errors
    ///
    /// As [`act`](Self::act).
    fn wait(&mut self, seconds: f64) -> Result<(), ActError>;

    /// Leaves the site to its run, and comes back when the run is over.
    ///
    /// # Errors
    ///
    /// As [`act`](Self::act).
    fn leave_site(&mut self) -> Result<(), ActError>;

    /// Notes in the journal what happened at this hour of the clock on the wall, seconds since
    /// 1970-01-01 00:00 UTC. A session elsewhere is dated by the clock there.
    ///
    /// # Errors
    ///
    /// When the journal cannot be written.
    fn note_clock(&mut self, what: ClockEvent, unix_s: u64, why: &str) -> Result<(), SinkError>;

    /// What was noted of the clock on the wall so far.
    fn clock(&self) -> &[ClockNote];

    /// What can be seen now.
    fn view(&self) -> View;

    /// What can be seen as it is read out in words, right after that was asked for.
    fn read_in_words(&self) -> Option<View>;

    /// What the eyes are on, without the rest of the view.
    fn focus(&self) -> Sight;

    /// The tick that the session stands at.
    fn now(&self) -> Tick;

    /// What stands in the field book.
    fn book(&self) -> &FieldBook;

    /// The papers of the session.
    fn papers(&self) -> SitePapers<'_>;

    /// What was done so far, with the tick of each action.
    fn done(&self) -> Box<dyn DoubleEndedIterator<Item = (Tick, &Action)> + '_>;

    /// Whether nobody is at the site.
    fn is_away(&self) -> bool;

    /// Where the lesson began, if the session is one.
    fn lesson_began(&self) -> Option<LessonBegan>;

    /// How the session ended, if it has.
    fn ended(&self) -> Option<Ending>;

    /// A checksum of the whole state: sessions that stand alike have the same. Nothing that is hidden
    /// can be read from it.
    fn digest(&self) -> String;

    /// A copy on which a step can be shown; nothing that is done on it is done to the session.
    fn preview(&self) -> Preview;

    /// Records what the trainee thinks of the work, after its end and before any truth is shown.
    ///
    /// # Errors
    ///
    /// When the session has not ended, the judgement was given before, or the journal cannot be
    /// written.
    fn judge(&mut self, own: OwnJudgement) -> Result<(), JudgeError>;

    /// What the trainee said of the work, if anything.
    fn judgement(&self) -> Option<&OwnJudgement>;

    /// Opens and marks a session that has ended.
    ///
    /// # Errors
    ///
    /// When it has not ended, or ended without a mark.
    fn finish(self: Box<Self>) -> Result<MarkedSession, FrontEndError>;
}

/// A session in this process.
impl LiveSession for Session {
    fn act(&mut self, action: Action) -> Result<(), ActError> {
        Session::act(self, action)
    }

    fn advance(&mut self, ticks: u64) -> Result<(), SinkError> {
        Session::advance(self, ticks)
    }

    fn wait(&mut self, seconds: f64) -> Result<(), ActError> {
        Session::wait(self, seconds)
    }

    fn leave_site(&mut self) -> Result<(), ActError> {
        Session::leave_site(self)
    }

    fn note_clock(&mut self, what: ClockEvent, unix_s: u64, why: &str) -> Result<(), SinkError> {
        self.note_clock(what, unix_s, why)
    }

    fn clock(&self) -> &[ClockNote] {
        Session::clock(self)
    }

    fn view(&self) -> View {
        Session::view(self)
    }

    fn read_in_words(&self) -> Option<View> {
        Session::read_in_words(self)
    }

    fn focus(&self) -> Sight {
        Session::focus(self)
    }

    fn now(&self) -> Tick {
        Session::now(self)
    }

    fn book(&self) -> &FieldBook {
        Session::book(self)
    }

    fn papers(&self) -> SitePapers<'_> {
        Session::papers(self)
    }

    fn done(&self) -> Box<dyn DoubleEndedIterator<Item = (Tick, &Action)> + '_> {
        Box::new(Session::done(self))
    }

    fn is_away(&self) -> bool {
        Session::is_away(self)
    }

    fn lesson_began(&self) -> Option<LessonBegan> {
        Session::lesson_began(self)
    }

    fn ended(&self) -> Option<Ending> {
        Session::ended(self)
    }

    fn digest(&self) -> String {
        Session::digest(self)
    }

    fn preview(&self) -> Preview {
        self.preview()
    }

    fn judge(&mut self, own: OwnJudgement) -> Result<(), JudgeError> {
        Session::judge(self, own)
    }

    fn judgement(&self) -> Option<&OwnJudgement> {
        Session::judgement(self)
    }

    fn finish(self: Box<Self>) -> Result<MarkedSession, FrontEndError> {
        mark_ended(*self)
    }
}
