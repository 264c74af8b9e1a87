//! Valves, scale, plumb, and the tube; the keys and the battery of an electronic manometer.

use sim_core::rig::parts::Leg;
use sim_core::session::action::Action;

use super::form::{Form, form, one, several};
use super::trouble::but;
use crate::moves::{FULLY_OPEN, open_both, shut_both, to_open, to_shut, top_up};

pub(super) const FORMS: &[Form] = &[
    form(
        &["open both? manometer? valves fully|wide|completely?", "open both? valves all way"],
        &["open both valves"],
        "fully",
        |_, known| {
            let actions = open_both(known.view);
            if actions.is_empty() { but("both are fully open already") } else { several(actions) }
        },
    ),
    form(
        &[
            "connect|attach|join tube|tubing|hose",
            "connect|push|put|attach|slip|plug|fit tube|tubing|hose back? on|onto|to|into pressure? \
             tap|calibrator pressure? tap?",
            "hook up tube|tubing|hose",
            "hook up tube|tubing|hose to pressure|calibrator? tap|calibrator",
        ],
        &["connect tube"],
        "to the calibrator's pressure tap",
        |_, _| one(Action::ConnectTube),
    ),
    form(
        &[
            "slide|move|shift scale <up-down> by? <inches>",
            "slide|move|shift scale by? <inches> <up-down>",
            "push|pull|adjust|set scale <up-down> by? <inches>",
        ],
        &["slide scale up 0.1", "slide scale down 0.05 in"],
        "of the manometer, in inches",
        |caught, _| one(Action::SlideScale { by_in: caught.sense()? * caught.number()? }),
    ),
    form(&["raise scale by? <inches>", "push|pull up scale by? <inches>"], &[], "", |caught, _| {
        one(Action::SlideScale { by_in: caught.number()? })
    }),
    form(&["lower|drop scale by? <inches>"], &[], "", |caught, _| {
        one(Action::SlideScale { by_in: -caught.number()? })
    }),
    form(&["turn|open|shut|close|crack valve", "turn valve <text>"], &[], "", |_, _| {
        but("say which valve and which way: `open left valve` or `shut right valve`")
    }),
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
        &[
            "open <leg> valve fully|completely|wide? open?",
            "open <leg> valve all way",
            "open <leg> leg|limb valve",
            "open valve on? <leg> leg|limb?",
        ],
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
            "shut|close|turn <leg> valve fully|off|completely?",
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
    form(
        &["shut|close both? manometer? valves fully|completely?"],
        &["shut both valves"],
        "fully",
        |_, known| {
            let actions = shut_both(known.view);
            if actions.is_empty() { but("both are shut already") } else { several(actions) }
        },
    ),
    form(
        &[
            "disconnect|detach|unhook tube|tubing|hose",
            "disconnect|pull|take|detach|get|slip tube|tubing|hose off|from pressure? tap|calibrator? tap?",
            "disconnect|pull|take|detach|remove tube|tubing|hose off? from pressure? tap|calibrator tap?",
            "pull|take|slip off tube|tubing|hose",
            "remove tube|tubing|hose",
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
            "crack|give|ease|turn <leg> valve open? by? <quarters> open?",
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
    form(&["zero manometer|scale|display"], &[], "", |_, known| {
        if known.view.manometer.display.is_some() {
            return one(Action::ZeroManometer);
        }
        but(
            "that is done by eye: with the tube off the pressure tap, say `read both legs`, then slide \
             the scale until both read zero: `slide scale up 0.1`",
        )
    }),
    form(
        &["level|plumb manometer", "hang manometer plumb", "set manometer plumb|upright"],
        &[],
        "",
        |_, _| {
            but("that is done by eye: say `look at manometer` for how it hangs, then \
             `swing manometer left 2`")
        },
    ),
    form(
        &[
            "straighten|smooth|unkink out? tube|tubing|hose|kink",
            "straighten|smooth tube|tubing|hose out",
            "take|get|work|smooth kink out tube|tubing|hose?",
            "take|get|work|smooth kink out from? tube|tubing|hose",
        ],
        &["straighten tube"],
        "where it is kinked",
        |_, _| one(Action::StraightenTube),
    ),
    form(
        &[
            "drain|shake|empty tube|tubing|hose out?",
            "shake|drain out? tube|tubing|hose",
            "shake|get|let water out tube|tubing|hose?",
            "shake|get|let water out from tube|tubing|hose",
        ],
        &["drain tube"],
        "while it is off the pressure tap",
        |_, _| one(Action::DrainTube),
    ),
    form(
        &["blow gently? through|into|in end? tube|tubing|hose?"],
        &["blow through"],
        "into the free end, and watch the water",
        |_, _| one(Action::BlowThrough),
    ),
    form(
        &[
            "add|pour <millimetres> of? fluid|water|antifreeze|oil? to|into? manometer?",
            "raise level|water by? <millimetres>",
        ],
        &["add 5 mm of fluid"],
        "to the manometer, from the bottle in its case; zero it again afterwards",
        |caught, _| one(Action::AddFluid { by_mm: caught.number()? }),
    ),
    form(
        &[
            "take|draw|let <millimetres> of? fluid|water|antifreeze|oil? out of? manometer?",
            "take|draw|let out <millimetres> of? fluid|water|antifreeze|oil? of|from? manometer?",
            "lower level|water by? <millimetres>",
        ],
        &["take out 2 mm of fluid"],
        "of the manometer, with the dropper",
        |caught, _| one(Action::AddFluid { by_mm: -caught.number()? }),
    ),
    form(
        &[
            "top up? manometer|water|fluid up?",
            "top|fill manometer|water up? to fill? mark",
            "fill up? manometer to fill? mark",
            "fill|refill manometer",
        ],
        &[],
        "",
        |_, known| {
            let actions = top_up(known.view);
            if actions.is_empty() { but("the level is at the fill mark") } else { several(actions) }
        },
    ),
    form(
        &[
            "fill|refill|charge manometer again|anew? with <fluid>",
            "change|replace manometer|fluid|water to|for|with|by <fluid>",
            "change|replace fluid|water in|of manometer to|for|with|by <fluid>",
            "put|pour <fluid> in|into manometer",
        ],
        &["fill the manometer with antifreeze", "fill the manometer with water"],
        "in the van, off its hook; it thaws there, and its tube is dried",
        |caught, _| one(Action::ChangeFluid { to: caught.fluid()? }),
    ),
    form(
        &[
            "switch|turn|power electronic? manometer|gauge|display <on-off>",
            "switch|turn|power <on-off> electronic? manometer|gauge|display",
        ],
        &["switch manometer on", "switch manometer off"],
        "an electronic one",
        |caught, _| one(Action::SwitchManometer { to: caught.on_off()? }),
    ),
    form(
        &[
            "press|push|hit zero key|button on? manometer|display?",
            "zero electronic manometer|display",
            "set|reset manometer|display to zero",
        ],
        &["press zero key"],
        "of an electronic manometer, with its port open to the air",
        |_, _| one(Action::ZeroManometer),
    ),
    form(
        &[
            "change|replace|swap|renew battery|batteries in|on? manometer|gauge?",
            "put|fit in? new|fresh battery|batteries in|into? manometer|gauge?",
        ],
        &["change battery"],
        "of an electronic manometer, from the case",
        |_, _| one(Action::ChangeBattery),
    ),
];

/// One turn of one valve.
fn valve(leg: Leg, quarter_turns: i8) -> super::form::Built {
    one(Action::TurnValve { leg, quarter_turns })
}
