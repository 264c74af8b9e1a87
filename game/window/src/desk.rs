//! The session under the window: actions wait in a queue, one system at twenty times a second does
//! them and lets a tick pass (`pass`). Everything else only looks at what can be seen.

mod pass;

use bevy::prelude::*;
use sim_core::field_book::FieldBook;
use sim_core::scenario::setup::{Certificate, SessionTerms, StationCard, WorkOrder};
use sim_core::session::Session;
use sim_core::session::action::Action;
use sim_core::session::clock::ClockEvent;
use sim_core::session::ending::Ending;
use sim_core::session::view::View;
use sim_core::time::{TICKS_PER_SECOND, Tick};

pub use pass::DeskPlugin;

use super::showing::Show;
use super::store::wall_clock_s;
use hands::{Grain, Spot, Step};

/// The session, and what was asked of it since the last tick.
#[derive(Resource)]
pub struct Desk {
    session: Option<Session>,
    queue: Vec<Asked>,
    passing: Option<Tick>,
    lapse: Lapse,
    showing: Option<Show>,
    shown_last: Option<Spot>,
    /// Papers, which never change.
    pub papers: Papers,
}

/// What waits to be done.
#[derive(Debug, Clone, PartialEq)]
enum Asked {
    /// An action as it is.
    Do(Action),
    /// A turn by so many steps from wherever the thing stands when its time comes: a wheel sends
    /// several of them before anything has moved.
    Turn(Spot, i32, Grain),
}

/// How the hours go by while nobody is at the site.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Lapse {
    /// They are seen to go by.
    #[default]
    Runs,
    /// They stand still, to be looked at.
    Stopped,
    /// They go by as fast as they can, until the trainee is back.
    Skipped,
}

/// Papers that lie in the scene.
#[derive(Debug, Clone)]
pub struct Papers {
    /// The station's card.
    pub station: StationCard,
    /// The work order.
    pub work_order: WorkOrder,
    /// The certificates.
    pub certificates: Vec<Certificate>,
    /// What is allowed.
    pub terms: SessionTerms,
}

impl Papers {
    /// As the sentences take them.
    pub fn as_words(&self) -> sim_core::session::SitePapers<'_> {
        sim_core::session::SitePapers {
            station: &self.station,
            work_order: &self.work_order,
            certificates: &self.certificates,
            terms: &self.terms,
        }
    }
}

/// What can be seen.
#[derive(Resource, Debug, Clone, PartialEq)]
pub struct Seen(pub View);

/// What stands in the field book.
#[derive(Resource, Debug, Clone, PartialEq, Default)]
pub struct Book(pub FieldBook);

/// How it begins to say why something cannot be done.
pub const REFUSED: &str = "Not as things stand";
/// How it begins to say what is heard.
pub const HEARD: &str = "Heard: ";

/// What the bench last said: why something cannot be done, or that it was done.
#[derive(Resource, Debug, Clone, PartialEq, Eq, Default)]
pub struct Said(pub String);

impl Desk {
    /// A desk with a session on it.
    pub fn new(session: Session) -> Self {
        let papers = session.papers();
        let papers = Papers {
            station: papers.station.clone(),
            work_order: papers.work_order.clone(),
            certificates: papers.certificates.to_vec(),
            terms: papers.terms.clone(),
        };
        Self {
            session: Some(session),
            queue: Vec::new(),
            passing: None,
            lapse: Lapse::default(),
            showing: None,
            shown_last: None,
            papers,
        }
    }

    /// Asks for something to be done at the next tick. Small turns of the same thing that wait
    /// together are joined, so that a fast wheel does not fill the journal. While something is
    /// shown on a copy, asking only ends the show: what was meant for the copy is not done to the
    /// session.
    pub fn ask(&mut self, action: Action) {
        if self.showing.is_some() {
            self.end_show();
            return;
        }
        if let Some(Asked::Do(last)) = self.queue.last_mut()
            && let Some(joined) = joined(last, &action)
        {
            *last = joined;
            return;
        }
        self.queue.push(Asked::Do(action));
    }

    /// Asks for a thing to be turned or slid by steps, as [`hands::turn`] has it.
    pub fn turn(&mut self, spot: Spot, steps: i32, grain: Grain) {
        if self.showing.is_some() {
            self.end_show();
            return;
        }
        if let Some(Asked::Turn(last, sum, same)) = self.queue.last_mut()
            && (*last, *same) == (spot, grain)
        {
            *sum = sum.saturating_add(steps);
            return;
        }
        self.queue.push(Asked::Turn(spot, steps, grain));
    }

    /// Whether nobody is at the site.
    pub fn is_away(&self) -> bool {
        self.session.as_ref().is_some_and(Session::is_away)
    }

    /// How the hours go by while nobody is there.
    pub const fn lapse(&self) -> Lapse {
        self.lapse
    }

    /// Lets the hours go by otherwise.
    pub const fn set_lapse(&mut self, lapse: Lapse) {
        self.lapse = lapse;
        if matches!(lapse, Lapse::Stopped) {
            self.passing = None;
        }
    }

    /// Whether something waits to be done, or time is let pass.
    pub fn is_busy(&self) -> bool {
        let lapses = self.lapse != Lapse::Stopped && self.is_away();
        !self.queue.is_empty() || self.passing.is_some() || self.showing.is_some() || lapses
    }

    /// Lets time pass.
    pub fn pass(&mut self, seconds: f64) {
        if self.showing.is_some() {
            self.end_show();
            return;
        }
        let Some(session) = &self.session else { return };
        let ticks = (seconds * TICKS_PER_SECOND as f64).round() as u64;
        self.passing = Some(session.now().later(ticks));
        self.queue.push(Asked::Do(Action::Wait { seconds }));
    }

    /// Whether time is let pass, and the tick at which it stops.
    pub const fn passing(&self) -> Option<Tick> {
        self.passing
    }

    /// Stops letting time pass, and ends what is shown.
    pub fn stop(&mut self) {
        self.passing = None;
        if self.is_away() {
            self.lapse = Lapse::Stopped;
        }
        self.end_show();
    }

    /// Shows a step on a copy of the session.
    pub fn show(&mut self, step: &Step) {
        self.passing = None;
        if let Some(session) = &self.session {
            self.showing = Some(Show::new(session.preview(), step));
        }
    }

    /// What is being shown on a copy.
    pub const fn showing(&self) -> Option<&Show> {
        self.showing.as_ref()
    }

    /// The thing at which the step that was shown last begins.
    pub const fn shown_last(&self) -> Option<Spot> {
        self.shown_last
    }

    /// Writes down what the clock on the wall shows. Where that cannot be written the work goes on:
    /// the next action says so.
    fn note_clock(&mut self, what: ClockEvent, why: &str) {
        if let Some(session) = &mut self.session {
            let _ = session.note_clock(what, wall_clock_s(), why);
        }
    }

    fn end_show(&mut self) {
        if let Some(show) = self.showing.take() {
            self.shown_last = show.first();
        }
    }

    /// How the session ended, if it did.
    pub fn ended(&self) -> Option<Ending> {
        self.session.as_ref().and_then(Session::ended)
    }

    /// Takes the session off the desk.
    pub fn take(&mut self) -> Option<Session> {
        self.session.take()
    }

    /// The session, for looking.
    pub const fn session(&self) -> Option<&Session> {
        self.session.as_ref()
    }
}

/// Two small turns as one, where that means the same.
fn joined(first: &Action, second: &Action) -> Option<Action> {
    use Action::{Look, SetPenZero, SlideScale, SwingManometer, TurnChart, TurnKnob, TurnTrim};
    match (first, second) {
        (TurnKnob { .. }, TurnKnob { .. }) | (Look { .. }, Look { .. }) => Some(second.clone()),
        (SlideScale { by_in: a }, SlideScale { by_in: b }) => Some(SlideScale { by_in: a + b }),
        (SwingManometer { by_deg: a }, SwingManometer { by_deg: b }) => {
            Some(SwingManometer { by_deg: a + b })
        }
        (TurnTrim { turns: a }, TurnTrim { turns: b }) => Some(TurnTrim { turns: a + b }),
        (TurnChart { minutes: a }, TurnChart { minutes: b }) => Some(TurnChart { minutes: a + b }),
        (SetPenZero { by: a }, SetPenZero { by: b }) => Some(SetPenZero { by: a + b }),
        _ => None,
    }
}
