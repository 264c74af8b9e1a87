//! An electronic manometer: a hand-held pressure gauge with a display and a battery, which is used in
//! place of the water manometer.
//!
//! shown = (1 + s/100) p + z(t) - k, averaged over some seconds and rounded to a hundredth of an inch of
//! water, with p the suction at its port, s the error of its span in percent, z its zero and k what the
//! zero key has taken off. Its zero is an offset that every unit has, plus a part in proportion to the
//! sensor's temperature, plus the drift of a faulty sensor with time. All of it is CHOSEN: no instrument
//! was measured, and the display and its keys are this bench's own.

use serde::{Deserialize, Serialize};

use crate::digest::{digest_fields, digest_names};
use crate::math;
use crate::rig::parts::OnOff;
use crate::units::PA_PER_INH2O;

/// The kind of manometer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum ManometerKind {
    /// A U-tube with water.
    #[default]
    WaterColumn,
    /// An electronic manometer.
    Electronic,
}

digest_names!(ManometerKind);

/// Time constant with which the sensor takes on the temperature of the air, s (CHOSEN).
const SENSOR_S: f64 = 600.0;
/// Time for which the display shows nothing but its own test after it was switched on, s (CHOSEN).
pub const SELF_TEST_S: f64 = 3.0;
/// Running time left at which the low-battery sign comes on, h (CHOSEN).
pub const LOW_BATTERY_H: f64 = 0.5;
/// Error of the span as the battery runs out, percent; it grows from the low-battery sign on (CHOSEN:
/// the reference voltage of the sensor sinks with the battery).
const FLAT_SPAN_PCT: f64 = -6.0;
/// Running time of a fresh battery, h (CHOSEN).
const FRESH_BATTERY_H: f64 = 30.0;
/// The display's last digit, inches of water.
pub const DIGIT_IN: f64 = 0.01;
/// The reading is seen to move if it is this far from where it settles, inches of water (CHOSEN).
const SEEN_MOVING_IN: f64 = 0.015;

/// Its constants and faults.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElectronicParameters {
    /// Offset of its zero, inches of water.
    pub offset_in: f64,
    /// Error of its span, percent.
    pub span_pct: f64,
    /// Change of its zero with the sensor's temperature, inches of water for each K.
    pub zero_in_per_k: f64,
    /// By how much warmer than the air the sensor is when it is taken out of its case, K.
    pub warm_k: f64,
    /// Drift of its zero with running time, inches of water an hour; a fault sets it.
    pub drift_in_h: f64,
    /// The largest reading, inches of water.
    pub range_in: f64,
    /// Running time that the battery has left at the start, h.
    pub battery_h: f64,
    /// Time constant of the average that is shown, s.
    pub average_s: f64,
    /// Age of its calibration on the day of the session, as its label says, days.
    pub label_days: f64,
}

digest_fields!(ElectronicParameters {
    offset_in,
    span_pct,
    zero_in_per_k,
    warm_k,
    drift_in_h,
    range_in,
    battery_h,
    average_s,
    label_days
});

impl Default for ElectronicParameters {
    fn default() -> Self {
        Self {
            offset_in: 0.12,
            span_pct: 0.0,
            zero_in_per_k: 0.0015,
            warm_k: 6.0,
            drift_in_h: 0.0,
            range_in: 10.0,
            battery_h: 20.0,
            average_s: 2.0,
            label_days: 120.0,
        }
    }
}

/// What its display shows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Shown {
    /// Nothing: it is off, or its battery is flat.
    Nothing,
    /// All segments, while it tests itself.
    SelfTest,
    /// A reading, inches of water.
    Reading(f64),
    /// The sign for a pressure beyond its range.
    OverRange,
}

/// The electronic manometer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElectronicManometer {
    /// Its constants and faults. A fault changes them at its onset.
    pub parameters: ElectronicParameters,
    on: bool,
    on_s: f64,
    battery_h: f64,
    /// By how much the sensor is warmer than the air, K.
    warmer_k: f64,
    drifted_in: f64,
    /// What the zero key takes off, inches of water.
    taken_off_in: f64,
    /// The average that is shown, before the zero key's share, inches of water.
    average_in: f64,
    /// Where the average goes.
    target_in: f64,
}

digest_fields!(ElectronicManometer {
    parameters,
    on,
    on_s,
    battery_h,
    warmer_k,
    drifted_in,
    taken_off_in,
    average_in,
    target_in
});

impl ElectronicManometer {
    /// The manometer in its case: off.
    pub const fn new(parameters: ElectronicParameters) -> Self {
        Self {
            parameters,
            on: false,
            on_s: 0.0,
            battery_h: parameters.battery_h,
            warmer_k: parameters.warm_k,
            drifted_in: 0.0,
            taken_off_in: 0.0,
            average_in: 0.0,
            target_in: 0.0,
        }
    }

    /// Advances it by `dt_s` (s) with this suction at its port and this gust on it, Pa. In its case
    /// (`out` is off) the sensor keeps its temperature.
    pub fn step(&mut self, dt_s: f64, suction_pa: f64, gust_pa: f64, out: OnOff) {
        let dt_s = if dt_s.is_finite() { dt_s.clamp(0.0, 3600.0) } else { 0.0 };
        if out == OnOff::On {
            self.warmer_k *= math::exp(-dt_s / SENSOR_S);
        }
        if self.on {
            self.on_s += dt_s;
            self.battery_h = (self.battery_h - dt_s / 3600.0).max(0.0);
            self.drifted_in += self.parameters.drift_in_h * dt_s / 3600.0;
            if self.battery_h <= 0.0 {
                self.on = false;
            }
        }
        let pressure_in = (suction_pa + gust_pa) / PA_PER_INH2O;
        let target = self.raw_in(if pressure_in.is_finite() { pressure_in } else { 0.0 });
        self.target_in = target;
        let average_s = self.parameters.average_s.max(0.05);
        self.average_in = target + (self.average_in - target) * math::exp(-dt_s / average_s);
    }

    /// What the sensor gives for a pressure, before the zero key's share, inches of water.
    fn raw_in(&self, pressure_in: f64) -> f64 {
        let worn = (1.0 - self.battery_h / LOW_BATTERY_H).clamp(0.0, 1.0);
        let span_pct = self.parameters.span_pct + FLAT_SPAN_PCT * worn;
        pressure_in * (1.0 + span_pct / 100.0) + self.zero_raw_in()
    }

    fn zero_raw_in(&self) -> f64 {
        let parameters = &self.parameters;
        parameters.offset_in + parameters.zero_in_per_k * self.warmer_k + self.drifted_in
    }

    /// Where it would settle with its port open to still air, inches of water: zero if it is zeroed.
    pub fn zero_in(&self) -> f64 {
        self.zero_raw_in() - self.taken_off_in
    }

    /// The reading before it is rounded, inches of water, whether or not it is shown.
    pub fn reading_in(&self) -> f64 {
        self.average_in - self.taken_off_in
    }

    /// What the display shows now.
    pub fn shown(&self) -> Shown {
        let reading_in = self.reading_in();
        if !self.on {
            Shown::Nothing
        } else if self.on_s < SELF_TEST_S {
            Shown::SelfTest
        } else if reading_in.abs() > self.parameters.range_in {
            Shown::OverRange
        } else {
            // Adding zero turns -0.0 into 0.0.
            Shown::Reading((reading_in / DIGIT_IN).round() * DIGIT_IN + 0.0)
        }
    }

    /// Whether the low-battery sign is on.
    pub fn battery_is_low(&self) -> bool {
        self.on && self.battery_h < LOW_BATTERY_H
    }

    /// Whether it is on.
    pub const fn is_on(&self) -> bool {
        self.on
    }

    /// Whether the reading is seen to move.
    pub fn is_moving(&self) -> bool {
        self.on && (self.average_in - self.target_in).abs() > SEEN_MOVING_IN
    }

    /// How far the reading is from where it settles, inches of water.
    pub fn unsettled_in(&self) -> f64 {
        (self.average_in - self.target_in).abs()
    }

    /// Switches it on or off. With a flat battery it stays off.
    pub fn switch(&mut self, to: OnOff) {
        let on = to == OnOff::On && self.battery_h > 0.0;
        if on && !self.on {
            self.on_s = 0.0;
        }
        self.on = on;
    }

    /// Presses the zero key: whatever is shown becomes zero, whether or not the port is open. What the
    /// key takes off is kept when it is switched off.
    pub const fn zero(&mut self) {
        self.taken_off_in = self.average_in;
    }

    /// Makes its zero right, whatever the port is under.
    pub(crate) fn zero_truly(&mut self) {
        self.taken_off_in = self.zero_raw_in();
    }

    /// Puts a fresh battery in. It is off afterwards.
    pub const fn change_battery(&mut self) {
        self.battery_h = FRESH_BATTERY_H;
        self.on = false;
    }

    /// Lets the battery have this much running time left, h.
    pub(crate) const fn drain_battery_to(&mut self, hours: f64) {
        self.battery_h = hours;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn settled(manometer: &mut ElectronicManometer, pressure_in: f64) -> Shown {
        for _ in 0..60 {
            manometer.step(1.0, pressure_in * PA_PER_INH2O, 0.0, OnOff::On);
        }
        manometer.shown()
    }

    fn on(parameters: ElectronicParameters) -> ElectronicManometer {
        let mut manometer = ElectronicManometer::new(parameters);
        manometer.switch(OnOff::On);
        manometer
    }

    fn reading(shown: Shown) -> f64 {
        match shown {
            Shown::Reading(reading) => reading,
            other => panic!("{other:?} instead of a reading"),
        }
    }

    #[test]
    fn zeroed_with_its_port_open_it_reads_the_pressure_to_a_hundredth() {
        let mut manometer = on(ElectronicParameters::default());
        assert!((reading(settled(&mut manometer, 0.0)) - 0.13).abs() < 0.011);
        manometer.zero();
        assert!(reading(settled(&mut manometer, 0.0)).abs() < 1e-9);
        assert!((reading(settled(&mut manometer, 6.237)) - 6.24).abs() < 1e-9);
        assert_eq!(settled(&mut manometer, 10.2), Shown::OverRange);
    }

    #[test]
    fn zeroed_under_pressure_it_reads_that_much_too_little() {
        let mut manometer = on(ElectronicParameters::default());
        settled(&mut manometer, 2.0);
        manometer.zero();
        assert!((reading(settled(&mut manometer, 5.0)) - 3.0).abs() < 0.011);
        manometer.zero_truly();
        assert!((reading(settled(&mut manometer, 5.0)) - 5.0).abs() < 0.011);
    }

    #[test]
    fn a_battery_that_runs_out_shows_its_sign_then_reads_short_then_nothing() {
        let parameters = ElectronicParameters { battery_h: 0.52, ..Default::default() };
        let mut manometer = on(parameters);
        manometer.step(3.0, 0.0, 0.0, OnOff::On);
        assert!(!manometer.battery_is_low());
        for _ in 0..1600 {
            manometer.step(1.0, 5.0 * PA_PER_INH2O, 0.0, OnOff::On);
        }
        assert!(manometer.battery_is_low());
        assert!(manometer.reading_in() - manometer.zero_in() < 4.8);
        for _ in 0..400 {
            manometer.step(1.0, 0.0, 0.0, OnOff::On);
        }
        assert_eq!(manometer.shown(), Shown::Nothing);
        manometer.switch(OnOff::On);
        assert!(!manometer.is_on());
        manometer.change_battery();
        manometer.switch(OnOff::On);
        assert!(manometer.is_on() && !manometer.battery_is_low());
    }

    #[test]
    fn the_average_is_the_same_in_steps_of_any_length() {
        let mut short = on(ElectronicParameters::default());
        let mut long = short;
        for _ in 0..20 {
            short.step(0.05, 500.0, 0.0, OnOff::On);
        }
        long.step(1.0, 500.0, 0.0, OnOff::On);
        assert!((short.reading_in() - long.reading_in()).abs() < 2e-4);
    }
}
