//! Faults of the blower and its supply. None of them spoils a calibration that is read at rest:
//! manometer and recorder see the same flow. A power cut is one of the run.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] =
    &[&WORN_BRUSHES, &WANDERING_VOLTAGE, &LOW_VOLTAGE, &BEARING_DRAG, &POWER_CUT];

/// A fault of the blower.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Blower,
    arises: Arises::ComesAndGoes,
    title: "",
    right: &[Noted, Rejected],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::WornBrushes { added_ohm: 1.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const WORN_BRUSHES: Sheet = Sheet {
    name: "WornBrushes",
    title: "worn brushes",
    cause: "Short brushes press less on the commutator and add resistance.",
    sign: "The blower's sound wavers and its pitch is low; less flows fully open.",
    check: "Listen; hold the flow fully open against what such a blower usually draws.",
    ..SHEET
};

pub(in crate::fault) const WANDERING_VOLTAGE: Sheet = Sheet {
    name: "WanderingVoltage",
    title: "wandering mains",
    cause: "The outlet hangs on a generator, or on a line with a large load that comes and goes.",
    sign: "The blower's sound wavers; pen and column move together and do not come to rest.",
    check: "Watch the pen for two minutes with nothing touched.",
    usual: Fault::WanderingVoltage { sd_v: 2.0 },
    ..SHEET
};

pub(in crate::fault) const LOW_VOLTAGE: Sheet = Sheet {
    name: "LowVoltage",
    title: "low mains voltage",
    cause: "A long thin extension cord, or a weak supply.",
    sign: "The pitch is low, and less flows fully open than such a blower usually draws.",
    check: "Manometer and recorder agree that little flows: then it is the blower.",
    usual: Fault::LowVoltage { by_v: 15.0 },
    ..SHEET
};

pub(in crate::fault) const BEARING_DRAG: Sheet = Sheet {
    name: "BearingDrag",
    title: "dragging bearings",
    cause: "The bearings' grease is gone, and friction takes part of the torque.",
    sign: "Switched off, the rotor stands after half the usual time; running, its pitch is a little \
           low.",
    check: "Time it from the switch until it stands.",
    usual: Fault::BearingDrag { factor: 2.0 },
    ..SHEET
};

pub(in crate::fault) const POWER_CUT: Sheet = Sheet {
    name: "PowerCut",
    arises: Arises::DuringRun,
    title: "a power cut",
    right: &[Noted, Corrected, Rejected],
    cause: "The supply fails while nobody is there, and comes back by itself.",
    sign: "The trace falls to zero and rises again; the timer's dial stood still meanwhile, so it is \
           behind the watch, and the run ends later by as much.",
    check: "Hold the dial against the watch on coming back, and look for a gap in the trace.",
    usual: Fault::PowerCut { minutes: 45.0 },
    begins: Onset::AfterRunHours(7.0),
    ..SHEET
};
