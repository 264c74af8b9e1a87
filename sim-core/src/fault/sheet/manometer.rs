//! Faults of the manometer and its valves.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};
use crate::rig::parts::Leg;

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[
    &VALVE_LEAKS,
    &VALVE_BARELY_OPENS,
    &VALVE_SHUT,
    &BUBBLE,
    &OUT_OF_PLUMB,
    &WRONG_FLUID,
    &SCALE_STUCK,
    &UNEQUAL_BORES,
];

/// A fault of the manometer that any answer but a repair on the roof may meet.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Manometer,
    arises: Arises::AtAnyTime,
    title: "",
    right: &[Rejected],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::ManometerScaleStuck,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const VALVE_LEAKS: Sheet = Sheet {
    name: "ManometerValveLeaks",
    title: "a leaking manometer valve",
    cause: "The plug of a valve no longer seals against its seat, and air comes in beside it.",
    sign: "Every column is short by the same part; the points still lie on a line, and only its \
           distance from the last line shows it. On the leg that is open to the air it changes no \
           reading.",
    check: "Shut the left valve while the blower holds the column up: behind a tight valve it \
            stands for minutes, beside a leak it sinks within seconds.",
    usual: Fault::ManometerValveLeaks { leg: Leg::Left, ratio: 0.2 },
    ..SHEET
};

pub(in crate::fault) const VALVE_BARELY_OPENS: Sheet = Sheet {
    name: "ManometerValveBarelyOpens",
    title: "a manometer valve that hardly opens",
    cause: "The stem turns, but the plug sticks to its seat and lifts by a hair only.",
    sign: "A breath into the tube hardly moves the water, and after every change of the flow the \
           column creeps for a minute or more. Left alone long enough it reads right.",
    check: "Blow gently into the tube: in a sound manometer the water dips by more than an inch at \
            once.",
    usual: Fault::ManometerValveBarelyOpens { leg: Leg::Left, passes: 0.02 },
    ..SHEET
};

pub(in crate::fault) const VALVE_SHUT: Sheet = Sheet {
    name: "ManometerValveShut",
    title: "a manometer valve that stays shut",
    cause: "The stem has broken off its plug: it turns, and the plug stays on its seat.",
    sign: "A breath does not move the water, or only makes it twitch where the far leg is shut; \
           the column does not follow the knob.",
    check: "Blow gently into the tube: in a sound manometer the water dips by more than an inch at \
            once.",
    usual: Fault::ManometerValveShut { leg: Leg::Left },
    ..SHEET
};

pub(in crate::fault) const BUBBLE: Sheet = Sheet {
    name: "ManometerBubble",
    title: "a bubble in the manometer",
    right: &[Rejected, Corrected],
    cause: "Air was shaken into the bend and lengthens the column on the left side.",
    sign: "A bubble is seen in the bend. With both ends open the left leg stands higher by its \
           length, and the water is sluggish.",
    check: "Look at the bend, and at both legs at rest with both ends open to the air.",
    usual: Fault::ManometerBubble { length_mm: 5.0 },
    ..SHEET
};

pub(in crate::fault) const OUT_OF_PLUMB: Sheet = Sheet {
    name: "ManometerOutOfPlumb",
    title: "a manometer out of plumb",
    right: &[Repaired],
    cause: "The hook is bent, so that the manometer comes to hang askew.",
    sign: "It stands off the plumb line, and with both ends open its legs are not level.",
    check: "Hold it against the plumb line; swing it upright.",
    usual: Fault::ManometerOutOfPlumb { tilt_deg: 5.0 },
    ..SHEET
};

pub(in crate::fault) const WRONG_FLUID: Sheet = Sheet {
    name: "ManometerWrongFluid",
    arises: Arises::FromTheStart,
    title: "a wrong fluid",
    right: &[Rejected, Corrected],
    cause: "It was filled with something that is not water, such as a light gauge oil.",
    sign: "Every column is longer (a light fluid) or shorter (a heavy one) by the same part; the \
           points still lie on a line, far from the last one.",
    check: "Hold the line against the last one and the flow fully open against what such a blower \
            usually draws: the manometer is the further off.",
    usual: Fault::ManometerWrongFluid { relative_density: 0.83 },
    ..SHEET
};

pub(in crate::fault) const SCALE_STUCK: Sheet = Sheet {
    name: "ManometerScaleStuck",
    arises: Arises::ComesAndGoes,
    title: "a stuck scale",
    right: &[Corrected, Rejected, Noted],
    cause: "Dirt or a bent rail holds the scale where it was left.",
    sign: "The scale does not slide to the menisci: one leg reads high by as much as the other \
           reads low.",
    check: "Try to slide it. Both legs read and added are right all the same.",
    usual: Fault::ManometerScaleStuck,
    ..SHEET
};

pub(in crate::fault) const UNEQUAL_BORES: Sheet = Sheet {
    name: "ManometerUnequalBores",
    arises: Arises::FromTheStart,
    title: "limbs of unequal bore",
    right: &[Corrected, Rejected, Noted],
    cause: "A limb was replaced by glass of another bore; the left one is wider.",
    sign: "One leg rises less than the other falls.",
    check: "Compare rise and fall at the largest flow. Their sum is right all the same.",
    usual: Fault::ManometerUnequalBores { wider_mm: 0.5 },
    ..SHEET
};
