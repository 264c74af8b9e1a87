//! Faults of the flow controller. The calibration is made without it: they show when the sampler
//! runs on it again.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Noted, Rejected};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[&DRIFTS, &PROBE_FOULED, &SATURATES];

/// A fault of the controller.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::FlowController,
    arises: Arises::AtAnyTime,
    title: "",
    right: &[Noted, Rejected],
    cause: "",
    sign: "",
    check: "Run the sampler on its controller for a minute, turn the pen's reading into a flow by \
            the own line, and hold it against what the trim screw is set to.",
    usual: Fault::ControllerDrifts { k_h: 2.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const DRIFTS: Sheet = Sheet {
    name: "ControllerDrifts",
    title: "a flow controller that drifts",
    cause: "Damp creeps into the sensor that tells the probe how warm the air is. One that reads \
            high makes the probe too hot: the controller takes the flow for larger than it is.",
    sign: "On the controller the pen does not stand where the trim screw puts it, and each hour it \
           is further off.",
    ..SHEET
};

pub(in crate::fault) const PROBE_FOULED: Sheet = Sheet {
    name: "ControllerProbeFouled",
    title: "a fouled flow probe",
    cause: "Dust on the hot probe keeps the air from cooling it: the controller takes the flow for \
            smaller than it is, and holds too much.",
    sign: "On the controller the pen stands higher than the trim screw puts it.",
    usual: Fault::ControllerProbeFouled { share: 0.05 },
    ..SHEET
};

pub(in crate::fault) const SATURATES: Sheet = Sheet {
    name: "ControllerSaturates",
    title: "a flow controller that saturates",
    cause: "Its power stage no longer gives the whole line voltage: the motor is short of speed, \
            the more so the more the filter holds back.",
    sign: "On the controller the pen stands lower than the trim screw puts it, and turning the \
           screw up does not raise it.",
    usual: Fault::ControllerSaturates { lost_v: 50.0 },
    ..SHEET
};
