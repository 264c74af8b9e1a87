//! Faults of the timer that begins and ends a run.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[&TRIPPER_LOOSE, &GAINS, &WRONG_DAY];

/// A fault of the timer.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Timer,
    arises: Arises::FromTheStart,
    title: "",
    right: &[Repaired],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::TimerWrongDay,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const TRIPPER_LOOSE: Sheet = Sheet {
    name: "TripperLoose",
    title: "a loose tripper",
    cause: "The screw of the off tripper does not hold it on the rim of the dial.",
    sign: "It gives way under the finger. Left so, it slides while the dial turns, and the run ends \
           at another hour.",
    check: "Press against each tripper when it is set, and tighten its screw.",
    usual: Fault::TripperLoose { by_h: -2.0 },
    ..SHEET
};

pub(in crate::fault) const GAINS: Sheet = Sheet {
    name: "TimerGains",
    title: "a timer that gains",
    right: &[Noted, Corrected, Rejected],
    cause: "Its clockwork runs fast.",
    sign: "On coming back the dial is ahead of the watch, and the meter says that the run was short.",
    check: "Set the dial by the watch, and compare both again on coming back; the minutes are the \
            meter's.",
    usual: Fault::TimerGains { pct: 2.0 },
    ..SHEET
};

pub(in crate::fault) const WRONG_DAY: Sheet = Sheet {
    name: "TimerWrongDay",
    title: "a timer set to another day",
    cause: "Whoever was there last left the dial a day ahead.",
    sign: "The day under the pointer is not today's.",
    check: "Set the dial's day and hour by the watch before the trippers are set.",
    ..SHEET
};
