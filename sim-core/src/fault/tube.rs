//! Faults of the tubing between pressure tap and manometer.

use super::declared::{Declared, Site};
use super::remedy::{PutRight, Remedy};
use super::report::FaultPlace;
use super::report::Response::{Rejected, Repaired};
use super::sheet::Sheet;
use super::size::Size;

/// A fault of the tubing that is put right on the roof.
const REPAIRABLE: Sheet =
    Sheet { right: &[Repaired], remedy: Remedy::ClearTube, ..Sheet::of(FaultPlace::Tube) };

pub(super) struct TubeKinked;

impl Declared for TubeKinked {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "kinked tubing",
        in_short: "the tubing is kinked: pressure only creeps through until it is straightened",
        cause: "The tubing is bent over sharply, and pressure only creeps past the kink.",
        sign: "The kink is visible. The column follows each change of flow with a delay of many \
               seconds.",
        check: "Run your eye and your hand along the tubing; straighten it and watch the column.",
        put_right: PutRight::TubeStraightened,
        ..REPAIRABLE
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.tube.kink();
    }
}

pub(super) struct TubeCracked {
    pub(super) ratio: f64,
}

impl Declared for TubeCracked {
    const USUAL: Self = Self { ratio: 0.2 };
    const SHEET: Sheet = Sheet {
        title: "cracked tubing",
        right: &[Rejected],
        in_short: "the tubing is cracked: area of the crack over that of the bore",
        cause: "The rubber is old and cracked, and lets air in.",
        sign: "Every column is short by the same percentage. The crack is visible from close by.",
        check: "Bend the tubing between your fingers and look along it.",
        ..Sheet::of(FaultPlace::Tube)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("ratio", self.ratio, 0.02..=1.0, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.tube.crack(self.ratio);
    }
}

pub(super) struct TubeLoose {
    pub(super) ratio: f64,
}

impl Declared for TubeLoose {
    const USUAL: Self = Self { ratio: 0.2 };
    const SHEET: Sheet = Sheet {
        title: "tubing loose on the pressure tap",
        in_short: "the tubing sits only half on the pressure tap until it is pushed on again: \
                   area of the gap over that of the bore",
        cause: "The end of the tubing has hardened: after one push it sits only half on the pressure tap \
                and lets air in.",
        sign: "It visibly sits only half on. Every column is short by the same percentage.",
        check: "Look at the pressure tap; pull the tubing off, push it on again, and watch the column \
                rise.",
        put_right: PutRight::TubePushedOnAgain,
        ..REPAIRABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("ratio", self.ratio, 0.02..=1.0, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.tube.loosen(self.ratio);
    }
}

pub(super) struct TubeWet {
    pub(super) height_in: f64,
}

impl Declared for TubeWet {
    const USUAL: Self = Self { height_in: 0.4 };
    const SHEET: Sheet = Sheet {
        title: "water in the tubing",
        in_short: "water stands in a low bend of the tubing, this high, until it is shaken out",
        cause: "Water was blown over and stands in a low bend, which holds back a pressure of its own \
                height.",
        sign: "Drops are visible. Every column is short by the same length, so the calibration line is \
               curved.",
        check: "Look along the tubing; take it off the pressure tap and shake it out.",
        put_right: PutRight::TubeDrained,
        ..REPAIRABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("height_in", self.height_in, 0.1..=2.0, "in")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.tube.wet(self.height_in);
    }
}
