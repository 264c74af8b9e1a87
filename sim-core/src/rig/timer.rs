//! The timer: a switch, two trippers on a dial of seven days, and a meter of running time.

use crate::digest::{Digest, Digestible};
use crate::rig::parts::OnOff;
use crate::rig::parts::TimerSwitch;

/// A moment in the week.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeekTime {
    /// Day of the week, 0 (Monday) to 6.
    pub weekday: u8,
    /// Hours since midnight, 0 to 24.
    pub hours: f64,
}

/// A tripper on the dial.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tripper {
    /// Day on which it acts, 0 (Monday) to 6; `None` for every day.
    pub weekday: Option<u8>,
    /// Hours since midnight at which it acts, 0 to 24.
    pub hours: f64,
}

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
    elapsed_s: f64,
}

impl Timer {
    /// A timer switched off, its trippers both at midnight, its meter at `elapsed_s` (s).
    pub const fn new(elapsed_s: f64) -> Self {
        let midnight = Tripper { weekday: None, hours: 0.0 };
        Self { switch: TimerSwitch::Off, on: midnight, off: midnight, elapsed_s }
    }

    /// Whether its output is on. In `Auto` the tripper that acted last decides; where both act at
    /// the same moment, off wins.
    pub fn output(&self, now: WeekTime) -> OnOff {
        let on = match self.switch {
            TimerSwitch::On => true,
            TimerSwitch::Off => false,
            TimerSwitch::Auto => self.on.hours_since(now) < self.off.hours_since(now),
        };
        if on { OnOff::On } else { OnOff::Off }
    }

    /// Counts `dt_s` (s) of running time while its output is on and `mains` are there.
    pub fn step(&mut self, dt_s: f64, now: WeekTime, mains: OnOff) {
        let runs = mains == OnOff::On && self.output(now) == OnOff::On;
        if runs && dt_s.is_finite() {
            self.elapsed_s += dt_s.max(0.0);
        }
    }

    /// Running time on its meter, s.
    pub const fn elapsed_s(&self) -> f64 {
        self.elapsed_s
    }
}

/// What is left of `value` over whole turns of `turn` > 0; zero where that makes no sense.
fn remainder(value: f64, turn: f64) -> f64 {
    let left = value - (value / turn).floor() * turn;
    if left.is_finite() { left } else { 0.0 }
}

impl Digestible for Timer {
    fn digest(&self, digest: &mut Digest) {
        digest.whole(self.switch as u64);
        for tripper in [&self.on, &self.off] {
            digest.whole(tripper.weekday.map_or(7, u64::from));
            digest.number(tripper.hours);
        }
        digest.number(self.elapsed_s);
    }
}

#[cfg(test)]
mod tests {
    use super::{Timer, Tripper, WeekTime};
    use crate::rig::parts::OnOff;
    use crate::rig::parts::TimerSwitch;

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
}
