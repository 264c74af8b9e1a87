//! Faults of the recorder, its line and its chart.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] = &[
    &PEN_STICKS,
    &PEN_ZERO_OFF,
    &PEN_DRY,
    &LINE_LEAKS,
    &EXIT_ORIFICE_BLOCKED,
    &CHART_OF_ANOTHER_RANGE,
    &CHART_CLOCK_SLOW,
];

/// A fault of the recorder.
const SHEET: Sheet = Sheet {
    name: "",
    place: FaultPlace::Recorder,
    arises: Arises::AtAnyTime,
    title: "",
    right: &[Rejected, Noted],
    cause: "",
    sign: "",
    check: "",
    usual: Fault::PenDry,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const PEN_STICKS: Sheet = Sheet {
    name: "PenSticks",
    arises: Arises::ComesAndGoes,
    title: "a sticking pen",
    right: &[Corrected, Noted, Repaired, Rejected],
    cause: "Dirt in the linkage gives it play and friction: the pen stays behind the bellows.",
    sign: "The pen jumps by more than a division when the case is tapped after a change of flow.",
    check: "Tap until it no longer moves; a pen that rests after three taps can be read.",
    usual: Fault::PenSticks { play_inh2o: 0.4 },
    ..SHEET
};

pub(in crate::fault) const PEN_ZERO_OFF: Sheet = Sheet {
    name: "PenZeroOff",
    title: "a pen off its zero",
    right: &[Repaired, Corrected],
    cause: "The zero screw was turned, or the pen's arm was bent.",
    sign: "With the blower off the tapped pen does not stand at zero. One that is too low rests on \
           its stop and looks right.",
    check: "Tap with the blower off; raise a pen that lies on its stop until it moves.",
    usual: Fault::PenZeroOff { divisions: -1.5 },
    ..SHEET
};

pub(in crate::fault) const PEN_DRY: Sheet = Sheet {
    name: "PenDry",
    arises: Arises::ComesAndGoes,
    title: "a dry pen",
    right: &[Repaired, Noted, Rejected],
    cause: "The ink has dried in the nib.",
    sign: "No trace behind the pen, though it is uncapped and on the paper.",
    check: "Look at the chart after a few minutes.",
    ..SHEET
};

pub(in crate::fault) const LINE_LEAKS: Sheet = Sheet {
    name: "RecorderLineLeaks",
    arises: Arises::ComesAndGoes,
    title: "a leaking recorder line",
    cause: "The line between the exhaust and the bellows is split; part of the pressure is lost.",
    sign: "The pen is low by the same part at every flow; the line's slope is small against the \
           last one.",
    check: "Hold the line against the last one and the flow fully open against what such a blower \
            usually draws: the recorder is the further off.",
    usual: Fault::RecorderLineLeaks { ratio: 0.4 },
    ..SHEET
};

pub(in crate::fault) const EXIT_ORIFICE_BLOCKED: Sheet = Sheet {
    name: "ExitOrificeBlocked",
    title: "a partly blocked exit orifice",
    cause: "Dirt or an insect's nest narrows the orifice of the exhaust: the same flow makes more \
            pressure before it.",
    sign: "The pen is high by the same part at every flow, and a little less flows; the line's \
           slope is large against the last one.",
    check: "Hold the line against the last one and the flow fully open against what such a blower \
            usually draws: the recorder is the further off.",
    usual: Fault::ExitOrificeBlocked { area_pct: 8.0 },
    ..SHEET
};

pub(in crate::fault) const CHART_OF_ANOTHER_RANGE: Sheet = Sheet {
    name: "ChartOfAnotherRange",
    arises: Arises::FromTheStart,
    title: "charts of another range",
    right: &[Corrected, Noted, Rejected],
    cause: "The box of charts was filled with those of another recorder: on the same width another \
            number of divisions is printed.",
    sign: "The last printed division is not 70. Every reading is larger or smaller by the same \
           part, and the line's slope and intercept with it.",
    check: "Read what is printed at the chart's rim. As long as the run is read on the same \
            charts, its volume is right; only the last line cannot be compared as it stands.",
    usual: Fault::ChartOfAnotherRange { pct: 40.0 },
    ..SHEET
};

pub(in crate::fault) const CHART_CLOCK_SLOW: Sheet = Sheet {
    name: "ChartClockSlow",
    title: "a slow chart clock",
    right: &[Noted, Corrected, Rejected],
    cause: "The clock under the chart wants oil, or its spring is weak.",
    sign: "The hour under the pen falls behind the watch.",
    check: "Set the chart by the watch, and compare both again after half an hour.",
    usual: Fault::ChartClockSlow { pct: 5.0 },
    ..SHEET
};
