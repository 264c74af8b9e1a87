//! The timer: a switch, two trippers on a seven-day dial, and an elapsed-time meter.

use crate::digest::digest_fields;
use crate::rig::parts::OnOff;
use crate::rig::parts::{TimerSwitch, Trip};

/// A moment in the week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeekTime {
    /// Day of the week, 0 (Monday) to 6.
    pub weekday: u8,
    /// Hours since midnight, 0 to 24.
    pub hours: f64,
}

digest_fields!(WeekTime { weekday, hours });

impl WeekTime {
    /// The moment this many hours later, or earlier if negative.
    pub fn later(self, hours: f64) -> Self {
        let all = remainder(f64::from(self.weekday) * 24.0 + self.hours + hours, 168.0);
        let day = (all / 24.0).floor().clamp(0.0, 6.0);
        Self { weekday: day as u8, hours: all - 24.0 * day }
    }

    /// Hours from `earlier` to this moment on a seven-day dial, from -84 to 84.
    pub fn hours_after(self, earlier: Self) -> f64 {
        let days = f64::from(self.weekday) - f64::from(earlier.weekday);
        remainder(days * 24.0 + self.hours - earlier.hours + 84.0, 168.0) - 84.0
    }
}

/// The clock that drives the dial. It runs on the mains and stops without it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DialClock {
    /// How far the dial is ahead of the true time, h.
    pub ahead_h: f64,
    /// How much it gains, percent.
    pub gain_pct: f64,
    /// A tripper whose screw is loose, and how far it slides while the dial turns, h.
    pub loose: Option<(Trip, f64)>,
    /// Whether the loose tripper has slid.
    pub slid: bool,
}

digest_fields!(DialClock { ahead_h, gain_pct, loose, slid });

/// A tripper on the dial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tripper {
    /// Day on which it acts, 0 (Monday) to 6; `None` for every day.
    pub weekday: Option<u8>,
    /// Hours since midnight at which it acts, 0 to 24.
    pub hours: f64,
}

digest_fields!(Tripper { weekday, hours });

impl Tripper {
    /// Hours since it last acted.
    fn hours_since(&self, now: WeekTime) -> f64 {
        let behind = now.hours - self.hours;
        match self.weekday {
            None => remainder(behind, 24.0),
            Some(day) => {
                let days = f64::from(now.weekday) - f64::from(day);
                remainder(days * 24.0 + behind, 168.0)
            }
        }
    }
}

/// The timer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Timer {
    /// Its switch.
    pub switch: TimerSwitch,
    /// The tripper that switches on.
    pub on: Tripper,
    /// The tripper that switches off.
    pub off: Tripper,
    /// The clock that drives the dial; without one the dial always shows the true time.
    pub clock: Option<DialClock>,
    /// Whether the elapsed-time meter stands still whatever runs.
    pub meter_dead: bool,
    elapsed_s: f64,
}

digest_fields!(Timer { switch, on, off, clock, meter_dead, elapsed_s });

impl Timer {
    /// A timer that is switched off, with both trippers at midnight and its meter at `elapsed_s`
    /// (s).
    pub const fn new(elapsed_s: f64) -> Self {
        let midnight = Tripper { weekday: None, hours: 0.0 };
        Self {
            switch: TimerSwitch::Off,
            on: midnight,
            off: midnight,
            clock: None,
            meter_dead: false,
            elapsed_s,
        }
    }

    /// Whether its output is on. In `Auto`, the tripper that acted last decides; if both act at the
    /// same moment, off wins.
    pub fn output(&self, now: WeekTime) -> OnOff {
        let on = match self.switch {
            TimerSwitch::On => true,
            TimerSwitch::Off => false,
            TimerSwitch::Auto => {
                let dial = self.dial(now);
                self.on.hours_since(dial) < self.off.hours_since(dial)
            }
        };
        if on { OnOff::On } else { OnOff::Off }
    }

    /// Counts `dt_s` (s) of running time if its output is on and `mains` is on.
    pub fn step(&mut self, dt_s: f64, now: WeekTime, mains: OnOff) {
        let runs = mains == OnOff::On && self.output(now) == OnOff::On;
        if runs && !self.meter_dead && dt_s.is_finite() {
            self.elapsed_s += dt_s.max(0.0);
        }
        if let Some(clock) = &mut self.clock
            && dt_s.is_finite()
        {
            clock.ahead_h += match mains {
                OnOff::On => 0.01 * clock.gain_pct * dt_s / 3600.0,
                OnOff::Off => -dt_s / 3600.0,
            };
        }
    }

    /// What the dial shows at a moment.
    pub fn dial(&self, now: WeekTime) -> WeekTime {
        self.clock.map_or(now, |clock| now.later(clock.ahead_h))
    }

    /// Sets the dial to a moment of the week.
    pub fn set_dial(&mut self, now: WeekTime, to: WeekTime) {
        if let Some(clock) = &mut self.clock {
            clock.ahead_h = to.hours_after(now);
        }
    }

    /// One of the trippers.
    pub const fn tripper(&self, which: Trip) -> Tripper {
        match which {
            Trip::On => self.on,
            Trip::Off => self.off,
        }
    }

    /// Moves one of the trippers. A loose one can slide again.
    pub const fn set_tripper(&mut self, which: Trip, to: Tripper) {
        match which {
            Trip::On => self.on = to,
            Trip::Off => self.off = to,
        }
        if let Some(clock) = &mut self.clock {
            clock.slid = false;
        }
    }

    /// Tightens the screw of a tripper.
    pub const fn fasten(&mut self, which: Trip) {
        if let Some(clock) = &mut self.clock
            && matches!(
                (clock.loose, which),
                (Some((Trip::On, _)), Trip::On) | (Some((Trip::Off, _)), Trip::Off)
            )
        {
            clock.loose = None;
        }
    }

    /// Whether a tripper moves when it is touched.
    pub fn is_loose(&self, which: Trip) -> bool {
        self.clock.and_then(|clock| clock.loose).is_some_and(|(loose, _)| loose == which)
    }

    /// Lets a loose tripper slide, once, as it does while the dial turns unattended.
    pub fn slide(&mut self) {
        let Some(clock) = &mut self.clock else { return };
        let Some((which, by_h)) = clock.loose.filter(|_| !clock.slid) else { return };
        clock.slid = true;
        let tripper = match which {
            Trip::On => &mut self.on,
            Trip::Off => &mut self.off,
        };
        let weekday = tripper.weekday.unwrap_or(0);
        let moved = WeekTime { weekday, hours: tripper.hours }.later(by_h);
        tripper.hours = moved.hours;
        tripper.weekday = tripper.weekday.map(|_| moved.weekday);
    }

    /// Running time on its meter, s.
    pub const fn elapsed_s(&self) -> f64 {
        self.elapsed_s
    }
}

/// The remainder of `value` after whole turns of `turn` > 0; zero if it is not finite.
fn remainder(value: f64, turn: f64) -> f64 {
    let left = value - (value / turn).floor() * turn;
    if left.is_finite() { left } else { 0.0 }
}

#[cfg(test)]
mod tests {
    use super::{DialClock, Timer, Tripper, WeekTime};
    use crate::rig::parts::OnOff;
    use crate::rig::parts::{TimerSwitch, Trip};

    fn at(weekday: u8, hours: f64) -> WeekTime {
        WeekTime { weekday, hours }
    }

    #[test]
    fn a_day_from_midnight_to_midnight_runs_once_a_week() {
        let mut timer = Timer::new(0.0);
        timer.switch = TimerSwitch::Auto;
        timer.on = Tripper { weekday: Some(2), hours: 0.0 };
        timer.off = Tripper { weekday: Some(3), hours: 0.0 };
        assert_eq!(timer.output(at(1, 23.99)), OnOff::Off);
        assert_eq!(timer.output(at(2, 0.0)), OnOff::On);
        assert_eq!(timer.output(at(2, 23.99)), OnOff::On);
        assert_eq!(timer.output(at(3, 0.0)), OnOff::Off);
        for minute in 0..1440_u32 {
            timer.step(60.0, at(2, f64::from(minute) / 60.0), OnOff::On);
        }
        timer.step(60.0, at(3, 1.0), OnOff::On);
        assert!((timer.elapsed_s() - 86_400.0).abs() < 1e-6);
    }

    #[test]
    fn daily_trippers_may_span_midnight() {
        let mut timer = Timer::new(0.0);
        timer.switch = TimerSwitch::Auto;
        timer.on = Tripper { weekday: None, hours: 22.0 };
        timer.off = Tripper { weekday: None, hours: 6.0 };
        assert_eq!(timer.output(at(4, 3.0)), OnOff::On);
        assert_eq!(timer.output(at(4, 12.0)), OnOff::Off);
        timer.switch = TimerSwitch::On;
        timer.step(10.0, at(4, 12.0), OnOff::Off);
        assert!(timer.elapsed_s().abs() < 1e-12);
    }

    #[test]
    fn a_dial_without_mains_stands_still_and_can_be_set() {
        let mut timer = Timer::new(0.0);
        timer.clock = Some(DialClock { gain_pct: 1.0, ..DialClock::default() });
        timer.step(3600.0, at(2, 10.0), OnOff::Off);
        assert!((timer.dial(at(2, 11.0)).hours - 10.0).abs() < 1e-12);
        timer.step(36_000.0, at(2, 11.0), OnOff::On);
        assert!((timer.dial(at(2, 21.0)).hours - 20.1).abs() < 1e-9);
        timer.set_dial(at(6, 23.5), at(0, 0.5));
        let dial = timer.dial(at(6, 23.5));
        assert_eq!(dial.weekday, 0);
        assert!((dial.hours - 0.5).abs() < 1e-9);
    }

    #[test]
    fn a_loose_tripper_slides_once_until_it_is_set_or_fastened() {
        let mut timer = Timer::new(0.0);
        timer.switch = TimerSwitch::Auto;
        timer.on = Tripper { weekday: Some(2), hours: 0.0 };
        timer.off = Tripper { weekday: Some(3), hours: 0.0 };
        let loose = Some((Trip::Off, -2.0));
        timer.clock = Some(DialClock { loose, ..DialClock::default() });
        assert!(timer.is_loose(Trip::Off) && !timer.is_loose(Trip::On));
        timer.slide();
        timer.slide();
        assert_eq!(timer.off, Tripper { weekday: Some(2), hours: 22.0 });
        timer.fasten(Trip::Off);
        timer.set_tripper(Trip::Off, Tripper { weekday: Some(3), hours: 0.0 });
        timer.slide();
        assert_eq!(timer.off.weekday, Some(3));
    }
}
