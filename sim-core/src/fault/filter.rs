//! Faults of the filter of a run: what is wrong with a fresh one, how it comes to lie, and what the
//! air brings.

use super::declared::{Declared, Site};
use super::onset::Onset;
use super::remedy::PutRight;
use super::report::FaultPlace;
use super::report::Response::{Noted, Rejected, Repaired};
use super::sheet::{Arises, Sheet};
use super::size::Size;
use crate::rig::parts::FilterSide;

/// How long a dust event lasts, h (CHOSEN).
const DUST_EVENT_H: f64 = 4.0;

/// A fresh filter that must not be used.
const UNUSABLE: Sheet = Sheet {
    arises: Arises::FromTheStart,
    right: &[Rejected],
    put_right: PutRight::AnotherFilterFitted,
    ..Sheet::of(FaultPlace::Filter)
};

pub(super) struct FilterTorn {
    pub(super) area_mm2: f64,
}

impl Declared for FilterTorn {
    const USUAL: Self = Self { area_mm2: 80.0 };
    const SHEET: Sheet = Sheet {
        title: "a torn filter",
        in_short: "the first fresh filter is torn, which is visible in the hand: effective area \
                   of the tear",
        cause: "The filter was folded or bent before it arrived, and its fibres gave way.",
        sign: "The tear is visible in the hand. Once the filter is fitted, air goes by unfiltered; \
               flow and trace show nothing of it while the controller holds the flow.",
        check: "Hold every filter against the light before it is fitted; take another.",
        ..UNUSABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_mm2", self.area_mm2, 20.0..=200.0, "mm2")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.next_sheet.holes_mm2 = self.area_mm2;
    }
}

pub(super) struct FilterPinholes {
    pub(super) area_mm2: f64,
}

impl Declared for FilterPinholes {
    const USUAL: Self = Self { area_mm2: 3.0 };
    const SHEET: Sheet = Sheet {
        title: "a filter with pinholes",
        in_short: "the first fresh filter has pinholes, visible only against the light: their \
                   effective area",
        cause: "The filter was made too thin or unevenly.",
        sign: "Against the sky or a lamp it shows points of light; otherwise it looks sound.",
        check: "Hold every filter against the light before it is fitted; take another.",
        ..UNUSABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("area_mm2", self.area_mm2, 0.5..=15.0, "mm2")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.next_sheet.holes_mm2 = self.area_mm2;
    }
}

pub(super) struct FilterUpsideDown;

impl Declared for FilterUpsideDown {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a filter with its smooth side up",
        right: &[Repaired],
        in_short: "the first fresh filter comes out of its envelope with the smooth side up",
        cause: "The filter was put into its envelope the wrong way round.",
        sign: "The side that faces up is smooth; the rough side is made to face the air.",
        check: "Look at the face of the filter in your hand, and turn it over before you lay it on the \
                holder.",
        put_right: PutRight::RoughSideUp,
        ..UNUSABLE
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.next_sheet.up = FilterSide::Smooth;
    }
}

pub(super) struct FilterOffCentre;

impl Declared for FilterOffCentre {
    const USUAL: Self = Self;
    const SHEET: Sheet = Sheet {
        title: "a filter off centre",
        right: &[Repaired],
        in_short: "the hold-down frame pushes the filter aside when it is first laid on it: one \
                   margin is bare",
        cause: "The hold-down frame pushed the filter aside as it was laid on it.",
        sign: "One margin under the frame is bare, and air goes by there.",
        check: "Look at all four margins with the frame on and the nuts still off; lift the frame and \
                centre the filter.",
        put_right: PutRight::FilterCentred,
        ..UNUSABLE
    };

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.frame_shifts = true;
    }
}

pub(super) struct FilterWet {
    pub(super) factor: f64,
}

impl Declared for FilterWet {
    const USUAL: Self = Self { factor: 1.6 };
    const SHEET: Sheet = Sheet {
        title: "a wet filter",
        in_short: "the first fresh filter is damp: its resistance over that of a dry one",
        cause: "The folder of filters lay in dew or rain.",
        sign: "It feels damp and heavy. Less air passes until it has dried, and its mass is no longer \
               the one recorded.",
        check: "Feel it as it comes out of the folder; take another.",
        ..UNUSABLE
    };

    fn size(&self) -> Option<Size> {
        Size::positive("factor", self.factor, 1.2..=2.5, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.rig.next_sheet.wetness = self.factor;
    }
}

pub(super) struct FilterClogs {
    pub(super) factor: f64,
}

impl Declared for FilterClogs {
    const USUAL: Self = Self { factor: 250.0 };
    const SHEET: Sheet = Sheet {
        arises: Arises::DuringRun,
        title: "a clogged filter",
        right: &[Noted, Rejected],
        in_short: "for four hours the air carries this many times the usual dust, which loads \
                   the filter; begins during the run",
        cause: "Hours of heavy dust load the filter until the blower no longer holds the flow even at \
                full voltage.",
        sign: "The trace is level, falls, and stays low to the end; the filter is dark. Where the \
               ordered flow leaves the blower much in reserve, the controller makes up for it.",
        check: "Read the chart from one end to the other, and work out the volume in parts where the \
                trace falls by more than a tenth.",
        begins: Onset::AfterRunHours(6.0),
        ..Sheet::of(FaultPlace::Filter)
    };

    fn size(&self) -> Option<Size> {
        Size::positive("factor", self.factor, 3.0..=400.0, "")
    }

    fn begin(&self, site: &mut Site<'_>) {
        site.station.raise_dust(self.factor, DUST_EVENT_H);
    }
}
