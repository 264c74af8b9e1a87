//! Lid, nuts, washers, gaskets, and what is carried.

use sim_core::rig::parts::{AirOpening, Nut, PartPlace, RigPart};
use sim_core::session::action::Action;

use super::form::{Built, Form, form, one, several};
use super::trouble::but;
use crate::moves::{all_washers, carry, loosen_all, off, tighten_all};

/// As far as one sentence can turn a nut, quarter turns: that of the action.
const MOST: u8 = 12;
/// One turn of the wrist: what `tighten nut 1` does, quarter turns.
const ONE_GO: i8 = 4;

pub(super) const FORMS: &[Form] = &[
    form(
        &["open|lift|raise up? shelter? lid", "open up? shelter"],
        &["open lid"],
        "of the shelter",
        |_, _| one(Action::OpenLid),
    ),
    form(
        &[
            "loosen|undo|remove|unscrew|slacken all|four? four? nuts",
            "take all|four? four? nuts off",
            "take off all|four? four? nuts",
        ],
        &["loosen nuts"],
        "take all four right off",
        |_, known| {
            let actions = loosen_all(known.view);
            if actions.is_empty() { but("all four nuts are off already") } else { several(actions) }
        },
    ),
    form(
        &[
            "carry|bring|move|put|set|place|lay|hang <part> back? on|onto|in|into|to <place>",
            "take <part> to <place>",
            "put|lay|set|stow|pack|store <part> back|down|away? in|into|on|onto|to its|his? <place>",
            "screw|fit|mount|fasten|install|slip <part> on|onto|to <place>",
            "hang <part> on|from its? <place>",
        ],
        &["carry calibrator to adapter", "put filter in case"],
        "take it and put it there",
        |caught, known| several(carry(known.view, caught.part()?, caught.place()?)),
    ),
    form(
        &["tighten|do all|four? four? nuts up?", "tighten up? all|four? four? nuts"],
        &["tighten nuts"],
        "opposite corners in turn, in two rounds",
        |_, known| {
            let actions = tighten_all(known.view);
            if actions.is_empty() {
                but("all four nuts feel tight already")
            } else {
                several(actions)
            }
        },
    ),
    form(
        &["close|shut|lower shelter? lid", "close|shut shelter"],
        &["close lid"],
        "of the shelter",
        |_, _| one(Action::CloseLid),
    ),
    form(
        &["loosen|undo|remove nut <number>"],
        &["loosen nut 1"],
        "take it right off",
        |caught, known| {
            let nut = caught.nut()?;
            match off(known.view, nut) {
                0 => but(format!("nut {} is off already", nut.number())),
                quarters => turn(nut, quarters),
            }
        },
    ),
    form(&["tighten|turn nut <number>"], &["tighten nut 1"], "by one turn", |caught, _| {
        turn(caught.nut()?, ONE_GO)
    }),
    form(
        &[
            "take|pick|grab|lift|remove|get|fetch|unscrew|unmount|dismount up|out|off|down? <part> \
             up|out|off|down?",
            "take|lift|remove|get|pick|grab|fetch out|off|up? <part> out? from? its? \
             case|folder|envelope|box",
            "take|lift|remove|get|unscrew|unhook out|off|down? <part> off|from|out from? its? <place>",
        ],
        &["take calibrator"],
        "into your hand; it holds one part at a time",
        |caught, _| one(Action::Take { part: caught.part()? }),
    ),
    form(
        &[
            "put|set|place|lay|hang|lower it back? down? on|onto|in|into|to its|his? <place>",
            "screw|fit|mount|fasten|slip|stow|store|pack|install it back? on|onto|in|into|to its? <place>",
        ],
        &["put it on adapter", "put it in case"],
        "what you hold",
        |caught, _| one(Action::Put { place: caught.place()? }),
    ),
    form(
        &[
            "mount|install|fit calibrator",
            "mount|install calibrator on adapter|plate",
            "put|screw calibrator back? on",
        ],
        &["mount calibrator"],
        "on the adapter plate",
        |_, known| several(carry(known.view, RigPart::Calibrator, PartPlace::Adapter)),
    ),
    form(
        &[
            "hang manometer",
            "hang manometer up",
            "hang up manometer",
            "hook|put manometer up",
            "put manometer back? on",
        ],
        &["hang manometer"],
        "on its hook",
        |_, known| several(carry(known.view, RigPart::Manometer, PartPlace::Hook)),
    ),
    form(
        &[
            "tighten|turn nut <number> by <quarters>",
            "tighten nut <number> <quarters>",
            "give|turn|nip|snug up? nut <number> by? <quarters> clockwise|tighter|right?",
            "tighten|turn|nip <ordinal> nut by? <quarters> clockwise|tighter|right?",
        ],
        &["tighten nut 1 by 2 quarter turns"],
        "by a given amount",
        |caught, _| turn(caught.nut()?, caught.quarters(1.0, MOST)?),
    ),
    form(
        &[
            "loosen|undo nut <number> by? <quarters>",
            "slacken|unscrew|back|ease off? nut <number> off? by? <quarters>",
            "turn nut <number> by? <quarters> counterclockwise|anticlockwise|back|left",
            "loosen|undo|slacken|unscrew <ordinal> nut by? <quarters>",
        ],
        &["loosen nut 1 by 1 turn"],
        "by a given amount",
        |caught, _| turn(caught.nut()?, caught.quarters(-1.0, MOST)?),
    ),
    form(
        &[
            "put|set|place|move washer at|on|of? nut? <number> <seat> hold-down? plate|frame|adapter? plate?",
        ],
        &["put washer 1 above plate", "put washer 1 below plate"],
        "while its nut is off",
        |caught, _| one(Action::SetWasher { nut: caught.nut()?, seat: caught.seat()? }),
    ),
    form(
        &["put|set|place|move all? washers <seat> hold-down? plate|frame|adapter? plate?"],
        &["put washers above plate"],
        "all four",
        |caught, _| several(all_washers(caught.seat()?)),
    ),
    form(
        &[
            "fit|put|replace new|spare|missing? <gasket> gasket",
            "fit|put|replace new|spare|missing? gasket on|under|to|at <gasket>",
        ],
        &["fit holder gasket", "fit calibrator gasket"],
        "a spare one where it is missing, or flat and hard",
        |caught, _| one(Action::FitGasket { gasket: caught.gasket()? }),
    ),
    form(
        &["put|pack|stow|store|clear away|up <part>", "put|pack|stow|store|clear <part> away|up"],
        &["put away the manometer"],
        "into its case",
        |caught, known| several(carry(known.view, caught.part()?, PartPlace::Case)),
    ),
    form(&["put|pack|stow|store it away"], &[], "", |_, _| {
        one(Action::Put { place: PartPlace::Case })
    }),
    form(
        &["put|lay|set|fit <part> back on?", "put|fit back on? <part>"],
        &["put the filter back on"],
        "where it belongs",
        |caught, known| {
            let part = caught.part()?;
            several(carry(known.view, part, belongs(part)))
        },
    ),
    form(&["hang it up", "hook it up"], &[], "", |_, _| {
        one(Action::Put { place: PartPlace::Hook })
    }),
    form(&["tighten|loosen|undo|turn nut", "tighten|loosen nut <text>"], &[], "", |_, _| {
        but("say which nut: `tighten nut 1` to `tighten nut 4`, or `tighten nuts`")
    }),
    form(
        &["put it down", "put down", "drop it", "set|put|lay it aside|down", "lay it by"],
        &["put it down"],
        "beside the stand",
        |_, _| one(Action::Put { place: PartPlace::Ground }),
    ),
    form(
        &[
            "clear|clean|free|unblock out? inlet|eaves out?",
            "clear|remove|take|get|knock|brush|sweep out? nest|snow out? of|from? inlet|eaves|lid",
            "clear|remove|take|get|knock|brush|sweep nest|snow under|beneath eaves|lid",
        ],
        &["clear inlet"],
        "of a nest or snow under the lid",
        |_, _| one(Action::ClearOpening { opening: AirOpening::Inlet }),
    ),
    form(
        &[
            "clear|clean|free|unblock out? exhaust grill? out?",
            "clear|remove|take|get|knock|brush|sweep out? nest|snow out? of|from|in? exhaust grill?",
        ],
        &["clear exhaust"],
        "of a nest or snow",
        |_, _| one(Action::ClearOpening { opening: AirOpening::Exhaust }),
    ),
    form(&["clear|remove|clean away? nest|snow away?"], &[], "", |_, known| {
        match (known.view.mounting.inlet, known.view.mounting.exhaust) {
            (Some(_), None) => one(Action::ClearOpening { opening: AirOpening::Inlet }),
            (None, Some(_)) => one(Action::ClearOpening { opening: AirOpening::Exhaust }),
            _ => but("say where: `clear inlet` or `clear exhaust`"),
        }
    }),
];

/// Where a part belongs when it is put back on.
const fn belongs(part: RigPart) -> PartPlace {
    match part {
        RigPart::Frame | RigPart::Filter | RigPart::Adapter => PartPlace::Holder,
        RigPart::Calibrator => PartPlace::Adapter,
        RigPart::Manometer => PartPlace::Hook,
    }
}

/// One turn of one nut.
fn turn(nut: Nut, quarter_turns: i8) -> Built {
    one(Action::TurnNut { nut, quarter_turns })
}
