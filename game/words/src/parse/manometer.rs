//! Valves, scale, plumb, and the tube.

use sim_core::rig::parts::Leg;
use sim_core::session::action::Action;

use super::form::{Form, form, one, several};
use super::trouble::but;
use crate::moves::{FULLY_OPEN, open_both, shut_both, to_open, to_shut};

pub(super) const FORMS: &[Form] = &[
    form(&["open both? valves fully?"], &["open both valves"], "fully", |_, known| {
        let actions = open_both(known.view);
        if actions.is_empty() { but("both are fully open already") } else { several(actions) }
    }),
    form(
        &[
            "connect|attach tube|tubing",
            "connect|push|put|attach tube|tubing on|onto|to pressure? tap|calibrator",
        ],
        &["connect tube"],
        "to the calibrator's pressure tap",
        |_, _| one(Action::ConnectTube),
    ),
    form(
        &[
            "slide|move|shift scale <up-down> by? <inches>",
            "slide|move|shift scale by? <inches> <up-down>",
        ],
        &["slide scale up 0.1", "slide scale down 0.05 in"],
        "of the manometer, in inches",
        |caught, _| one(Action::SlideScale { by_in: caught.sense()? * caught.number()? }),
    ),
    form(
        &[
            "swing|tilt manometer to? <left-right> by? <degrees>",
            "swing|tilt manometer by? <degrees> to? <left-right>",
        ],
        &["swing manometer left 2", "swing manometer right 0.5 degrees"],
        "in its plane, to bring it plumb",
        |caught, _| one(Action::SwingManometer { by_deg: caught.sense()? * caught.number()? }),
    ),
    form(
        &["open <leg> valve fully?", "open <leg> leg|limb valve", "open valve on? <leg> leg|limb?"],
        &["open left valve", "open right valve"],
        "fully",
        |caught, known| {
            let leg = caught.leg()?;
            let missing = to_open(known.view, leg);
            if missing == 0 { but("it is fully open already") } else { valve(leg, missing) }
        },
    ),
    form(
        &[
            "shut|close <leg> valve fully?",
            "shut|close <leg> leg|limb valve",
            "shut|close valve on? <leg> leg|limb?",
        ],
        &["shut left valve", "shut right valve"],
        "fully",
        |caught, known| {
            let leg = caught.leg()?;
            let quarters = to_shut(known.view, leg);
            if quarters == 0 { but("it is shut already") } else { valve(leg, quarters) }
        },
    ),
    form(&["shut|close both? valves fully?"], &["shut both valves"], "fully", |_, known| {
        let actions = shut_both(known.view);
        if actions.is_empty() { but("both are shut already") } else { several(actions) }
    }),
    form(
        &[
            "disconnect|detach tube|tubing",
            "disconnect|pull|take|detach tube|tubing off|from pressure? tap|calibrator?",
            "pull|take off tube|tubing",
        ],
        &["disconnect tube"],
        "from the pressure tap",
        |_, _| one(Action::DisconnectTube),
    ),
    form(
        &[
            "open|turn <leg> valve by? <quarters>",
            "turn <leg> valve open by? <quarters>",
            "open <leg> leg|limb valve by? <quarters>",
        ],
        &["open left valve by 1 quarter turn"],
        "by a given amount",
        |caught, _| valve(caught.leg()?, caught.quarters(1.0, FULLY_OPEN)?),
    ),
    form(
        &["shut|close <leg> valve by? <quarters>", "turn <leg> valve shut|closed by? <quarters>"],
        &["shut left valve by 1 quarter turn"],
        "by a given amount",
        |caught, _| valve(caught.leg()?, caught.quarters(-1.0, FULLY_OPEN)?),
    ),
    form(&["zero manometer|scale"], &[], "", |_, _| {
        but(
            "that is done by eye: with the tube off the pressure tap, say `read both legs`, then slide \
             the scale until both read zero: `slide scale up 0.1`",
        )
    }),
    form(&["level|plumb manometer", "hang manometer plumb"], &[], "", |_, _| {
        but("that is done by eye: say `look at manometer` for how it hangs, then \
             `swing manometer left 2`")
    }),
    form(
        &["straighten|smooth out? tube|tubing|kink"],
        &["straighten tube"],
        "where it is kinked",
        |_, _| one(Action::StraightenTube),
    ),
    form(
        &[
            "drain|shake|empty tube|tubing out?",
            "shake|drain out? tube|tubing",
            "shake water out tube|tubing?",
        ],
        &["drain tube"],
        "while it is off the pressure tap",
        |_, _| one(Action::DrainTube),
    ),
    form(
        &["blow gently? through|into|in tube|tubing?"],
        &["blow through"],
        "into the free end, and watch the water",
        |_, _| one(Action::BlowThrough),
    ),
];

/// One turn of one valve.
fn valve(leg: Leg, quarter_turns: i8) -> super::form::Built {
    one(Action::TurnValve { leg, quarter_turns })
}
