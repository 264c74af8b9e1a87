//! When a fault could first be told from a sound rig: the session is gone through twice side by side,
//! as it was and without the fault, and what could be perceived is compared.

use super::action::Action;
use super::active_session::Session;
use super::ended_session::EndedSession;
use super::journal::Writer;
use super::perceived::{hisses_differently, looks_different, sounds_different};
use super::sight::Sight;
use super::state::SessionState;
use super::view::View;
use super::view_of;
use crate::fault::{Fault, FaultKind, FaultPlace};
use crate::scenario::setup::Setup;
use crate::time::Tick;

/// The first moment at which a fault could be told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize)]
pub struct FirstSign {
    /// The number of the first action that could be done knowing it.
    pub before: usize,
    /// When.
    pub tick: Tick,
    /// Where; nothing for what is heard or felt.
    pub at: Option<Sight>,
}

/// Whose eyes count.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Witness {
    /// What the trainee looked at, listened to or handled.
    Trainee,
    /// Whatever anybody on the roof could have looked at or listened to.
    Anybody,
}

/// What anybody could look at.
const EVERY_SIGHT: [Sight; 14] = [
    Sight::Manometer,
    Sight::Tube,
    Sight::Calibrator,
    Sight::Holder,
    Sight::Recorder,
    Sight::Barometer,
    Sight::Thermometer,
    Sight::Sky,
    Sight::Controller,
    Sight::Plugs,
    Sight::Filter,
    Sight::Timer,
    Sight::WeatherSheet,
    Sight::Pen,
];

/// The first sign of a fault; nothing if it never could be told from a sound rig.
pub fn first_sign(ended: &EndedSession, fault: &Fault, witness: Witness) -> Option<FirstSign> {
    if fault.place() == FaultPlace::Certificate {
        return printed(ended, fault.kind(), witness);
    }
    let mut sound_setup = ended.setup.clone();
    sound_setup.faults.retain(|(other, _)| other != fault);
    let mut pair = Pair {
        faulty: at_start(&ended.setup, ended),
        sound: at_start(&sound_setup, ended),
        faulty_setup: &ended.setup,
        sound_setup: &sound_setup,
        witness,
        watched: None,
    };
    for (event, record) in ended.events.iter().enumerate() {
        pair.goes_to(record.tick);
        if let Some(at) = pair.tells_by(pair.watched, record.tick) {
            return Some(FirstSign { before: event, tick: record.tick, at: Some(at) });
        }
        pair.watched = watched(&record.action);
        if let Some(at) = pair.tells(record.tick, None) {
            return Some(FirstSign { before: event, tick: record.tick, at });
        }
        if pair.does(record.tick, &record.action) {
            return Some(FirstSign { before: event + 1, tick: record.tick, at: None });
        }
        if let Some(at) = pair.tells(record.tick, Some(&record.action)) {
            return Some(FirstSign { before: event + 1, tick: record.tick, at });
        }
    }
    None
}

/// The state at the first tick of the session, on another bench.
fn at_start(setup: &Setup, ended: &EndedSession) -> SessionState {
    let silent = Writer::unrecorded();
    Session::on_bench(setup.clone(), ended.source.clone(), silent).state
}

/// A fault of the papers is told by whoever looks at the paper on top, and one that lies between two
/// papers by whoever looks at another one as well.
fn printed(ended: &EndedSession, kind: FaultKind, witness: Witness) -> Option<FirstSign> {
    let wants_two =
        matches!(kind, FaultKind::CertificateFarFromLast | FaultKind::CertificateDigitsExchanged);
    if witness == Witness::Anybody {
        return Some(FirstSign { before: 0, tick: Tick(0), at: Some(Sight::Certificate(0)) });
    }
    let (mut top, mut other) = (false, false);
    for (event, record) in ended.events.iter().enumerate() {
        let Action::Look { at: Sight::Certificate(number), .. } = record.action else { continue };
        top |= number == 0;
        other |= number > 0;
        if top && (other || !wants_two) {
            let at = Some(Sight::Certificate(number));
            return Some(FirstSign { before: event + 1, tick: record.tick, at });
        }
    }
    None
}

/// The session as it was, and without the fault.
struct Pair<'a> {
    faulty: SessionState,
    sound: SessionState,
    faulty_setup: &'a Setup,
    sound_setup: &'a Setup,
    witness: Witness,
    /// What is watched because of the last action, wherever the eyes were before.
    watched: Option<Sight>,
}

/// What somebody watches who does this.
const fn watched(action: &Action) -> Option<Sight> {
    match action {
        Action::BlowThrough
        | Action::TurnValve { .. }
        | Action::SlideScale { .. }
        | Action::AddFluid { .. }
        | Action::ChangeFluid { .. } => Some(Sight::Manometer),
        Action::Tap | Action::SetPenZero { .. } => Some(Sight::Pen),
        _ => None,
    }
}

impl Pair<'_> {
    /// Steps both to the last boundary that is not after a tick.
    fn goes_to(&mut self, tick: Tick) {
        for state in [&mut self.faulty, &mut self.sound] {
            while let Some(boundary) = state.boundary_until(tick) {
                state.step_to(boundary);
            }
        }
    }

    /// Does an action in both. True if only one of them lets it be done.
    fn does(&mut self, tick: Tick, action: &Action) -> bool {
        let act = |state: &mut SessionState, setup: &Setup| {
            let mut next = state.at(tick);
            let done = next.perform(setup, action).is_ok();
            if done {
                *state = next;
            }
            done
        };
        let faulty = act(&mut self.faulty, self.faulty_setup);
        let sound = act(&mut self.sound, self.sound_setup);
        faulty != sound
    }

    /// Where the two can be told apart now; what is heard or felt has no place.
    fn tells(&self, tick: Tick, just_done: Option<&Action>) -> Option<Option<Sight>> {
        let (faulty, sound) = (self.faulty.at(tick), self.sound.at(tick));
        if faulty.is_away() || sound.is_away() {
            return None;
        }
        match self.witness {
            Witness::Trainee => {
                let (one, other) = self.views(&faulty, &sound, tick);
                let focus = faulty.eyes.focus;
                if looks_different(&one, &other, focus) {
                    return Some(Some(focus));
                }
                let felt = just_done.is_some_and(|action| feels(action, &one, &other));
                (felt || sounds_different(&one, &other)).then_some(None)
            }
            Witness::Anybody => {
                let (mut faulty, mut sound) = (faulty, sound);
                for sight in EVERY_SIGHT {
                    (faulty.eyes.focus, sound.eyes.focus) = (sight, sight);
                    let (one, other) = self.views(&faulty, &sound, tick);
                    if looks_different(&one, &other, sight) {
                        return Some(Some(sight));
                    }
                }
                let (one, other) = self.views(&faulty, &sound, tick);
                let heard = sounds_different(&one, &other) || hisses_differently(&one, &other);
                heard.then_some(None)
            }
        }
    }

    /// Whether what is watched tells the two apart.
    fn tells_by(&self, watched: Option<Sight>, tick: Tick) -> Option<Sight> {
        let sight = watched?;
        let (faulty, sound) = (self.faulty.at(tick), self.sound.at(tick));
        let (one, other) = self.views(&faulty, &sound, tick);
        looks_different(&one, &other, sight).then_some(sight)
    }

    /// Both views.
    fn views(&self, faulty: &SessionState, sound: &SessionState, tick: Tick) -> (View, View) {
        let view = |state, setup| view_of::view(state, setup, tick, None);
        (view(faulty, self.faulty_setup), view(sound, self.sound_setup))
    }
}

/// Whether what an action lets one hear or feel tells the two apart.
fn feels(action: &Action, one: &View, other: &View) -> bool {
    match action {
        Action::Listen => hisses_differently(one, other),
        Action::BlowThrough
        | Action::SlideScale { .. }
        | Action::SwingManometer { .. }
        | Action::AddFluid { .. }
        | Action::ChangeFluid { .. } => looks_different(one, other, Sight::Manometer),
        Action::TurnNut { .. } | Action::SetWasher { .. } => {
            looks_different(one, other, Sight::Holder)
        }
        Action::Tap | Action::SetPenZero { .. } => looks_different(one, other, Sight::Pen),
        Action::SetBarometer { .. } => looks_different(one, other, Sight::Barometer),
        Action::PlaceThermometer { .. } => looks_different(one, other, Sight::Thermometer),
        Action::HoldToLight | Action::TurnFilter | Action::CentreFilter => {
            looks_different(one, other, Sight::Filter)
        }
        Action::SetTripper { .. } | Action::FastenTripper { .. } | Action::SetDial { .. } => {
            looks_different(one, other, Sight::Timer)
        }
        _ => false,
    }
}
