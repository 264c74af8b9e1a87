//! The recorder: door, pen, chart.

use sim_core::rig::parts::LineCare;
use sim_core::session::action::Action;

use super::form::{Built, Form, Known, form, one, several};
use super::trouble::but;

/// Taps in one sentence, at most.
const MOST_TAPS: f64 = 20.0;

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "uncap pen",
            "take|pull|get cap off pen?",
            "take|pull|get pen cap off",
            "take|pull off cap|pen cap|off?",
            "remove pen? cap from? pen?",
        ],
        &["uncap pen"],
        "",
        |_, _| one(Action::UncapPen),
    ),
    form(
        &[
            "lower pen",
            "put pen down? on? paper?",
            "lower pen onto|to|on paper|chart",
            "put|bring|set|let pen down? on|onto|to paper|chart",
            "bring|set|let pen down",
            "put|bring|set|let down pen",
        ],
        &["lower pen"],
        "onto the paper",
        |_, _| one(Action::LowerPen),
    ),
    form(
        &["tap on? chart? recorder|case|it|pen? case? <times>"],
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
        &[
            "fit|change|replace|load|mount|insert new|fresh? chart paper?",
            "put new|fresh? chart paper? in|on",
            "put in|on new|fresh? chart paper?",
        ],
        &["fit chart"],
        "a fresh one, with the present hour under the pen",
        |_, _| one(Action::FitChart),
    ),
    form(
        &[
            "tap on? chart? recorder|case|it|pen? case|door?",
            "give chart? recorder|case|it tap|knock|rap",
            "knock|rap on? chart? recorder|case|it",
        ],
        &["tap"],
        "the recorder's case",
        |_, _| one(Action::Tap),
    ),
    form(
        &[
            "cap|recap pen",
            "put cap back? on pen?",
            "put pen cap back? on",
            "put back? on cap|pen cap?",
        ],
        &["cap pen"],
        "",
        |_, _| one(Action::CapPen),
    ),
    form(
        &[
            "lift|raise|take|pull pen up? off|from? paper|chart?",
            "lift|raise up? pen off? paper|chart?",
        ],
        &["lift pen"],
        "off the paper",
        |_, _| one(Action::LiftPen),
    ),
    form(
        &[
            "open chart|flow? recorder? door",
            "open chart|flow? recorder",
            "open door recorder",
            "open door chart|flow recorder",
        ],
        &["open door"],
        "of the recorder",
        |_, _| one(Action::OpenDoor),
    ),
    form(
        &[
            "close|shut chart|flow? recorder? door",
            "close|shut chart|flow? recorder",
            "close|shut door recorder",
            "close|shut door chart|flow recorder",
        ],
        &["close door"],
        "of the recorder",
        |_, _| one(Action::CloseDoor),
    ),
    form(
        &[
            "turn chart|hub <on-back> by? <chart-minutes>",
            "turn chart|hub by? <chart-minutes> <on-back>",
            "advance chart|hub by? <chart-minutes>",
            "turn|set|move chart|hub <on-back> by? <chart-minutes>",
        ],
        &["turn chart forward 15 min", "turn chart back 15 min"],
        "in minutes of the chart",
        |caught, _| {
            one(Action::TurnChart { minutes: caught.sense().unwrap_or(1.0) * caught.number()? })
        },
    ),
    form(
        &[
            "set|turn|adjust pen? zero screw? <up-down> by? <divisions>",
            "set|turn|adjust|move pen zero? screw? <up-down> by? <divisions> with zero? screw",
            "set|turn|adjust|move pen zero? <up-down> by? <divisions> at|on|using zero? screw",
        ],
        &["set pen zero up 0.5", "set pen zero down 0.5"],
        "with its zero screw, in chart divisions",
        |caught, _| one(Action::SetPenZero { by: caught.sense()? * caught.number()? }),
    ),
    form(
        &["mark chart with|as? <text>", "write <text> on|onto chart", "write <text> beside trace"],
        &["mark chart \"1\""],
        "write a label beside the trace",
        |caught, _| one(Action::MarkChart { label: caught.said()? }),
    ),
    form(
        &["make|put mark on chart", "make|put mark beside trace", "mark point"],
        &["make a mark on the chart"],
        "a plain stroke beside the trace",
        |_, _| one(Action::MarkChart { label: String::new() }),
    ),
    form(&["raise|lift pen zero by? <divisions>"], &[], "", |caught, _| {
        one(Action::SetPenZero { by: caught.number()? })
    }),
    form(&["lower|drop pen zero by? <divisions>"], &[], "", |caught, _| {
        one(Action::SetPenZero { by: -caught.number()? })
    }),
    form(&["set|bring pen to|on zero", "zero pen", "set pen zero"], &[], "", |_, known| {
        to_zero(known)
    }),
    form(&["turn chart", "turn chart <text>"], &[], "", |_, _| {
        but("say which way and how far: `turn chart forward 15 min`")
    }),
    form(
        &[
            "push|put|slip|connect|attach recorder tubing|tube|line|hose back? on|onto|to? its? \
             fitting|recorder?",
            "push|put|slip on recorder tubing|tube|line|hose",
            "push|put|slip tubing|tube|line|hose back? on|onto its? fitting",
        ],
        &["push recorder tubing onto its fitting"],
        "where it has slipped off",
        |_, _| one(Action::TendRecorderLine { how: LineCare::PushOn }),
    ),
    form(
        &[
            "straighten|unkink|smooth out? recorder tubing|tube|line|hose out?",
            "take|get|work|smooth kink out of|from? recorder tubing|tube|line|hose",
        ],
        &["straighten recorder tubing"],
        "where it is kinked",
        |_, _| one(Action::TendRecorderLine { how: LineCare::Straighten }),
    ),
    form(
        &[
            "drain|shake|empty|clear out? recorder tubing|tube|line|hose out?",
            "shake|get|let|drain water out of|from? recorder tubing|tube|line|hose",
        ],
        &["drain recorder tubing"],
        "where water stands in it",
        |_, _| one(Action::TendRecorderLine { how: LineCare::Drain }),
    ),
    form(
        &[
            "fit|put|mount|lay new|fresh recorder tubing|tube|line|hose",
            "change|replace|exchange|renew recorder tubing|tube|line|hose",
        ],
        &["fit new recorder tubing"],
        "a new piece from the van",
        |_, _| one(Action::TendRecorderLine { how: LineCare::Renew }),
    ),
];

/// Turns the zero screw by what the pen is seen to be off its zero, to a quarter of a division. It
/// means something only while the blower stands still.
fn to_zero(known: &Known) -> Built {
    if known.view.blower.loudness > 0.0 {
        return but("set the pen's zero while the blower stands still: say `stop blower` first");
    }
    let Some(pen) = known.view.recorder.pen else {
        return but("the pen's cap is on: say `uncap pen` first");
    };
    match -(pen * 4.0).round() / 4.0 {
        0.0 => but(
            "the pen stands at zero as far as it can be seen: raise it with `set pen zero up 1` \
                    to be sure that it does not rest on its stop, then bring it back",
        ),
        by => one(Action::SetPenZero { by }),
    }
}
