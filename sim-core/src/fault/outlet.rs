//! Trouble with the outlet on the roof.

use super::declared::{Declared, Site};
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;

pub(super) struct GroundFaultTrips {
    pub(super) after_min: f64,
}

impl Declared for GroundFaultTrips {
    const USUAL: Self = Self { after_min: 4.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::FromTheStart,
        title: "a tripped ground-fault protection",
        right: &[Repaired, Rejected],
        in_short: "the outlet is dead: its ground-fault protection has tripped over a damaged cord, \
                   and trips again after this much running until the cord is changed",
        cause: "The sheath of the extension cord is cut, and rain has crept in: current leaks to earth, \
                and the protection cuts the outlet off.",
        sign: "The button of the outlet stands out, nothing runs, and the sheath of the cord is cut.",
        check: "Look along the whole cord before you press the button. Pressed once on the same cord, \
                it trips again while the blower runs.",
        put_right: PutRight::CordChanged,
        ..Sheet::of(FaultPlace::Blower)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("after_min", self.after_min, 1.0..=60.0, "min")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.ground_fault.trip(60.0 * self.after_min);
    }
}
