//! Lid, nuts, washers, gaskets, and what is carried.

use sim_core::rig::parts::{Nut, PartPlace, RigPart};
use sim_core::session::action::{Action, WasherSeat};
use sim_core::session::view::{NutFeel, View};

use super::form::{Built, Form, but, form, one, several};

/// As far as one sentence can turn a nut, quarter turns: that of the action.
const MOST: u8 = 12;
/// One turn of the wrist: what `tighten nut 1` does, quarter turns.
const ONE_GO: i8 = 4;
/// How far all four are taken by `tighten nuts`, quarter turns, unless they feel tight before.
const TIGHT: i8 = 8;

pub(super) const FORMS: &[Form] = &[
    form(&["open|lift|raise lid"], &["open lid"], "of the shelter", |_, _| one(Action::OpenLid)),
    form(
        &["loosen|undo|remove all|four? four? nuts"],
        &["loosen nuts"],
        "back all four right off",
        |_, known| {
            let actions: Vec<Action> = CROSSWISE
                .into_iter()
                .filter_map(|at| Nut::ALL.get(at).copied())
                .map(|nut| Action::TurnNut { nut, quarter_turns: off(known.view, nut) })
                .filter(|action| !matches!(action, Action::TurnNut { quarter_turns: 0, .. }))
                .collect();
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
        |caught, known| carry(known.view, caught.part()?, caught.place()?),
    ),
    form(
        &["tighten all|four? four? nuts"],
        &["tighten nuts"],
        "opposite corners in turn, in two rounds",
        |_, known| tighten_all(known.view),
    ),
    form(&["close|shut|lower lid"], &["close lid"], "of the shelter", |_, _| one(Action::CloseLid)),
    form(
        &["loosen|undo|remove nut <number>"],
        &["loosen nut 1"],
        "back it right off",
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
        "into your hand, which holds one part",
        |caught, _| one(Action::Take { part: caught.part()? }),
    ),
    form(
        &["put|set|place|lay|hang|lower it back? down? on|onto|in|into|to <place>"],
        &["put it on adapter", "put it in case"],
        "what your hand holds",
        |caught, _| one(Action::Put { place: caught.place()? }),
    ),
    form(
        &["mount|install calibrator", "mount|install calibrator on adapter|plate"],
        &["mount calibrator"],
        "on the adapter plate",
        |_, known| carry(known.view, RigPart::Calibrator, PartPlace::Adapter),
    ),
    form(
        &["hang manometer", "hang manometer up"],
        &["hang manometer"],
        "on its hook",
        |_, known| carry(known.view, RigPart::Manometer, PartPlace::Hook),
    ),
    form(
        &["tighten|turn nut <number> by <quarters>", "tighten nut <number> <quarters>"],
        &["tighten nut 1 by 2 quarter turns"],
        "by so much",
        |caught, _| turn(caught.nut()?, caught.quarters(1.0, MOST)?),
    ),
    form(
        &["loosen|undo nut <number> by? <quarters>"],
        &["loosen nut 1 by 1 turn"],
        "by so much",
        |caught, _| turn(caught.nut()?, caught.quarters(-1.0, MOST)?),
    ),
    form(
        &["put|set|place washer nut? <number> <seat> plate|frame?"],
        &["put washer 1 above plate", "put washer 1 below plate"],
        "while its nut is off",
        |caught, _| one(Action::SetWasher { nut: caught.nut()?, seat: caught.seat()? }),
    ),
    form(
        &["put|set|place all? washers <seat> plate|frame?"],
        &["put washers above plate"],
        "all four",
        |caught, _| {
            let seat: WasherSeat = caught.seat()?;
            several(Nut::ALL.map(|nut| Action::SetWasher { nut, seat }).to_vec())
        },
    ),
    form(
        &[
            "fit|put|replace new|spare? <gasket> gasket",
            "fit|put new|spare? gasket on|under|to <gasket>",
        ],
        &["fit holder gasket", "fit calibrator gasket"],
        "a spare one, where one is missing",
        |caught, _| one(Action::FitGasket { gasket: caught.gasket()? }),
    ),
    form(&["put it down", "put down", "drop it"], &["put it down"], "beside the stand", |_, _| {
        one(Action::Put { place: PartPlace::Ground })
    }),
];

/// Opposite corners one after the other, as places in [`Nut::ALL`].
const CROSSWISE: [usize; 4] = [0, 2, 1, 3];

/// One turn of one nut.
fn turn(nut: Nut, quarter_turns: i8) -> Built {
    one(Action::TurnNut { nut, quarter_turns })
}

/// How far a nut must be turned to be off, as its height shows; not below a hand's reach.
fn off(view: &View, nut: Nut) -> i8 {
    let seen = view.mounting.nuts.get(nut.index()).map_or(0, |nut| nut.quarter_turns);
    i8::try_from(seen).unwrap_or(i8::MAX).saturating_neg().max(-12)
}

/// Tightens all four by hand in two rounds; nuts that feel tight are left alone.
fn tighten_all(view: &View) -> Built {
    let needs = CROSSWISE.map(|at| {
        let nut = view.mounting.nuts.get(at)?;
        let tight = matches!(nut.feel, NutFeel::Snug | NutFeel::Hard);
        let there = i8::try_from(nut.quarter_turns).unwrap_or(i8::MAX);
        let missing = TIGHT.saturating_sub(there).max(1);
        (!tight).then_some((*Nut::ALL.get(at)?, missing))
    });
    let needs: Vec<(Nut, i8)> = needs.into_iter().flatten().collect();
    let first = needs.iter().map(|&(nut, all)| (nut, all - all / 2));
    let second = needs.iter().map(|&(nut, all)| (nut, all / 2));
    let actions: Vec<Action> = first
        .chain(second)
        .filter(|&(_, quarter_turns)| quarter_turns != 0)
        .map(|(nut, quarter_turns)| Action::TurnNut { nut, quarter_turns })
        .collect();
    if actions.is_empty() { but("all four nuts feel tight already") } else { several(actions) }
}

/// Takes a part, unless the hand holds it, and puts it somewhere.
fn carry(view: &View, part: RigPart, place: PartPlace) -> Built {
    let put = Action::Put { place };
    if view.hand == Some(part) { one(put) } else { several(vec![Action::Take { part }, put]) }
}
