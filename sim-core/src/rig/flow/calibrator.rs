//! The orifice calibrator: a measuring orifice followed by holes that a knob covers, or by a plate with
//! holes that is exchanged for another.

use serde::{Deserialize, Serialize};

use super::plates::Plate;
use crate::air::within;
use crate::digest::{digest_fields, digest_names};

/// How the flow through a calibrator is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize, Deserialize)]
pub enum CalibratorKind {
    /// A knob covers part of the holes.
    #[default]
    VariableOpening,
    /// A plate with holes lies in it, and is exchanged for another.
    FixedPlates,
}

digest_names!(CalibratorKind);

/// Passage of a calibrator for plates with no plate in it, area times discharge coefficient, m2
/// (CHOSEN: its body is 76 mm wide).
const BARE_CDA_M2: f64 = 2.8e-3;

/// Parameters.
#[derive(Debug, Clone, PartialEq)]
pub struct CalibratorParameters {
    /// How the flow is set.
    pub kind: CalibratorKind,
    /// Area of the measuring orifice times its discharge coefficient, m2 (CHOSEN: a bore of 33 mm,
    /// 1.70 m3/min at 6.7 inches of water). A nicked or fouled orifice changes it.
    pub orifice_cda_m2: f64,
    /// Area of all the holes, uncovered, times their discharge coefficient, m2 (CHOSEN: 18 holes of
    /// 7.70 mm with a coefficient of 0.62); of a set of plates, that of the widest.
    pub openings_cda_m2: f64,
    /// How fast the knob slips by itself while the blower runs: fraction of the opening per minute,
    /// positive opens; a fault sets it.
    pub slips_per_min: f64,
}

digest_fields!(CalibratorParameters { kind, orifice_cda_m2, openings_cda_m2, slips_per_min });

impl Default for CalibratorParameters {
    fn default() -> Self {
        Self {
            kind: CalibratorKind::VariableOpening,
            orifice_cda_m2: 5.417e-4,
            openings_cda_m2: 5.2e-4,
            slips_per_min: 0.0,
        }
    }
}

impl CalibratorParameters {
    /// The restrictions that the air must pass with this share of the holes open, 0 to 1.
    pub fn passage_at(&self, open_share: f64) -> CalibratorPassage {
        CalibratorPassage {
            orifice_cda_m2: self.orifice_cda_m2,
            openings_cda_m2: self.openings_cda_m2 * within(open_share, 0.0, 1.0),
        }
    }
}

/// The state of the calibrator.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Calibrator {
    /// Fraction of the holes that the knob leaves open, 0 to 1.
    pub opening: f64,
    /// Whether the openings are covered by hand or tape.
    pub blocked: bool,
    /// The plate in it, if it is one for plates.
    pub plate: Option<Plate>,
}

digest_fields!(Calibrator { opening, blocked, plate });

impl Default for Calibrator {
    fn default() -> Self {
        Self { opening: 1.0, blocked: false, plate: None }
    }
}

impl Calibrator {
    /// Lets the knob slip for `dt_s` of running (s).
    pub fn slip(&mut self, parameters: &CalibratorParameters, dt_s: f64) {
        self.opening = within(self.opening + parameters.slips_per_min * dt_s / 60.0, 0.0, 1.0);
    }

    /// A calibrator with this plate in it.
    pub fn with_plate(plate: Plate) -> Self {
        Self { plate: Some(plate), ..Self::default() }
    }

    /// How far it is open, 0 to 1, whether or not the openings are covered: the knob, or the plate's
    /// holes as a share of those of the widest; 1 without a plate.
    pub fn open_share(&self, kind: CalibratorKind) -> f64 {
        match kind {
            CalibratorKind::VariableOpening => self.opening,
            CalibratorKind::FixedPlates => self.plate.map_or(1.0, Plate::open_share),
        }
    }

    /// The restrictions that the air must pass.
    pub fn passage(&self, parameters: &CalibratorParameters) -> CalibratorPassage {
        let open = self.open_share(parameters.kind);
        let passage = parameters.passage_at(if self.blocked { 0.0 } else { open });
        match (parameters.kind, self.plate) {
            (CalibratorKind::FixedPlates, None) if !self.blocked => {
                CalibratorPassage { openings_cda_m2: BARE_CDA_M2, ..passage }
            }
            _ => passage,
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
