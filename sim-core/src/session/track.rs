//! A session that has ended, for going through it again: the view and the truth at any tick, and the
//! traces from its beginning to its end.
//!
//! The session is replayed once, and states are kept on the way. A moment is then reached by stepping
//! from the nearest state before it, along the same boundaries and through the same actions, so that
//! its view is bit for bit the one that the trainee had. The number of those steps is bounded, and so
//! is the number of states kept: when there would be too many, every second one is dropped.
//!
//! It is made from a [`Signed`], like everything that knows the truth.

mod samples;

#[cfg(test)]
mod tests;

use super::action::Action;
use super::facts::Facts;
use super::journal::{NoInk, Writer};
use super::signed::Signed;
use super::view::View;
use super::{Session, State, view_of};
use crate::scenario::setup::Setup;
use crate::time::Tick;

use samples::Samples;
pub use samples::{InForce, Sample, Seen, True};

/// Steps from one kept state to the next, at first (CHOSEN: some milliseconds of work).
const STEPS_APART: usize = 256;
/// The largest number of states kept (CHOSEN: some megabytes). Even, so that the later one of every
/// two stays.
const MOST_KEPT: usize = 512;

/// A session that has ended, for going through it again.
#[derive(Debug)]
pub struct Track {
    setup: Setup,
    deeds: Vec<(Tick, Action)>,
    limit: Option<Tick>,
    end: Tick,
    begin: Play,
    kept: Kept,
    samples: Samples,
}

/// What could be seen at one moment, and what was true.
#[derive(Debug, Clone, PartialEq)]
pub struct Glimpse {
    /// What could be seen.
    pub view: View,
    /// What was true.
    pub truth: Facts,
}

impl Track {
    /// Replays a session once. The same session gives the same track.
    pub fn of(signed: &Signed) -> Self {
        let silent = Writer::new(Default::default(), Box::new(NoInk));
        let session = Session::on_bench(signed.setup.clone(), signed.source.clone(), silent);
        let limit = session.limit_tick();
        let Session { setup, state, .. } = session;
        let deeds: Vec<(Tick, Action)> =
            signed.moments.iter().map(|moment| (moment.tick, moment.action.clone())).collect();
        let end = signed.end_tick;
        let begin = Play { state, next: 0 };
        let (mut kept, mut samples) = (Kept::new(STEPS_APART), Samples::begin(&begin.state));
        let mut play = begin.clone();
        play.go(&setup, &deeds, Until { tick: end, deed: deeds.len() }, |play| {
            kept.step(play);
            samples.look(&play.state);
        });
        samples.end(&play.state.at(end));
        Self { setup, deeds, limit, end, begin, kept, samples }
    }

    /// The moment at a tick, after everything that was done in that tick; for a later tick, the end.
    pub fn at(&self, tick: Tick) -> Glimpse {
        self.glimpse(Until { tick: tick.min(self.end), deed: self.deeds.len() })
    }

    /// The moment just after an action, by its number in the session; for a number too high, the end.
    pub fn just_after(&self, deed: usize) -> Glimpse {
        match self.deeds.get(deed) {
            Some(&(tick, _)) => self.glimpse(Until { tick, deed: deed + 1 }),
            None => self.at(self.end),
        }
    }

    /// When the session ended.
    pub const fn end(&self) -> Tick {
        self.end
    }

    /// The traces from the beginning to the end, in order of time: a bounded number of samples,
    /// evenly spaced while somebody was there, and at every step while nobody was.
    pub fn samples(&self) -> &[Sample] {
        self.samples.kept()
    }

    /// The faults in force at the beginning, and again each time that some came or went.
    pub fn faults(&self) -> &[InForce] {
        self.samples.faults()
    }

    fn glimpse(&self, until: Until) -> Glimpse {
        let mut play = self.nearest(until).clone();
        play.go(&self.setup, &self.deeds, until, |_| ());
        let state = play.state.at(until.tick);
        let view = view_of::view(&state, &self.setup, until.tick, self.limit);
        Glimpse { view, truth: state.facts() }
    }

    /// The last kept state from which a moment can be reached.
    fn nearest(&self, until: Until) -> &Play {
        let before = |play: &Play| play.state.tick <= until.tick && play.next <= until.deed;
        let count = self.kept.plays.partition_point(before);
        count.checked_sub(1).and_then(|last| self.kept.plays.get(last)).unwrap_or(&self.begin)
    }
}

/// How far to play.
#[derive(Debug, Clone, Copy)]
struct Until {
    tick: Tick,
    /// The first action that is not done.
    deed: usize,
}

/// A session that is being replayed.
#[derive(Debug, Clone)]
struct Play {
    state: State,
    /// The first action that has not been done yet.
    next: usize,
}

impl Play {
    /// Plays on to the last boundary and action that are not after `until`, and reports every step.
    fn go(
        &mut self,
        setup: &Setup,
        deeds: &[(Tick, Action)],
        until: Until,
        mut stepped: impl FnMut(&Self),
    ) {
        loop {
            let deed = deeds.get(self.next).filter(|_| self.next < until.deed);
            let deed = deed.filter(|(tick, _)| *tick <= until.tick);
            let stop = deed.map_or(until.tick, |(tick, _)| *tick);
            while let Some(boundary) = self.state.boundary_until(stop) {
                self.state.step_to(boundary);
                stepped(self);
            }
            let Some((tick, action)) = deed else { return };
            self.state = self.state.at(*tick);
            // It was done from the same state before, so it cannot be refused.
            let _ = self.state.obey(setup, action);
            self.next += 1;
            stepped(self);
        }
    }
}

/// States kept on the way, at most `apart` steps apart.
#[derive(Debug)]
struct Kept {
    plays: Vec<Play>,
    apart: usize,
    since: usize,
}

impl Kept {
    const fn new(apart: usize) -> Self {
        Self { plays: Vec::new(), apart, since: 0 }
    }

    /// Counts a step, and keeps the state when the last one kept is far enough back.
    fn step(&mut self, play: &Play) {
        self.since += 1;
        if self.since < self.apart {
            return;
        }
        self.since = 0;
        self.plays.push(play.clone());
        if self.plays.len() >= MOST_KEPT {
            let plays = std::mem::take(&mut self.plays);
            self.plays = plays.into_iter().skip(1).step_by(2).collect();
            self.apart *= 2;
        }
    }
}
