//! Lid, nuts, washers, gaskets, and what is carried.

use sim_core::rig::parts::{Nut, PartPlace, RigPart};
use sim_core::session::action::Action;

use super::form::{Built, Form, form, one, several};
use super::trouble::but;
use crate::moves::{all_washers, carry, loosen_all, off, tighten_all};

/// As far as one sentence can turn a nut, quarter turns: that of the action.
const MOST: u8 = 12;
/// One turn of the wrist: what `tighten nut 1` does, quarter turns.
const ONE_GO: i8 = 4;

pub(super) const FORMS: &[Form] = &[
    form(&["open|lift|raise lid"], &["open lid"], "of the shelter", |_, _| one(Action::OpenLid)),
    form(
        &["loosen|undo|remove all|four? four? nuts"],
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
        ],
        &["carry calibrator to adapter", "put filter in case"],
        "take it and put it there",
        |caught, known| several(carry(known.view, caught.part()?, caught.place()?)),
    ),
    form(
        &["tighten all|four? four? nuts"],
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
    form(&["close|shut|lower lid"], &["close lid"], "of the shelter", |_, _| one(Action::CloseLid)),
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
        &["take|pick|grab|lift|remove|get up|out|off? <part> up|out|off?"],
        &["take calibrator"],
        "into your hand; it holds one part at a time",
        |caught, _| one(Action::Take { part: caught.part()? }),
    ),
    form(
        &["put|set|place|lay|hang|lower it back? down? on|onto|in|into|to <place>"],
        &["put it on adapter", "put it in case"],
        "what you hold",
        |caught, _| one(Action::Put { place: caught.place()? }),
    ),
    form(
        &["mount|install calibrator", "mount|install calibrator on adapter|plate"],
        &["mount calibrator"],
        "on the adapter plate",
        |_, known| several(carry(known.view, RigPart::Calibrator, PartPlace::Adapter)),
    ),
    form(
        &["hang manometer", "hang manometer up"],
        &["hang manometer"],
        "on its hook",
        |_, known| several(carry(known.view, RigPart::Manometer, PartPlace::Hook)),
    ),
    form(
        &["tighten|turn nut <number> by <quarters>", "tighten nut <number> <quarters>"],
        &["tighten nut 1 by 2 quarter turns"],
        "by a given amount",
        |caught, _| turn(caught.nut()?, caught.quarters(1.0, MOST)?),
    ),
    form(
        &["loosen|undo nut <number> by? <quarters>"],
        &["loosen nut 1 by 1 turn"],
        "by a given amount",
        |caught, _| turn(caught.nut()?, caught.quarters(-1.0, MOST)?),
    ),
    form(
        &["put|set|place washer nut? <number> <seat> hold-down? plate|frame?"],
        &["put washer 1 above plate", "put washer 1 below plate"],
        "while its nut is off",
        |caught, _| one(Action::SetWasher { nut: caught.nut()?, seat: caught.seat()? }),
    ),
    form(
        &["put|set|place all? washers <seat> hold-down? plate|frame?"],
        &["put washers above plate"],
        "all four",
        |caught, _| several(all_washers(caught.seat()?)),
    ),
    form(
        &[
            "fit|put|replace new|spare? <gasket> gasket",
            "fit|put new|spare? gasket on|under|to <gasket>",
        ],
        &["fit holder gasket", "fit calibrator gasket"],
        "a spare one where it is missing",
        |caught, _| one(Action::FitGasket { gasket: caught.gasket()? }),
    ),
    form(&["put it down", "put down", "drop it"], &["put it down"], "beside the stand", |_, _| {
        one(Action::Put { place: PartPlace::Ground })
    }),
];

/// One turn of one nut.
fn turn(nut: Nut, quarter_turns: i8) -> Built {
    one(Action::TurnNut { nut, quarter_turns })
}
