//! Faults of nuts, gaskets, washers and plates: all of them leaks past the calibrator.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};
use crate::rig::parts::Nut;

/// Every one of them.
pub(super) const ALL: &[&Sheet] =
    &[&CALIBRATOR_GASKET_MISSING, &HOLDER_GASKET_MISSING, &NUT_LOOSE, &WASHER_BELOW, &PLATE_WARPED];

/// A leak that is closed on the roof.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Mounting,
    arises: Arises::FromTheStart,
    title: "",
    right: &[Repaired],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::CalibratorGasketMissing { leak_mm2: 20.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const CALIBRATOR_GASKET_MISSING: Sheet = Sheet {
    name: "CalibratorGasketMissing",
    title: "no gasket under the calibrator",
    cause: "The gasket of the flange stayed behind with another crew.",
    sign: "The flange is bare when the calibrator is in the hand. Running, air hisses in under it; \
           the points lie on a line whose intercept has moved.",
    check: "Cover the openings: the pen stays well above its zero, and the hiss is under the \
            calibrator.",
    ..SHEET
};

pub(in crate::fault) const HOLDER_GASKET_MISSING: Sheet = Sheet {
    name: "HolderGasketMissing",
    title: "no gasket on the holder",
    cause: "The gasket of the holder has come off with a filter.",
    sign: "The holder is bare when the filter is out. Running, air hisses in at the plate's edge.",
    check: "Cover the openings: the pen stays well above its zero, and the hiss is at the edge.",
    usual: Fault::HolderGasketMissing { leak_mm2: 20.0 },
    ..SHEET
};

pub(in crate::fault) const NUT_LOOSE: Sheet = Sheet {
    name: "NutLoose",
    arises: Arises::DuringWork,
    title: "a nut that works loose",
    cause: "The running blower shakes a nut loose that looks as tight as the others.",
    sign: "Air hisses in beside it; the pen rises a little against the manometer.",
    check: "Listen from close by, blower off, and lay a hand on each nut.",
    usual: Fault::NutLoose { nut: Nut::ALL[1], leak_mm2: 15.0 },
    begins: Onset::AfterRunningMinutes(6.0),
    ..SHEET
};

pub(in crate::fault) const WASHER_BELOW: Sheet = Sheet {
    name: "WasherBelow",
    title: "a washer below the frame",
    cause: "Whoever changed the filter last dropped a washer under the frame; what is clamped \
            there next does not lie flat.",
    sign: "The washer is seen below. Running, air hisses in at the plate's edge.",
    check: "Look at all four washers before the plate goes on; cover the openings and listen.",
    usual: Fault::WasherBelow { nut: Nut::ALL[2], leak_mm2: 8.0 },
    ..SHEET
};

pub(in crate::fault) const PLATE_WARPED: Sheet = Sheet {
    name: "PlateWarped",
    arises: Arises::AtAnyTime,
    title: "a warped plate",
    right: &[Rejected],
    cause: "The adapter plate was overtightened once and no longer lies flat.",
    sign: "Air hisses in at the plate's edge although gasket, washers and nuts are in order.",
    check: "Take it off, look at the gasket, put it on again: the hiss is back.",
    usual: Fault::PlateWarped { leak_mm2: 10.0 },
    ..SHEET
};
