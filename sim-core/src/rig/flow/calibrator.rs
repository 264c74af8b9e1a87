//! The variable orifice calibrator: a measuring orifice followed by holes that a knob covers.

use crate::air::within;
use crate::digest::digest_fields;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct CalibratorParameters {
    /// Area of the measuring orifice times its discharge coefficient, m2 (CHOSEN: a bore of 33 mm,
    /// 1.70 m3/min at 6.7 inches of water). A nicked or fouled orifice changes it.
    pub orifice_cda_m2: f64,
    /// Area of all the holes of the plate, uncovered, times their discharge coefficient, m2
    /// (CHOSEN: 18 holes of 8.27 mm with a coefficient of 0.62).
    pub openings_cda_m2: f64,
    /// How fast the knob slips by itself while the blower runs: fraction of the opening per minute,
    /// positive opens; a fault sets it.
    pub slips_per_min: f64,
}

digest_fields!(CalibratorParameters { orifice_cda_m2, openings_cda_m2, slips_per_min });

impl Default for CalibratorParameters {
    fn default() -> Self {
        Self { orifice_cda_m2: 5.417e-4, openings_cda_m2: 5.2e-4, slips_per_min: 0.0 }
    }
}

/// The state of the calibrator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibrator {
    /// Fraction of the holes that the knob leaves open, 0 to 1.
    pub opening: f64,
    /// Whether the openings are covered by hand or tape.
    pub blocked: bool,
}

digest_fields!(Calibrator { opening, blocked });

impl Default for Calibrator {
    fn default() -> Self {
        Self { opening: 1.0, blocked: false }
    }
}

impl Calibrator {
    /// Lets the knob slip for `dt_s` of running (s).
    pub fn slip(&mut self, parameters: &CalibratorParameters, dt_s: f64) {
        self.opening = within(self.opening + parameters.slips_per_min * dt_s / 60.0, 0.0, 1.0);
    }

    /// The restrictions that the air must pass.
    pub fn passage(&self, parameters: &CalibratorParameters) -> CalibratorPassage {
        let opening = if self.blocked { 0.0 } else { within(self.opening, 0.0, 1.0) };
        CalibratorPassage {
            orifice_cda_m2: parameters.orifice_cda_m2,
            openings_cda_m2: parameters.openings_cda_m2 * opening,
        }
    }
}

/// Two restrictions in series: the measuring orifice, and the open holes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalibratorPassage {
    /// Measuring orifice, CdA, m2.
    pub orifice_cda_m2: f64,
    /// Open holes, CdA, m2; zero when closed or covered.
    pub openings_cda_m2: f64,
}
