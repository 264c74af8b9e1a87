//! Faults of nuts, gaskets, washers and plates: all of them leaks past the calibrator.

use super::declared::{Declared, Site};
use super::onset::Onset;
use super::remedy::{PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;
use crate::rig::parts::{Gasket, Nut, WasherSeat};

/// A leak that is closed on the roof.
const CLOSABLE: Sheet = Sheet {
    arises: Arises::FromTheStart,
    right: &[Repaired],
    remedy: Remedy::CloseLeak,
    ..Sheet::of(FaultPlace::Mounting)
};

/// A leak past the calibrator, effective area in mm2.
fn leak(leak_mm2: f64) -> Option<Size> {
    Size::positive("leak_mm2", leak_mm2, 5.0..=60.0, "mm2")
}

pub(super) struct CalibratorGasketMissing {
    pub(super) leak_mm2: f64,
}

impl Declared for CalibratorGasketMissing {
    const USUAL: Self = Self { leak_mm2: 20.0 };
    const SHEET: Sheet = Sheet {
        title: "no gasket under the calibrator",
        in_short: "the gasket under the calibrator is missing: effective area of the leak",
        cause: "The gasket of the flange was left behind with another crew.",
        sign: "The flange is bare when you hold the calibrator. With the blower running, air hisses in \
               under it, and the intercept of the calibration line has moved.",
        check: "Cover the openings: the pen stays well above its zero, and the hiss comes from under \
                the calibrator.",
        put_right: PutRight::CalibratorGasketFitted,
        ..CLOSABLE
    };

    fn size(&self) -> Option<Size> {
        leak(self.leak_mm2)
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.mounting.calibrator_gasket = false;
        site.rig.mounting.parameters.calibrator_gasket_leak_mm2 = self.leak_mm2;
    }
}

pub(super) struct HolderGasketMissing {
    pub(super) leak_mm2: f64,
}

impl Declared for HolderGasketMissing {
    const USUAL: Self = Self { leak_mm2: 20.0 };
    const SHEET: Sheet = Sheet {
        title: "no gasket on the filter holder",
        in_short: "the gasket of the filter holder is missing: effective area of the leak",
        cause: "The gasket of the filter holder came off with a filter.",
        sign: "The holder is bare when the filter is out. With the blower running, air hisses in at \
               the edge of the plate.",
        check: "Cover the openings: the pen stays well above its zero, and the hiss comes from the \
                edge of the plate.",
        put_right: PutRight::HolderGasketFitted,
        ..CLOSABLE
    };

    fn size(&self) -> Option<Size> {
        leak(self.leak_mm2)
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.mounting.holder_gasket = false;
        site.rig.mounting.parameters.holder_gasket_leak_mm2 = self.leak_mm2;
    }
}

pub(super) struct NutLoose {
    pub(super) nut: Nut,
    pub(super) leak_mm2: f64,
}

impl Declared for NutLoose {
    const USUAL: Self = Self { nut: Nut::ALL[1], leak_mm2: 15.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::DuringWork,
        title: "a nut that works loose",
        in_short: "a nut (1 to 4) works loose while the blower runs: effective area of the leak",
        cause: "The running blower shakes loose a nut that looks as tight as the others.",
        sign: "Air hisses in beside it, and the pen rises a little against the manometer.",
        check: "Listen from close by; with the blower off, put a hand on each nut.",
        begins: Onset::AfterRunningMinutes(6.0),
        put_right: PutRight::LeakClosed,
        ..CLOSABLE
    };

    fn size(&self) -> Option<Size> {
        leak(self.leak_mm2)
    }

    fn at(&self) -> Option<String> {
        Some(self.nut.number().to_string())
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.mounting.working_loose = Some((self.nut, self.leak_mm2));
    }
}

pub(super) struct WasherBelow {
    pub(super) nut: Nut,
    pub(super) leak_mm2: f64,
}

impl Declared for WasherBelow {
    const USUAL: Self = Self { nut: Nut::ALL[2], leak_mm2: 8.0 };
    const SHEET: Sheet = Sheet {
        title: "a washer under the hold-down frame",
        in_short: "a washer (at nut 1 to 4) lies under the hold-down frame: effective area of \
                   the leak",
        cause: "Whoever changed the filter last dropped a washer under the hold-down frame, so what is \
                clamped there next does not lie flat.",
        sign: "The washer is visible underneath. With the blower running, air hisses in at the edge of \
               the plate.",
        check: "Look at all four washers before the plate goes on; cover the openings and listen.",
        put_right: PutRight::WashersAbove,
        ..CLOSABLE
    };

    fn size(&self) -> Option<Size> {
        leak(self.leak_mm2)
    }

    fn at(&self) -> Option<String> {
        Some(self.nut.number().to_string())
    }

    fn begin(&self, site: &mut Site<'_>) {
        let mounting = &mut site.rig.mounting;
        if let Some(seat) = mounting.washers.get_mut(self.nut.index()) {
            *seat = WasherSeat::Below;
        }
        mounting.parameters.washer_below_leak_mm2 = self.leak_mm2;
    }
}

pub(super) struct PlateWarped {
    pub(super) leak_mm2: f64,
}

impl Declared for PlateWarped {
    const USUAL: Self = Self { leak_mm2: 10.0 };
    const SHEET: Sheet = Sheet {
        title: "a warped adapter plate",
        right: &[Rejected],
        in_short: "the adapter plate is warped: effective area of a leak that no nut closes",
        cause: "The adapter plate was overtightened at some time and no longer lies flat.",
        sign: "Air hisses in at the edge of the plate although gasket, washers and nuts are in order.",
        check: "Take the plate off, look at the gasket and put it on again: the hiss is back.",
        ..Sheet::of(FaultPlace::Mounting)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("leak_mm2", self.leak_mm2, 2.0..=40.0, "mm2")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.mounting.warped_leak_mm2 = self.leak_mm2;
    }
}

pub(super) struct GasketFlattened {
    pub(super) gasket: Gasket,
    pub(super) leak_mm2: f64,
}

impl Declared for GasketFlattened {
    const USUAL: Self = Self { gasket: Gasket::Holder, leak_mm2: 8.0 };
    const SHEET: Sheet = Sheet {
        title: "a flattened gasket",
        in_short: "a gasket (Holder or Calibrator) has gone flat and hard: effective area of a leak \
                   that no nut closes",
        cause: "Years of pressure and heat have flattened the gasket, and its rubber has hardened.",
        sign: "It is flat and shiny when it is uncovered. With the blower running, air hisses in there \
               however tight the nuts are.",
        check: "Press a thumbnail into each gasket before it is covered; cover the openings and listen.",
        put_right: PutRight::GasketRenewed,
        ..CLOSABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("leak_mm2", self.leak_mm2, 2.0..=30.0, "mm2")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.mounting.flattened = Some((self.gasket, self.leak_mm2));
    }
}
