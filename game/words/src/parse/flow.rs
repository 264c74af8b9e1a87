//! The calibrator's knob, plates and openings.

use sim_core::session::action::Action;

use super::form::{Built, Form, Known, form, one};
use super::trouble::but;

/// What `a little` is, of the whole opening.
const A_LITTLE: f64 = 0.05;

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "turn|set|open|close|put knob down|up|back? to|at <opening> open|of? travel?",
            "turn|set|open|close calibrator|opening|orifice down|up? to|at <opening> open?",
        ],
        &["turn knob to 40 %", "turn knob to 0.4"],
        "1 or 100 % is fully open",
        |caught, _| {
            let opening = caught.number()?;
            if (0.0..=1.0).contains(&opening) {
                one(Action::TurnKnob { opening })
            } else {
                but("the knob goes from 0 to 1, or from 0 % to 100 %: say `turn knob to 40 %`")
            }
        },
    ),
    form(
        &[
            "open knob fully|wide|right|completely? open? up?",
            "turn|set|put knob fully|wide|completely open",
            "knob fully|wide? open",
            "open|turn|set knob|calibrator open? all way up|open?",
            "open calibrator fully|wide|completely up?",
            "open up? calibrator fully|wide|completely",
        ],
        &["open knob fully"],
        "all the way",
        |_, _| one(Action::TurnKnob { opening: 1.0 }),
    ),
    form(
        &["close|shut knob fully|right?", "turn knob fully? shut|closed"],
        &["close knob fully"],
        "all the way",
        |_, _| one(Action::TurnKnob { opening: 0.0 }),
    ),
    form(
        &[
            "close|shut knob|it down? little|bit|touch",
            "close|shut knob|it down? little bit",
            "turn knob|it down|in|clockwise|back little? bit|touch?",
            "turn down knob|it little? bit|touch?",
            "turn knob little? bit|touch? clockwise|down",
        ],
        &["close knob a little"],
        "by a twentieth of its travel; clockwise closes",
        |_, known| by(known, -A_LITTLE),
    ),
    form(
        &[
            "open knob|it up? little|bit|touch",
            "open knob|it up? little bit",
            "turn knob up|out|counterclockwise|anticlockwise little? bit|touch?",
            "turn up knob little? bit|touch?",
        ],
        &["open knob a little"],
        "by a twentieth of its travel",
        |_, known| by(known, A_LITTLE),
    ),
    form(
        &["close|shut|turn knob down|clockwise? by <opening>"],
        &["close knob by 10 %"],
        "from where it stands",
        |caught, known| by(known, -caught.number()?),
    ),
    form(
        &["open knob by <opening>", "turn knob up|counterclockwise|anticlockwise by <opening>"],
        &["open knob by 10 %"],
        "from where it stands",
        |caught, known| by(known, caught.number()?),
    ),
    form(
        &[
            "cover|block|close|plug up|off? calibrator? openings|holes|calibrator|inlet|top with|by? hand|hands|tape?",
            "tape|cover|block over|up|off? calibrator? openings|holes|inlet",
            "block|cover inlet calibrator",
            "put|hold hand|hands|tape over openings|holes|calibrator",
        ],
        &["cover openings"],
        "for the leak check, 30 s at most",
        |_, _| one(Action::BlockOpenings),
    ),
    form(
        &[
            "uncover|unblock|free|clear|open calibrator? openings|holes|calibrator|inlet",
            "take|pull|get your? hand|hands|tape off|away from? openings|holes|calibrator|inlet?",
            "remove your? hand|hands|tape from? openings|holes|calibrator|inlet?",
        ],
        &["uncover openings"],
        "after the leak check",
        |_, _| one(Action::FreeOpenings),
    ),
    form(
        &[
            "take|pull|lift|remove|get plate|disc out|from calibrator|it",
            "take|pull|lift|remove|get plate|disc out from? calibrator",
            "take|pull|lift|get out plate|disc from? calibrator",
            "take|pull|lift|remove|get out? plate with <number> holes out? from? calibrator?",
            "take|pull|lift|remove|get out? <number> hole plate|disc out? from? calibrator?",
        ],
        &["take plate out of calibrator"],
        "of a calibrator with fixed plates, while the blower is off and unplugged",
        |_, _| one(Action::TakeOutPlate),
    ),
    form(
        &[
            "put|fit|insert|slide|lay|set back? in|into? plate|disc with <number> holes in? into? to? calibrator?",
            "put|fit|insert|slide|lay|set <number> hole plate|disc back? in? into? to? calibrator?",
            "put|fit|insert|slide|lay in <number> hole plate|disc",
            "put|fit|insert|slide|lay in? plate|disc <number> in? into? to? calibrator?",
        ],
        &["put plate with 13 holes into calibrator", "put in plate 13"],
        "named by its holes: 18, 13, 10, 7 or 5",
        |caught, _| one(Action::PutInPlate { plate: caught.plate()? }),
    ),
    form(
        &["change|swap|exchange plate|disc to|for plate? <number> holes?", "change|swap plate"],
        &[],
        "",
        |_, _| {
            but(
                "one at a time, with the power off: `take plate out of calibrator`, then `put plate \
                 with 13 holes into calibrator`",
            )
        },
    ),
    form(&["turn|move|set knob", "adjust flow to? <text>"], &[], "", |_, _| {
        but(
            "say how far: `close knob a little`, or `turn knob to 40 %`; read the legs to see the flow",
        )
    }),
];

/// Turns the knob from where it is seen to stand, to a thousandth, not past its stops.
fn by(known: &Known, change: f64) -> Built {
    let opening = ((known.view.calibrator.knob + change) * 1000.0).round() / 1000.0;
    if opening.is_finite() {
        one(Action::TurnKnob { opening: opening.clamp(0.0, 1.0) })
    } else {
        but("say how far: `turn knob to 40 %`")
    }
}
