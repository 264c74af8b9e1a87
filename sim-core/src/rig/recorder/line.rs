//! The tubing that brings the pressure of the exhaust to the recorder's bellows.

use crate::digest::digest_fields;
use crate::rig::parts::LineCare;

/// The recorder's tubing.
///
/// * Off its fitting it transmits nothing.
/// * A kink lets the pressure only creep through: it adds to the lag of the bellows.
/// * Water in a low bend is pushed up its far side until its head takes part of the pressure: of a
///   pressure P it transmits P - h, or nothing below h (hydrostatics, computed).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RecorderLine {
    on_fitting: bool,
    kink_s: f64,
    water_inh2o: f64,
}

digest_fields!(RecorderLine { on_fitting, kink_s, water_inh2o });

impl Default for RecorderLine {
    fn default() -> Self {
        Self { on_fitting: true, kink_s: 0.0, water_inh2o: 0.0 }
    }
}

impl RecorderLine {
    /// It slips off its fitting.
    pub const fn slip_off(&mut self) {
        self.on_fitting = false;
    }

    /// It kinks, and delays the bellows by `lag_s` (s).
    pub const fn kink(&mut self, lag_s: f64) {
        self.kink_s = lag_s;
    }

    /// Water gathers in its low bend, up to this head, inches.
    pub const fn gather(&mut self, water_inh2o: f64) {
        self.water_inh2o = water_inh2o;
    }

    /// It is put in order in one respect, or exchanged.
    pub fn tend(&mut self, how: LineCare) {
        match how {
            LineCare::PushOn => self.on_fitting = true,
            LineCare::Straighten => self.kink_s = 0.0,
            LineCare::Drain => self.water_inh2o = 0.0,
            LineCare::Renew => *self = Self::default(),
        }
    }

    /// Whether it is on its fitting.
    pub const fn is_on(&self) -> bool {
        self.on_fitting
    }

    /// Whether it is kinked.
    pub const fn is_kinked(&self) -> bool {
        self.kink_s > 0.0
    }

    /// Whether water stands in it.
    pub const fn is_wet(&self) -> bool {
        self.water_inh2o > 0.0
    }

    /// By how much it delays the bellows, s.
    pub const fn lag_s(&self) -> f64 {
        self.kink_s.max(0.0)
    }

    /// What arrives of a pressure, inches of water.
    pub fn transmits(&self, pressure_inh2o: f64) -> f64 {
        if !self.on_fitting {
            return 0.0;
        }
        let head = self.water_inh2o.max(0.0);
        pressure_inh2o - pressure_inh2o.clamp(-head, head)
    }
}

#[cfg(test)]
mod tests {
    use super::RecorderLine;
    use crate::rig::parts::LineCare;

    #[test]
    fn each_trouble_goes_by_its_own_care_and_all_by_a_new_piece() {
        let mut line = RecorderLine::default();
        assert!((line.transmits(5.0) - 5.0).abs() < 1e-12);
        line.gather(0.6);
        line.kink(40.0);
        assert!((line.transmits(5.0) - 4.4).abs() < 1e-12);
        assert!(line.transmits(0.5).abs() < 1e-12);
        assert!((line.lag_s() - 40.0).abs() < 1e-12);
        line.tend(LineCare::Drain);
        assert!(!line.is_wet() && line.is_kinked());
        line.slip_off();
        assert!(line.transmits(5.0).abs() < 1e-12);
        line.tend(LineCare::Straighten);
        assert!(!line.is_on() && !line.is_kinked());
        line.tend(LineCare::Renew);
        assert!(line == RecorderLine::default());
    }
}
