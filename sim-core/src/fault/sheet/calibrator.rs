//! Faults of the calibrator itself.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[&NICKED, &FOULED, &KNOB_SLIPS];

/// A fault of the calibrator with which it is sent in.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Calibrator,
    arises: Arises::AtAnyTime,
    title: "",
    right: &[Rejected],
    cause: "",
    sign: "",
    check: "Turn it to the light and look at the edge all the way round.",
    usual: Fault::OrificeNicked { area_pct: 4.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const NICKED: Sheet = Sheet {
    name: "OrificeNicked",
    title: "a nicked orifice",
    cause: "A knock has broken the sharp edge: more air passes at the same pressure drop than at \
            its certification.",
    sign: "A nick is seen at the edge. Flows come out too small, and the line is far from the \
           last one.",
    ..SHEET
};

pub(in crate::fault) const FOULED: Sheet = Sheet {
    name: "OrificeFouled",
    title: "a fouled orifice",
    cause: "Dirt has settled on the edge: less air passes at the same pressure drop than at its \
            certification.",
    sign: "Dirt is seen at the edge. Flows come out too large, and the line is far from the last \
           one.",
    usual: Fault::OrificeFouled { area_pct: 4.0 },
    ..SHEET
};

pub(in crate::fault) const KNOB_SLIPS: Sheet = Sheet {
    name: "KnobSlips",
    arises: Arises::ComesAndGoes,
    title: "a knob that slips",
    right: &[Noted, Corrected, Rejected],
    cause: "The knob's friction is gone, and the shaking blower turns it.",
    sign: "Pen and column drift together while nothing is touched, and the knob no longer stands \
           where it was set.",
    check: "Remember where the knob was set and look again after two minutes. Pen and column read \
            within a few seconds still belong together.",
    usual: Fault::KnobSlips { per_min: -0.01 },
    ..SHEET
};
