//! The state of a session: everything that later ticks depend on, and how it is stepped.

use std::sync::Arc;

use super::action::Sight;
use super::pending_faults::Pending;
use super::unattended_run::{Pace, UnattendedRun};
use super::view::View;
use crate::digest::digest_fields;
use crate::field_book::FieldBook;
use crate::noise::Stream;
use crate::rig::Rig;
use crate::rig::parts::TimerSwitch;
use crate::rig::power::timer::{DialClock, Timer, Tripper};
use crate::rig::station::Station;
use crate::scenario::setup::Setup;
use crate::time::{TICKS_PER_SECOND, Tick};
use crate::units::ZERO_CELSIUS_K;

/// The highest reading with which an elapsed-time meter is found, s (CHOSEN: a thousand hours).
const MOST_METERED_S: f64 = 3.6e6;
/// The finest division of the elapsed-time meter, s: a tenth of a minute (CHOSEN).
const METER_STEP_S: f64 = 6.0;

/// Everything that later ticks depend on.
#[derive(Debug, Clone)]
pub(super) struct SessionState {
    /// The boundary up to which the state was stepped.
    pub(super) tick: Tick,
    pub(super) rig: Rig,
    pub(super) station: Station,
    pub(super) book: FieldBook,
    pub(super) eyes: Eyes,
    /// Until when hands and eyes are busy with what was done last.
    pub(super) busy_until: Tick,
    pub(super) faults: Pending,
    pub(super) seed: u64,
    /// The run, if one is ordered.
    pub(super) run: Option<UnattendedRun>,
    /// What was seen at the site when it was left. While nobody is there, nothing newer is seen.
    pub(super) last_seen: Option<Arc<View>>,
    pub(super) pace: Pace,
    /// Whether the filter is in the case, where the folder with the fresh ones is as well.
    pub(super) filter_in_case: bool,
}

/// What the eyes are on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Eyes {
    pub(super) focus: Sight,
    pub(super) eye_mm: f64,
}

digest_fields!(Eyes { focus, eye_mm });

// Both paces give the same hours, and a replay always takes the coarse one. What was last seen
// follows from the state at that moment, and no later tick depends on it.
digest_fields!(SessionState {
    tick, rig, station, book, eyes, busy_until, faults, seed, run, filter_in_case
} without { pace, last_seen });

impl SessionState {
    /// The state at the first tick, on a bench that has been built.
    pub(super) fn at_start(setup: &Setup, seed: u64) -> Self {
        let station = Station::new(setup.weather, setup.station.date, setup.station.start, seed);
        let mut rig = Rig::new(&setup.rig, &station.surroundings());
        let run = UnattendedRun::ordered(setup);
        if run.is_some() {
            rig.timer = timer_as_found(&station, seed);
        }
        let mut state = Self {
            tick: Tick(0),
            rig,
            station,
            book: FieldBook::default(),
            eyes: Eyes { focus: Sight::Station, eye_mm: 0.0 },
            busy_until: Tick(0),
            faults: Pending::new(&setup.faults, seed),
            seed,
            run,
            last_seen: None,
            pace: Pace::Coarse,
            filter_in_case: false,
        };
        state.begin_faults();
        state
    }

    /// Temperature of the air, degrees Celsius.
    pub(super) fn air_c(&self) -> f64 {
        self.station.surroundings().temperature_k - ZERO_CELSIUS_K
    }

    /// The state at a tick that is not before its boundary, stepped through the remaining ticks.
    pub(super) fn at(&self, tick: Tick) -> Self {
        let mut state = self.clone();
        if tick.0 > state.tick.0 + TICKS_PER_SECOND {
            // Boundaries are this far apart only while nobody is there.
            state.step_coarse_to(tick);
        } else if tick > state.tick {
            state.rig.step(tick.0 - state.tick.0, &state.station.surroundings());
            state.tick = tick;
        }
        state
    }

    /// The next boundary, if it is not after `stop`.
    pub(super) fn boundary_until(&self, stop: Tick) -> Option<Tick> {
        let next = match &self.run {
            Some(run) if run.is_away() => self.unattended_boundary(run),
            _ => self.fine_boundary(),
        };
        (next <= stop).then_some(next)
    }

    /// The next boundary while somebody is there.
    pub(super) fn fine_boundary(&self) -> Tick {
        let ticks = self.rig.step_ticks();
        Tick((self.tick.0 / ticks + 1) * ticks)
    }

    /// Steps to a boundary, and into the next second's weather when it is a whole second.
    pub(super) fn step_to(&mut self, boundary: Tick) {
        if self.is_away() {
            self.step_unattended(boundary);
        } else {
            self.step_fine(boundary);
            self.close_sample();
        }
    }

    /// Steps to a boundary that is at most a second away.
    pub(super) fn step_fine(&mut self, boundary: Tick) {
        self.rig.step(boundary.0 - self.tick.0, &self.station.surroundings());
        self.tick = boundary;
        if boundary.0.is_multiple_of(TICKS_PER_SECOND) {
            self.station.step();
            self.begin_faults();
        }
    }
}

/// The timer as the last crew left it: its trippers at past days, its elapsed-time meter anywhere.
fn timer_as_found(station: &Station, seed: u64) -> Timer {
    let now = station.surroundings().week;
    let met = Stream::new(seed, "timer meter").unit() * MOST_METERED_S;
    let mut timer = Timer::new((met / METER_STEP_S).round() * METER_STEP_S);
    timer.switch = TimerSwitch::Auto;
    let midnight = |days: f64| {
        let day = now.later(24.0 * days).weekday;
        Tripper { weekday: Some(day), hours: 0.0 }
    };
    timer.on = midnight(-4.0);
    timer.off = midnight(-3.0);
    timer.clock = Some(DialClock::default());
    timer
}
