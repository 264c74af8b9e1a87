//! Faults of what is in the manometer: ice, too little, dirt.

use super::declared::{Declared, Site};
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::Repaired;
use super::sheet::{Arises, Sheet};
use super::size::Size;

/// A fault of the filling, which is there when the manometer comes out of its case.
const FILLING: Sheet =
    Sheet { arises: Arises::FromTheStart, right: &[Repaired], ..Sheet::of(FaultPlace::Manometer) };

pub(super) struct ManometerFrozen;

impl Declared for ManometerFrozen {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a frozen manometer",
        in_short: "the water is ice when the manometer comes out of its case; it thaws in mild air, and \
                   freezes again in frost",
        cause: "Water was left in it overnight, and froze.",
        sign: "The legs are white and cracked. Blowing into the tubing does not move anything.",
        check: "Look at the glass, and blow into the tubing. Thaw it in the van and fill it anew; in \
                frost, fill it with antifreeze.",
        put_right: PutRight::ManometerThawed,
        contradicts: &["ManometerDirtyWater"],
        ..FILLING
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.freeze_through();
    }
}

pub(super) struct ManometerLowWater {
    pub(super) below_mm: f64,
}

impl Declared for ManometerLowWater {
    const USUAL: Self = Self { below_mm: 25.0 };
    const SHEET: Sheet = Sheet {
        title: "too little water in the manometer",
        in_short: "the water stands this far below the fill mark until it is topped up",
        cause: "Water dried out or was spilled, and nobody topped it up.",
        sign: "With both ends open both legs stand below the fill mark. Far below it, the scale cannot \
               be moved to them, and at the highest flow the right leg leaves the scale.",
        check: "Compare both legs at rest with the fill mark. Top it up, and zero it again.",
        put_right: PutRight::ManometerFilled,
        ..FILLING
    };

    fn size(&self) -> Option<Size> {
        Size::positive("below_mm", self.below_mm, 5.0..=80.0, "mm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.lose_fluid(self.below_mm);
    }
}

pub(super) struct ManometerDirtyWater {
    pub(super) clings_mm: f64,
}

impl Declared for ManometerDirtyWater {
    const USUAL: Self = Self { clings_mm: 2.0 };
    const SHEET: Sheet = Sheet {
        title: "dirty water in the manometer",
        in_short: "dirt on the glass holds each meniscus back by up to this height until the water is \
                   changed",
        cause: "The water and the glass are dirty, so that the meniscus clings to the glass.",
        sign: "The water is cloudy, and drops hang on the glass above it. Each meniscus stops short on \
               its way, so that the legs are not level with both ends open.",
        check: "Look at the glass above the meniscus; blow into the tubing and see whether both legs come \
                back to the same level. Change the water.",
        put_right: PutRight::ManometerFluidChanged,
        ..FILLING
    };

    fn size(&self) -> Option<Size> {
        Size::positive("clings_mm", self.clings_mm, 0.5..=6.0, "mm")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.manometer.soil(self.clings_mm);
    }
}
