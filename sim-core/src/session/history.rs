//! A session that has ended, for going through it again: the view and the truth at any tick, and
//! the traces from its beginning to its end.
//!
//! The session is replayed once, and states are kept on the way. A moment is then reached by
//! stepping from the nearest state before it, along the same boundaries and through the same
//! actions, so that its view is bit for bit the one that the trainee had. The number of those steps
//! is bounded, and so is the number of states kept: when there would be too many, every second one
//! is dropped.
//!
//! It is made from a [`EndedSession`], like everything that knows the truth.

mod gauge_samples;

#[cfg(test)]
mod tests;

use super::action::Action;
use super::active_session::Session;
use super::ended_session::EndedSession;
use super::ground_truth::GroundTruth;
use super::journal::Writer;
use super::state::SessionState;
use super::view::View;
use super::view_of;
use crate::scenario::setup::Setup;
use crate::time::Tick;

use gauge_samples::GaugeSamples;
pub use gauge_samples::{FaultsInForce, GaugeSample, SeenGauges, TrueGauges};

/// Steps from one kept state to the next, at first (CHOSEN: some milliseconds of work).
const STEPS_APART: usize = 256;
/// The largest number of states kept (CHOSEN: some megabytes). Even, so that the later one of every
/// two stays.
const MOST_KEPT: usize = 512;

/// A session that has ended, for going through it again.
#[derive(Debug)]
pub struct History {
    setup: Setup,
    actions: Vec<(Tick, Action)>,
    limit: Option<Tick>,
    end: Tick,
    begin: Cursor,
    kept: Kept,
    samples: GaugeSamples,
}

/// What could be seen at one moment, and what was true.
#[derive(Debug, Clone, PartialEq)]
pub struct Snapshot {
    /// What could be seen.
    pub view: View,
    /// What was true.
    pub truth: GroundTruth,
}

impl History {
    /// Replays a session once. The same session gives the same track.
    pub fn of(signed: &EndedSession) -> Self {
        let silent = Writer::unrecorded();
        let session = Session::on_bench(signed.setup.clone(), signed.source.clone(), silent);
        let limit = session.limit_tick();
        let Session { setup, state, .. } = session;
        let actions: Vec<(Tick, Action)> =
            signed.events.iter().map(|moment| (moment.tick, moment.action.clone())).collect();
        let end = signed.end_tick;
        let begin = Cursor { state, next: 0 };
        let (mut kept, mut samples) = (Kept::new(STEPS_APART), GaugeSamples::begin(&begin.state));
        let mut cursor = begin.clone();
        cursor.go(&setup, &actions, Until { tick: end, action: actions.len() }, |cursor| {
            kept.step(cursor);
            samples.look(&cursor.state);
        });
        samples.end(&cursor.state.at(end));
        Self { setup, actions, limit, end, begin, kept, samples }
    }

    /// The moment at a tick, after everything that was done in that tick; for a later tick, the
    /// end.
    pub fn at(&self, tick: Tick) -> Snapshot {
        self.snapshot(Until { tick: tick.min(self.end), action: self.actions.len() })
    }

    /// The moment just after an action, by its number in the session; for a number too high, the
    /// end.
    pub fn just_after(&self, action: usize) -> Snapshot {
        match self.actions.get(action) {
            Some(&(tick, _)) => self.snapshot(Until { tick, action: action + 1 }),
            None => self.at(self.end),
        }
    }

    /// When the session ended.
    pub const fn end(&self) -> Tick {
        self.end
    }

    /// The traces from the beginning to the end, in order of time: a bounded number of samples,
    /// evenly spaced while somebody was there, and at every step while nobody was.
    pub fn samples(&self) -> &[GaugeSample] {
        self.samples.kept()
    }

    /// The faults in force at the beginning, and again each time that some came or went.
    pub fn faults(&self) -> &[FaultsInForce] {
        self.samples.faults()
    }

    fn snapshot(&self, until: Until) -> Snapshot {
        let mut cursor = self.nearest(until).clone();
        cursor.go(&self.setup, &self.actions, until, |_| ());
        let state = cursor.state.at(until.tick);
        let view = view_of::view(&state, &self.setup, until.tick, self.limit);
        Snapshot { view, truth: state.ground_truth() }
    }

    /// The last kept state from which a moment can be reached.
    fn nearest(&self, until: Until) -> &Cursor {
        let before =
            |cursor: &Cursor| cursor.state.tick <= until.tick && cursor.next <= until.action;
        let count = self.kept.cursors.partition_point(before);
        count.checked_sub(1).and_then(|last| self.kept.cursors.get(last)).unwrap_or(&self.begin)
    }
}

/// How far to play.
#[derive(Debug, Clone, Copy)]
struct Until {
    tick: Tick,
    /// The first action that is not done.
    action: usize,
}

/// A session that is being replayed.
#[derive(Debug, Clone)]
struct Cursor {
    state: SessionState,
    /// The first action that has not been done yet.
    next: usize,
}

impl Cursor {
    /// Plays on to the last boundary and action that are not after `until`, and reports every step.
    fn go(
        &mut self,
        setup: &Setup,
        actions: &[(Tick, Action)],
        until: Until,
        mut stepped: impl FnMut(&Self),
    ) {
        loop {
            let action = actions.get(self.next).filter(|_| self.next < until.action);
            let action = action.filter(|(tick, _)| *tick <= until.tick);
            let stop = action.map_or(until.tick, |(tick, _)| *tick);
            while let Some(boundary) = self.state.boundary_until(stop) {
                self.state.step_to(boundary);
                stepped(self);
            }
            let Some((tick, action)) = action else { return };
            self.state = self.state.at(*tick);
            // It was done from the same state before, so it cannot be refused.
            let _ = self.state.perform(setup, action);
            self.next += 1;
            stepped(self);
        }
    }
}

/// States kept on the way, at most `apart` steps apart.
#[derive(Debug)]
struct Kept {
    cursors: Vec<Cursor>,
    apart: usize,
    since: usize,
}

impl Kept {
    const fn new(apart: usize) -> Self {
        Self { cursors: Vec::new(), apart, since: 0 }
    }

    /// Counts a step, and keeps the state when the last one kept is far enough back.
    fn step(&mut self, cursor: &Cursor) {
        self.since += 1;
        if self.since < self.apart {
            return;
        }
        self.since = 0;
        self.cursors.push(cursor.clone());
        if self.cursors.len() >= MOST_KEPT {
            let cursors = std::mem::take(&mut self.cursors);
            self.cursors = cursors.into_iter().skip(1).step_by(2).collect();
            self.apart *= 2;
        }
    }
}
