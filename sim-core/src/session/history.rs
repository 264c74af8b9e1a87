//! A session that has ended, to go through again: the view and the truth at any tick of it, and
//! what was traced between its beginning and its end.
//!
//! The session is had again once, and states are kept on the way. A moment is then stepped to from
//! the nearest state before it, along the same boundaries and through the same actions, so that its
//! view is bit for bit the one that the trainee had. How many steps that can take is bounded, and so
//! is how many states are kept: when there would be too many, every second one goes.
//!
//! It is made from a [`EndedSession`], like everything that knows the truth.

mod gauge_samples;

#[cfg(test)]
mod tests;

use super::action::Action;
use super::active_session::Session;
use super::ended_session::EndedSession;
use super::ground_truth::GroundTruth;
use super::journal::{NullSink, Writer};
use super::state::SessionState;
use super::view::View;
use super::view_of;
use crate::scenario::setup::Setup;
use crate::time::Tick;

use gauge_samples::GaugeSamples;
pub use gauge_samples::{FaultsInForce, GaugeSample, SeenGauges, TrueGauges};

/// Steps from one kept state to the next, at first (CHOSEN: some milliseconds of work).
const STEPS_APART: usize = 256;
/// So many states are kept at most (CHOSEN: some megabytes). Even, so that of every two the later
/// one stays.
const MOST_KEPT: usize = 512;

/// A session that has ended, to go through again.
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

/// One moment, laid open.
#[derive(Debug, Clone, PartialEq)]
pub struct Snapshot {
    /// What could be seen.
    pub view: View,
    /// What was true.
    pub truth: GroundTruth,
}

impl History {
    /// Goes through a session once. The same session gives the same track.
    pub fn of(signed: &EndedSession) -> Self {
        let silent = Writer::new(Default::default(), Box::new(NullSink));
        let session = Session::on_bench(signed.setup.clone(), signed.source.clone(), silent);
        let limit = session.limit_tick();
        let Session { setup, state, .. } = session;
        let actions: Vec<(Tick, Action)> =
            signed.moments.iter().map(|moment| (moment.tick, moment.action.clone())).collect();
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

    /// The moment at a tick, after everything that was done in it; the end for a later one.
    pub fn at(&self, tick: Tick) -> Snapshot {
        self.snapshot(Until { tick: tick.min(self.end), action: self.actions.len() })
    }

    /// The moment just after an action, by its number in the session; the end for a later number.
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

    /// What was traced from the beginning to the end, in the order of time: a bounded number of
    /// samples, evenly spaced while somebody was there, and at every step while nobody was.
    pub fn samples(&self) -> &[GaugeSample] {
        self.samples.kept()
    }

    /// The faults in force from the beginning on, and each time when some came or went.
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

    /// The last kept state from which a moment can be stepped to.
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
    /// The first deed that is left undone.
    action: usize,
}

/// A session on its way again.
#[derive(Debug, Clone)]
struct Cursor {
    state: SessionState,
    /// The first deed that is not yet done.
    next: usize,
}

impl Cursor {
    /// Plays on to the last boundary and deed that are not behind `until`; tells of every step.
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
            // It was done before, so it can be done: the same state obeys.
            let _ = self.state.perform(setup, action);
            self.next += 1;
            stepped(self);
        }
    }
}

/// States kept on the way, at most so many steps apart.
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
