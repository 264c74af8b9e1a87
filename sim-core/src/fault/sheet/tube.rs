//! Faults of the tube between tap and manometer.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[&KINKED, &CRACKED, &LOOSE, &WET];

/// A fault of the tube that is put right on the roof.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Tube,
    arises: Arises::AtAnyTime,
    title: "",
    right: &[Repaired],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::TubeKinked,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const KINKED: Sheet = Sheet {
    name: "TubeKinked",
    title: "a kinked tube",
    cause: "The tube is bent over sharply; pressure creeps past the kink.",
    sign: "A kink is seen. The column follows each flow with a delay of many seconds.",
    check: "Run the eye and the hand along the tube; straighten it and watch the column.",
    ..SHEET
};

pub(in crate::fault) const CRACKED: Sheet = Sheet {
    name: "TubeCracked",
    title: "a cracked tube",
    right: &[Rejected],
    cause: "Old rubber has cracked and lets air in.",
    sign: "Every column is short by the same part. The crack is seen from close by.",
    check: "Bend the tube between the fingers and look along it.",
    usual: Fault::TubeCracked { ratio: 0.2 },
    ..SHEET
};

pub(in crate::fault) const LOOSE: Sheet = Sheet {
    name: "TubeLoose",
    title: "a tube that sits loosely on the tap",
    cause: "The tube's end has hardened: after one push it sits half on the tap and lets air in.",
    sign: "It is seen to sit half on. Every column is short by the same part.",
    check: "Look at the tap; pull the tube off and push it on again, and watch the column rise.",
    usual: Fault::TubeLoose { ratio: 0.2 },
    ..SHEET
};

pub(in crate::fault) const WET: Sheet = Sheet {
    name: "TubeWet",
    title: "water in the tube",
    cause: "Water was blown over and stands in a low bend, which holds back its own height.",
    sign: "Drops are seen. Every column is short by the same length, so that the line is bent.",
    check: "Look along the tube; take it off the tap and shake it out.",
    usual: Fault::TubeWet { height_in: 0.4 },
    ..SHEET
};
