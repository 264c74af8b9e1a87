//! Looking, listening, and letting time pass.

use sim_core::session::action::{Action, Sight};

use super::form::{Form, form, one, several};
use super::trouble::but;
use crate::moves::{look_at, read_both_legs};
use crate::request::{Request, Settling};

/// The longest wait in one sentence, s: that of the action.
const LONGEST_WAIT_S: f64 = 7200.0;

pub(super) const FORMS: &[Form] = &[
    form(
        &["read manometer|u-tube|water|column|columns", "read both? legs|limbs manometer"],
        &[],
        "",
        |_, _| several(read_both_legs()),
    ),
    form(&["read chart"], &[], "", |_, _| one(look_at(Sight::Pen))),
    form(
        &[
            "look|inspect|examine|check|read|see at? <sight>",
            "look|inspect|examine|check|read|see at? <sight> at? eye? level",
            "look|inspect|examine|check|read|see|feel at? <sight> for <text>",
            "look|read over|through|along <sight>",
            "look <sight> over",
            "take|have look at <sight>",
            "take <sight> reading",
            "what is? <sight> doing?",
            "what does <sight> say|show|read",
            "where is|are <sight>",
            "how is|are <sight>",
        ],
        &[
            "look at manometer",
            "look at work order",
            "look at roof edge",
            "look at holder",
            "look at gasket",
            "look at watch",
            "read left leg",
            "read pen",
        ],
        "at eye level",
        |caught, _| one(look_at(caught.sight()?)),
    ),
    form(&["is manometer plumb|upright|level"], &[], "", |_, _| one(look_at(Sight::Manometer))),
    form(&["how warm|cold|hot is it"], &[], "", |_, _| one(look_at(Sight::Thermometer))),
    form(&["what time is it", "check time"], &[], "", |_, _| one(look_at(Sight::Watch))),
    form(
        &["check|look at? where cords|plugs go|are", "check what is plugged in"],
        &[],
        "",
        |_, _| one(look_at(Sight::Plugs)),
    ),
    form(&["compare line|lines|slope with|to last line|one|calibration?"], &[], "", |_, _| {
        one(look_at(Sight::WorkOrder))
    }),
    form(
        &[
            "look|read at? both? legs|limbs",
            "read both",
            "read left and right leg|limb|side",
            "check|see both legs|limbs",
        ],
        &["read both legs"],
        "left leg, then right leg",
        |_, _| several(read_both_legs()),
    ),
    form(
        &[
            "listen to? blower|motor|holder|sampler?",
            "listen for leaks|leak|hiss|hissing",
            "listen around|at|near|along holder|calibrator|plate|nuts|sampler|shelter?",
            "do you? hear any? hiss|hissing|leak|leaks|anything?",
            "can you? hear any? hiss|hissing|leak|leaks|anything?",
        ],
        &["listen"],
        "to the blower and around the holder",
        |_, _| one(Action::Listen),
    ),
    form(
        &[
            "have it|that read out|aloud",
            "read it|that out|aloud",
            "read it|that to me",
            "read in words",
        ],
        &["have it read out"],
        "what you look at, as a sharp eye reads it",
        |_, _| one(Action::ReadInWords),
    ),
    form(
        &[
            "wait for? <time>",
            "give it|them <time>",
            "let it|them|blower|motor|flow|pen|water|manometer|everything \
             settle|run|rest|stand|be|go for? <time>",
            "let it|blower|motor|sampler warm|run up|in? for? <time>",
            "hold|hang on for? <time>",
            "have|take coffee|break|rest for? <time>",
            "warm up? for? <time>",
        ],
        &["wait 5 min", "wait 30 s"],
        "let time pass, at most 2 h at once",
        |caught, _| {
            let seconds = caught.number()?;
            if seconds < 0.0 {
                return but("time only runs forward: say `wait 5 min`");
            }
            if seconds > LONGEST_WAIT_S {
                return but("you can wait 2 h at most at a time: say `wait 2 h` again for more");
            }
            Ok(Request::Wait(seconds))
        },
    ),
    form(
        &["look around?", "have|take look around?", "look around roof|station"],
        &["look"],
        "the whole station",
        |_, _| one(look_at(Sight::Station)),
    ),
    form(
        &["look|inspect|examine|check|read|see at? certificate|certificates <number>"],
        &["look at certificate 2"],
        "one of the certificates in the box",
        |caught, _| one(look_at(caught.certificate()?)),
    ),
    form(
        &[
            "look|read at? certificate <number> from? <millimetres> <above-below>",
            "look|read at? <sight> from? <millimetres> <above-below>",
        ],
        &["look at left leg from 10 mm above"],
        "with your eye off its level",
        |caught, _| {
            let eye_mm = caught.sense()? * last_number(caught)?;
            let at = caught.sight().or_else(|_| caught.certificate())?;
            one(Action::Look { at, eye_mm })
        },
    ),
    form(
        &["raise|lift eye|eyes by? <millimetres>"],
        &["raise eye 5 mm"],
        "keep looking, from higher up",
        |caught, known| {
            let eye_mm = known.view.eye_mm + caught.number()?;
            one(Action::Look { at: known.view.focus, eye_mm })
        },
    ),
    form(
        &["lower|drop eye|eyes by? <millimetres>"],
        &["lower eye 5 mm"],
        "keep looking, from lower down",
        |caught, known| {
            let eye_mm = known.view.eye_mm - caught.number()?;
            one(Action::Look { at: known.view.focus, eye_mm })
        },
    ),
    form(&["wait for? minute"], &[], "", |_, _| Ok(Request::Wait(60.0))),
    form(
        &[
            "wait until|till pen is|has still|steady|stopped|settled|quiet moving?",
            "wait until|till pen stops|rests|settles moving?",
            "wait for pen to settle|stop|rest",
        ],
        &["wait until the pen is still"],
        "two minutes at most",
        |_, _| Ok(Request::Settle(Settling::Pen)),
    ),
    form(
        &[
            "wait until|till water|manometer|legs|columns|column is|are|has|have \
             still|steady|settled|stopped|quiet moving?",
            "wait until|till water|manometer|legs stops|settles|rests moving?",
            "wait for water|manometer to settle|stop|rest",
        ],
        &["wait until the water is still"],
        "two minutes at most",
        |_, _| Ok(Request::Settle(Settling::Water)),
    ),
    form(
        &[
            "wait until|till blower|motor|rotor|it is|has stopped|still|standing turning|running?",
            "wait until|till blower|motor|rotor|it stops|stands turning|running|still?",
            "wait for blower|motor|rotor to stop",
        ],
        &["wait until the blower has stopped"],
        "two minutes at most",
        |_, _| Ok(Request::Settle(Settling::Blower)),
    ),
    form(
        &[
            "wait until|till everything|all|it|flow|they is|has|are|have settled|still|steady|quiet",
            "wait until|till everything|all|it|flow settles|rests",
            "let it|everything|flow|them settle",
            "wait for everything|it|flow to settle",
        ],
        &["wait until everything is still"],
        "water and pen, two minutes at most",
        |_, _| Ok(Request::Settle(Settling::Everything)),
    ),
    form(
        &["leak check", "check|test for? leaks|leak", "do leak check", "make leak check"],
        &[],
        "",
        |_, _| {
            but("a leak check is done by hand: with the blower running, say `cover openings`, \
                 `listen` and `read pen`, then `uncover openings` within 30 s")
        },
    ),
    form(&["wait for? <number>", "wait"], &[], "", |_, _| {
        but("say how long, with its unit: `wait 30 s` or `wait 5 min`")
    }),
];

/// The last number caught: the height, where a certificate's number stands before it.
fn last_number(caught: &super::catch::Caught) -> Result<f64, super::trouble::Trouble> {
    let mut numbers = caught.values.iter().rev().filter_map(|value| match value {
        super::catch::Value::Number(number) => Some(*number),
        _ => None,
    });
    numbers.next().ok_or(super::trouble::Trouble::Misfit)
}
