//! Valves, scale, plumb, and the tube.

use sim_core::rig::parts::Leg;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::form::{Form, but, form, one, several};

/// Quarter turns from shut to fully open.
const FULLY_OPEN: u8 = 4;

pub(super) const FORMS: &[Form] = &[
    form(&["open both? valves fully?"], &["open both valves"], "fully", |_, known| {
        both(known.view, to_open).map_or_else(|| but("both are fully open already"), several)
    }),
    form(
        &["connect|attach tube", "connect|push|put|attach tube on|onto|to tap|calibrator"],
        &["connect tube"],
        "to the calibrator's tap",
        |_, _| one(Action::ConnectTube),
    ),
    form(
        &[
            "slide|move|shift scale <up-down> by? <inches>",
            "slide|move|shift scale by? <inches> <up-down>",
        ],
        &["slide scale up 0.1", "slide scale down 0.05 in"],
        "of the manometer, inches",
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
        &["open <leg> valve fully?", "open <leg> leg valve", "open valve on? <leg> leg?"],
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
            "shut|close <leg> leg valve",
            "shut|close valve on? <leg> leg?",
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
        both(known.view, to_shut).map_or_else(|| but("both are shut already"), several)
    }),
    form(
        &[
            "disconnect|detach tube",
            "disconnect|pull|take|detach tube off|from tap|calibrator?",
            "pull|take off tube",
        ],
        &["disconnect tube"],
        "from the tap",
        |_, _| one(Action::DisconnectTube),
    ),
    form(
        &[
            "open|turn <leg> valve by? <quarters>",
            "turn <leg> valve open by? <quarters>",
            "open <leg> leg valve by? <quarters>",
        ],
        &["open left valve by 1 quarter turn"],
        "by so much",
        |caught, _| valve(caught.leg()?, caught.quarters(1.0, FULLY_OPEN)?),
    ),
    form(
        &["shut|close <leg> valve by? <quarters>", "turn <leg> valve shut|closed by? <quarters>"],
        &["shut left valve by 1 quarter turn"],
        "by so much",
        |caught, _| valve(caught.leg()?, caught.quarters(-1.0, FULLY_OPEN)?),
    ),
    form(&["zero manometer|scale"], &[], "", |_, _| {
        but("that is done by eye: with the tube off the tap say `read both legs`, then slide the \
             scale until both stand at zero: `slide scale up 0.1`")
    }),
    form(&["level|plumb manometer", "hang manometer plumb"], &[], "", |_, _| {
        but("that is done by eye: say `look at manometer` for how it hangs, then \
             `swing manometer left 2`")
    }),
    form(&["straighten|smooth out? tube|kink"], &["straighten tube"], "where kinked", |_, _| {
        one(Action::StraightenTube)
    }),
    form(
        &["drain|shake|empty tube out?", "shake|drain out? tube", "shake water out tube?"],
        &["drain tube"],
        "while it is off the tap",
        |_, _| one(Action::DrainTube),
    ),
    form(
        &["blow gently? through|into|in tube?"],
        &["blow through"],
        "into the free end, and watch the water",
        |_, _| one(Action::BlowThrough),
    ),
];

/// One turn of one valve.
fn valve(leg: Leg, quarter_turns: i8) -> super::form::Built {
    one(Action::TurnValve { leg, quarter_turns })
}

/// Quarter turns missing until a valve is fully open.
fn to_open(view: &View, leg: Leg) -> i8 {
    let missing = FULLY_OPEN.saturating_sub(view.manometer.leg(leg).valve_quarters);
    i8::try_from(missing).unwrap_or(i8::MAX)
}

/// Quarter turns until a valve is shut.
fn to_shut(view: &View, leg: Leg) -> i8 {
    let open = view.manometer.leg(leg).valve_quarters.min(FULLY_OPEN);
    i8::try_from(open).unwrap_or(i8::MAX).saturating_neg()
}

/// The turns of both valves; nothing when neither needs one.
fn both(view: &View, turns: fn(&View, Leg) -> i8) -> Option<Vec<Action>> {
    let actions: Vec<Action> = [Leg::Left, Leg::Right]
        .into_iter()
        .map(|leg| (leg, turns(view, leg)))
        .filter(|&(_, quarter_turns)| quarter_turns != 0)
        .map(|(leg, quarter_turns)| Action::TurnValve { leg, quarter_turns })
        .collect();
    (!actions.is_empty()).then_some(actions)
}
