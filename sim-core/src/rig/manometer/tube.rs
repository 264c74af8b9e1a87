//! The tubing between the calibrator's pressure tap and the manometer's left leg.

use super::cold::{ColdColumn, ColdExposure};
use super::valve;
use crate::digest::digest_fields;
use crate::math;
use crate::units::PA_PER_INH2O;

/// Time constant of kinked tubing, s (CHOSEN).
pub const KINK_LAG_S: f64 = 20.0;
/// Fraction of a puff of breath that passes a kink (CHOSEN).
const KINK_PUFF: f64 = 0.05;

/// Area of its bore, m2: 6.5 mm, as that of the legs (CHOSEN).
const AREA_M2: f64 = 3.318_307_240_354_22e-5;
/// Metres in an inch (exact).
const M_PER_IN: f64 = 0.0254;

/// Whether what lies in the tubing can freeze.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Freezes {
    /// It is water.
    Yes,
    /// It is antifreeze or oil.
    No,
}

/// The tubing: what is wrong with it, and the suction that it transmits to the manometer.
///
/// The suction at the pressure tap (Pa, positive if below ambient) is changed in this order:
///
/// * water in a low bend holds back up to its own height: p - clamp(p, -h, h);
/// * a crack lets air in: p/(1 + a^2), with a the crack's area divided by that of the bore
///   (turbulent, computed);
/// * a gap at the tap, if the tubing is loose on it, lets air in by the same law;
/// * a kink delays the rest by a first-order lag of 20 s (CHOSEN).
///
/// Water that has frozen in it blocks it: what reaches the manometer stays as it is.
///
/// Off the tap, its end is open to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tube {
    on_tap: bool,
    kinked: bool,
    crack_ratio: f64,
    gap_ratio: f64,
    /// How many pushes onto the tap it needs until it is tight.
    pushes_to_sit: u8,
    water_in: f64,
    cold: ColdColumn,
    suction_pa: f64,
}

digest_fields!(Tube {
    on_tap,
    kinked,
    crack_ratio,
    gap_ratio,
    pushes_to_sit,
    water_in,
    cold,
    suction_pa
});

impl Default for Tube {
    fn default() -> Self {
        Self {
            on_tap: false,
            kinked: false,
            crack_ratio: 0.0,
            gap_ratio: 0.0,
            pushes_to_sit: 0,
            water_in: 0.0,
            cold: ColdColumn::default(),
            suction_pa: 0.0,
        }
    }
}

impl Tube {
    /// Advances it by `dt_s` (s) with `tap_suction_pa` (Pa) at the pressure tap; returns the
    /// suction that reaches the manometer, Pa.
    pub fn step(&mut self, dt_s: f64, tap_suction_pa: f64) -> f64 {
        if self.is_frozen() {
            return self.suction_pa;
        }
        let source = if self.on_tap && tap_suction_pa.is_finite() { tap_suction_pa } else { 0.0 };
        let target = self.at_rest_pa(source);
        self.suction_pa = if self.kinked {
            target + (self.suction_pa - target) * math::exp(-dt_s.max(0.0) / KINK_LAG_S)
        } else {
            target
        };
        self.suction_pa
    }

    /// The suction that finally reaches the manometer, Pa, for a steady suction at the far end, Pa.
    pub fn at_rest_pa(&self, suction_pa: f64) -> f64 {
        let held = self.water_in * PA_PER_INH2O;
        let let_in = valve::divided(self.crack_ratio) * valve::divided(self.gap_ratio);
        (suction_pa - suction_pa.clamp(-held, held)) * let_in
    }

    /// The suction that reaches the manometer now, Pa.
    pub const fn suction_pa(&self) -> f64 {
        self.suction_pa
    }

    /// Fraction of a puff of breath that passes, 0 to 1.
    pub fn puff_share(&self) -> f64 {
        if self.is_frozen() {
            return 0.0;
        }
        valve::divided(self.crack_ratio) * if self.kinked { KINK_PUFF } else { 1.0 }
    }

    /// Pushes it onto the pressure tap.
    pub const fn connect(&mut self) {
        self.on_tap = true;
        self.pushes_to_sit = self.pushes_to_sit.saturating_sub(1);
        if self.pushes_to_sit == 0 {
            self.gap_ratio = 0.0;
        }
    }

    /// Pulls it off the pressure tap.
    pub const fn disconnect(&mut self) {
        self.on_tap = false;
    }

    /// Kinks it.
    pub const fn kink(&mut self) {
        self.kinked = true;
    }

    /// Straightens the kink.
    pub const fn straighten(&mut self) {
        self.kinked = false;
    }

    /// Cracks it. `ratio` is the area of the crack divided by that of the bore.
    pub const fn crack(&mut self, ratio: f64) {
        self.crack_ratio = if ratio.is_finite() { ratio.max(0.0) } else { 0.0 };
    }

    /// Makes it loose on the pressure tap. `ratio` is the area of the gap divided by that of the
    /// bore. It needs one push more than usual: on the tap the next push makes it tight, off the
    /// tap the second one.
    pub const fn loosen(&mut self, ratio: f64) {
        self.gap_ratio = if ratio.is_finite() { ratio.max(0.0) } else { 0.0 };
        self.pushes_to_sit = if self.on_tap { 1 } else { 2 };
    }

    /// Puts water into a low bend, inches high.
    pub const fn wet(&mut self, height_in: f64) {
        self.water_in = if height_in.is_finite() { height_in.max(0.0) } else { 0.0 };
    }

    /// Takes up fluid that went over from the manometer, m3: it lies in the low bend.
    pub fn take_over(&mut self, m3: f64) {
        if m3.is_finite() && m3 > 0.0 {
            self.water_in += m3 / AREA_M2 / M_PER_IN;
        }
    }

    /// Height of the fluid that lies in it, inches.
    pub const fn water_in(&self) -> f64 {
        self.water_in
    }

    /// The fluid that lies in it, m3.
    pub fn water_m3(&self) -> f64 {
        self.water_in * M_PER_IN * AREA_M2
    }

    /// Lets the water in it stand in air of `air_c` (degrees Celsius) for `dt_s` (s), if it is water
    /// that freezes.
    pub fn stand(&mut self, dt_s: f64, air_c: f64, exposed: ColdExposure, freezes: Freezes) {
        if self.water_in > 0.0 && freezes == Freezes::Yes {
            self.cold.stand(dt_s, air_c, exposed);
        }
    }

    /// Whether water has frozen in it and blocks it.
    pub fn is_frozen(&self) -> bool {
        self.water_in > 0.0 && self.cold.is_stuck()
    }

    /// Thaws and dries it, as in the van.
    pub fn dry(&mut self) {
        self.water_in = 0.0;
        self.cold = ColdColumn::default();
        self.suction_pa = 0.0;
    }

    /// Shakes the water out. Ice does not come out. On the tap it cannot be shaken, and nothing changes.
    pub fn drain(&mut self) {
        if !self.on_tap && !self.is_frozen() {
            self.water_in = 0.0;
            self.cold = ColdColumn::default();
        }
    }

    /// Whether it is on the pressure tap.
    pub const fn is_on_tap(&self) -> bool {
        self.on_tap
    }

    /// Whether it is kinked.
    pub const fn is_kinked(&self) -> bool {
        self.kinked
    }

    /// Whether it is cracked.
    pub const fn is_cracked(&self) -> bool {
        self.crack_ratio > 0.0
    }

    /// Whether it is only half on the tap.
    pub const fn is_loose(&self) -> bool {
        self.on_tap && self.gap_ratio > 0.0
    }

    /// Whether there are drops of water in it.
    pub const fn has_drops(&self) -> bool {
        self.water_in > 0.0
    }
}

#[cfg(test)]
mod tests {
    use super::Tube;
    use crate::units::PA_PER_INH2O;

    #[test]
    fn off_the_tap_it_brings_nothing() {
        let mut tube = Tube::default();
        assert!(tube.step(0.05, 1500.0).abs() < 1e-12);
        tube.connect();
        assert!((tube.step(0.05, 1500.0) - 1500.0).abs() < 1e-12);
    }

    #[test]
    fn a_kink_creeps_with_its_lag_in_steps_of_any_length() {
        let mut short = Tube::default();
        short.connect();
        short.kink();
        let mut long = short;
        for _ in 0..400 {
            short.step(0.05, 1000.0);
        }
        for _ in 0..20 {
            long.step(1.0, 1000.0);
        }
        let expected = 1000.0 * (1.0 - 0.367_879_441_171_442_33);
        assert!((short.suction_pa() - expected).abs() < 1e-9);
        assert!((long.suction_pa() - expected).abs() < 1e-9);
    }

    #[test]
    fn a_loose_end_lets_air_in_until_it_is_pushed_on_once_more() {
        let mut tube = Tube::default();
        tube.loosen(0.5);
        assert!(!tube.is_loose());
        tube.connect();
        assert!(tube.is_loose());
        assert!((tube.step(1.0, 1000.0) - 800.0).abs() < 1e-9);
        tube.disconnect();
        tube.connect();
        assert!(!tube.is_loose());
        assert!((tube.step(1.0, 1000.0) - 1000.0).abs() < 1e-9);
        // Tubing that works loose on the tap is tight again after the next push.
        tube.loosen(0.5);
        tube.disconnect();
        tube.connect();
        assert!(!tube.is_loose());
    }

    #[test]
    fn standing_water_takes_its_height_until_it_is_shaken_out_off_the_tap() {
        let mut tube = Tube::default();
        tube.connect();
        tube.wet(0.5);
        assert!((tube.step(1.0, 6.0 * PA_PER_INH2O) - 5.5 * PA_PER_INH2O).abs() < 1e-9);
        assert!(tube.step(1.0, 0.3 * PA_PER_INH2O).abs() < 1e-9);
        tube.drain();
        assert!(tube.has_drops());
        tube.disconnect();
        tube.drain();
        assert!(!tube.has_drops());
    }
}
