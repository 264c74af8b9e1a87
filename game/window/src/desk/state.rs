//! The session under the window, and what waits to be done to it.

use bevy::prelude::*;
use content::SpeechService;
use hands::{Grain, Spot, Step};
use sessions::LiveSession;
use sim_core::session::action::Action;
use sim_core::session::clock::ClockEvent;
use sim_core::session::ending::Ending;
use sim_core::time::{TICKS_PER_SECOND, Tick};

use super::papers::Papers;
use super::seen::{Book, Reports, Said, Seen};
use super::show::Show;

/// The session, and what was asked of it since the last tick.
#[derive(Resource)]
pub struct Desk {
    pub(super) session: Option<Box<dyn LiveSession>>,
    pub(super) queue: Vec<Asked>,
    pub(super) passing: Option<Tick>,
    pub(super) lapse: Lapse,
    pub(super) showing: Option<Show>,
    shown_last: Option<Spot>,
    /// Papers, which never change.
    pub papers: Papers,
}

/// What waits to be done.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Asked {
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

impl Desk {
    /// A desk with a session on it.
    pub fn new(session: Box<dyn LiveSession>) -> Self {
        let papers = Papers::of(session.as_ref());
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
    /// shown on a copy, asking ends the show, and what hands meant for the copy is not done to the
    /// session. What was written is: it stands on the page, and is of the session alone.
    pub fn ask(&mut self, action: Action) {
        if self.showing.is_some() {
            self.end_show();
            if !is_paperwork(&action) {
                return;
            }
        }
        if let Some(Asked::Do(last)) = self.queue.last_mut()
            && let Some(joined) = joined(last, &action)
        {
            *last = joined;
            return;
        }
        self.queue.push(Asked::Do(action));
    }

    /// Asks for a thing to be turned or slid by steps, as [`turn`](hands::turn) has it.
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
        self.session.as_ref().is_some_and(|session| session.is_away())
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
        self.passing = Some(session.now().later(ticks_of(seconds)));
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
    pub fn show(&mut self, step: &Step, speech: &dyn SpeechService) {
        self.passing = None;
        if let Some(session) = &self.session {
            self.showing = Some(Show::new(session.preview(), step, speech));
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
    pub(super) fn note_clock(&mut self, what: ClockEvent, unix_s: u64, why: &str) {
        if let Some(session) = &mut self.session {
            let _ = session.note_clock(what, unix_s, why);
        }
    }

    pub(super) fn end_show(&mut self) {
        if let Some(show) = self.showing.take() {
            self.shown_last = show.first();
        }
    }

    /// How the session ended, if it did.
    pub fn ended(&self) -> Option<Ending> {
        self.session.as_ref().and_then(|session| session.ended())
    }

    /// Takes the session off the desk.
    pub fn take(&mut self) -> Option<Box<dyn LiveSession>> {
        self.session.take()
    }

    /// The session, for looking.
    pub fn session(&self) -> Option<&dyn LiveSession> {
        self.session.as_deref()
    }
}

/// Lays a session on the desk.
pub fn lay_on_desk(commands: &mut Commands, session: Box<dyn LiveSession>, said: Option<String>) {
    commands.insert_resource(Seen(session.view()));
    commands.insert_resource(Book(session.book().clone()));
    let reports = session.done().filter_map(|(_, action)| match action {
        Action::Report(remark) => Some(remark.clone()),
        _ => None,
    });
    commands.insert_resource(Reports(reports.collect()));
    commands.insert_resource(said.map_or(Said::Nothing, Said::Notice));
    commands.insert_resource(Desk::new(session));
}

/// So many seconds in ticks.
pub(super) fn ticks_of(seconds: f64) -> u64 {
    (seconds * TICKS_PER_SECOND as f64).round() as u64
}

/// Whether an action is done with a pencil and not on the bench.
const fn is_paperwork(action: &Action) -> bool {
    matches!(
        action,
        Action::Write { .. }
            | Action::Strike { .. }
            | Action::Decide { .. }
            | Action::Report(_)
            | Action::AskHelp { .. }
    )
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
