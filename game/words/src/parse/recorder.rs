//! The recorder: door, pen, chart.

use sim_core::session::action::Action;

use super::form::{Form, form, one, several};
use super::trouble::but;

/// Taps in one sentence, at most.
const MOST_TAPS: f64 = 20.0;

pub(super) const FORMS: &[Form] = &[
    form(&["uncap pen", "take cap off pen?", "take pen cap off"], &["uncap pen"], "", |_, _| {
        one(Action::UncapPen)
    }),
    form(
        &["lower pen", "put pen down? on? paper?", "lower pen onto|to paper"],
        &["lower pen"],
        "onto the paper",
        |_, _| one(Action::LowerPen),
    ),
    form(
        &["tap recorder|case|it|pen? <times>"],
        &["tap three times"],
        "to bring the pen to rest",
        |caught, _| {
            let times = caught.number()?;
            if times.fract() != 0.0 || !(1.0..=MOST_TAPS).contains(&times) {
                return but("tap 1 to 20 times: say `tap three times`");
            }
            several(vec![Action::Tap; times as usize])
        },
    ),
    form(
        &["fit|change|replace new|fresh? chart", "put new|fresh? chart in|on"],
        &["fit chart"],
        "a fresh one, with the present hour under the pen",
        |_, _| one(Action::FitChart),
    ),
    form(&["tap recorder|case|it|pen?"], &["tap"], "the recorder's case", |_, _| one(Action::Tap)),
    form(&["cap pen", "put cap on pen?", "put pen cap on"], &["cap pen"], "", |_, _| {
        one(Action::CapPen)
    }),
    form(&["lift|raise pen off? paper?"], &["lift pen"], "off the paper", |_, _| {
        one(Action::LiftPen)
    }),
    form(&["open recorder? door", "open recorder"], &["open door"], "of the recorder", |_, _| {
        one(Action::OpenDoor)
    }),
    form(
        &["close|shut recorder? door", "close|shut recorder"],
        &["close door"],
        "of the recorder",
        |_, _| one(Action::CloseDoor),
    ),
    form(
        &[
            "turn chart|hub <on-back> by? <chart-minutes>",
            "turn chart|hub by? <chart-minutes> <on-back>",
        ],
        &["turn chart forward 15 min", "turn chart back 15 min"],
        "in minutes of the chart",
        |caught, _| one(Action::TurnChart { minutes: caught.sense()? * caught.number()? }),
    ),
    form(
        &["set|turn pen? zero screw? <up-down> by? <divisions>"],
        &["set pen zero up 0.5", "set pen zero down 0.5"],
        "with its zero screw, in chart divisions",
        |caught, _| one(Action::SetPenZero { by: caught.sense()? * caught.number()? }),
    ),
    form(
        &["mark chart with|as? <text>"],
        &["mark chart \"1\""],
        "write a label beside the trace",
        |caught, _| one(Action::MarkChart { label: caught.said()? }),
    ),
];
