//! Faults of the calibrator itself.

use super::declared::{Declared, Site};
use super::report::FaultPlace;
use super::report::Response::{Corrected, Noted, Rejected};
use super::sheet::{Arises, Sheet};
use super::size::Size;

/// A damaged orifice: the calibrator is sent in.
const ORIFICE: Sheet = Sheet {
    right: &[Rejected],
    check: "Turn it to the light and look at the edge all the way round.",
    ..Sheet::of(FaultPlace::Calibrator)
};

pub(super) struct OrificeNicked {
    pub(super) area_pct: f64,
}

impl Declared for OrificeNicked {
    const USUAL: Self = Self { area_pct: 4.0 };
    const SHEET: Sheet = Sheet {
        title: "a nicked orifice",
        in_short: "the orifice has gained area since it was certified",
        cause: "A knock has damaged the sharp edge: more air passes at the same pressure drop than \
                when it was certified.",
        sign: "There is a nick in the edge. The calculated flows are too low, and the calibration line \
               is far from the last one.",
        contradicts: &["OrificeFouled"],
        ..ORIFICE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_pct", self.area_pct, 1.0..=15.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.calibrator.orifice_cda_m2 *= 1.0 + self.area_pct / 100.0;
    }
}

pub(super) struct OrificeFouled {
    pub(super) area_pct: f64,
}

impl Declared for OrificeFouled {
    const USUAL: Self = Self { area_pct: 4.0 };
    const SHEET: Sheet = Sheet {
        title: "a fouled orifice",
        in_short: "the orifice has lost area since it was certified",
        cause: "Dirt has settled on the edge: less air passes at the same pressure drop than when it \
                was certified.",
        sign: "There is dirt on the edge. The calculated flows are too high, and the calibration line \
               is far from the last one.",
        ..ORIFICE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_pct", self.area_pct, 1.0..=15.0, "%")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.calibrator.orifice_cda_m2 *= 1.0 - self.area_pct / 100.0;
    }
}

pub(super) struct KnobSlips {
    pub(super) per_min: f64,
}

impl Declared for KnobSlips {
    const USUAL: Self = Self { per_min: -0.01 };
    const SHEET: Sheet = Sheet {
        arises: Arises::ComesAndGoes,
        title: "a slipping knob",
        right: &[Noted, Corrected, Rejected],
        in_short: "the knob slips while the blower runs: change of the opening a minute; above \
                   zero it opens",
        cause: "The knob has lost its friction, and the vibration of the blower turns it.",
        sign: "Pen and column drift together while nothing is touched, and the knob is no longer where \
               you set it.",
        check: "Note where the knob is set, and look again after two minutes. Readings of pen and \
                column taken within a few seconds of each other still belong together.",
        ..Sheet::of(FaultPlace::Calibrator)
    };

    fn size(&self) -> Option<Size> {
        Size::either_sign("per_min", self.per_min, 0.005..=0.1, "a minute")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.parameters.calibrator.slips_per_min = self.per_min;
    }

    fn end(&self, site: &mut Site<'_>) {
        site.rig.parameters.calibrator.slips_per_min = 0.0;
    }
}
