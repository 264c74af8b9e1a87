//! Faults of the filter of a run: what is wrong with a fresh one, how it comes to lie, and what the
//! air brings.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Noted, Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[&TORN, &PINHOLES, &UPSIDE_DOWN, &OFF_CENTRE, &WET, &CLOGS];

/// A fault of a fresh filter.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Filter,
    arises: Arises::FromTheStart,
    title: "",
    right: &[Rejected],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::FilterTorn { area_mm2: 80.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const TORN: Sheet = Sheet {
    name: "FilterTorn",
    title: "a torn filter",
    cause: "The sheet was folded or bent before it came, and its fibres gave way.",
    sign: "A tear in the hand. Once fitted, air goes by unfiltered; flow and trace show nothing of \
           it while the controller holds.",
    check: "Hold every filter against the light before it is fitted; take another.",
    ..SHEET
};

pub(in crate::fault) const PINHOLES: Sheet = Sheet {
    name: "FilterPinholes",
    title: "a filter with pinholes",
    cause: "The mat came thin or unevenly from its making.",
    sign: "Points of light against the sky or a lamp, and nothing without.",
    check: "Hold every filter against the light before it is fitted; take another.",
    usual: Fault::FilterPinholes { area_mm2: 3.0 },
    ..SHEET
};

pub(in crate::fault) const UPSIDE_DOWN: Sheet = Sheet {
    name: "FilterUpsideDown",
    title: "a filter with its smooth side up",
    right: &[Repaired],
    cause: "It was put into its envelope the wrong way round.",
    sign: "The side that is up is smooth; the rough one is made to meet the air.",
    check: "Look at the face in the hand, and turn it over before it is laid on the holder.",
    usual: Fault::FilterUpsideDown,
    ..SHEET
};

pub(in crate::fault) const OFF_CENTRE: Sheet = Sheet {
    name: "FilterOffCentre",
    title: "a filter off centre",
    right: &[Repaired],
    cause: "The frame pushed it aside as it was laid on it.",
    sign: "One margin under the frame is bare: air goes by there.",
    check: "Look at all four margins with the frame on and the nuts still off; lift the frame and \
            centre the filter.",
    usual: Fault::FilterOffCentre,
    ..SHEET
};

pub(in crate::fault) const WET: Sheet = Sheet {
    name: "FilterWet",
    title: "a wet filter",
    cause: "The folder lay in dew or rain.",
    sign: "It feels damp and heavy; less air passes, until it has dried, and its mass is no longer the \
           one that was written down.",
    check: "Feel it as it comes out of the folder; take another.",
    usual: Fault::FilterWet { factor: 1.6 },
    ..SHEET
};

pub(in crate::fault) const CLOGS: Sheet = Sheet {
    name: "FilterClogs",
    arises: Arises::DuringRun,
    title: "a filter that clogged",
    right: &[Noted, Rejected],
    cause: "Hours of much dust load the filter until the blower at full voltage no longer holds the \
            flow.",
    sign: "The trace is level, falls, and stays low to the end; the filter is dark. Where the ordered \
           flow leaves the blower much to spare, the controller makes up for it.",
    check: "Read the chart from one end to the other, and work out the volume in parts where it \
            falls by more than a tenth.",
    usual: Fault::FilterClogs { factor: 60.0 },
    begins: Onset::AfterRunHours(6.0),
    ..SHEET
};
