//! Several actions as the sentences that ask for them: what one sentence does is said in one.

use sim_core::rig::parts::{Leg, PartPlace, RigPart};
use sim_core::session::action::{Action, WasherSeat};
use sim_core::session::view::View;

use super::action::say_action;
use crate::moves::{
    all_washers, loosen_all, open_both, read_both_legs, set_dial_to_watch, shut_both, tighten_all,
    to_open, to_shut,
};
use crate::names::name;
use crate::parse::vocabulary::{PARTS, PLACES};

/// Taps that one sentence asks for, at most.
const MOST_TAPS: usize = 20;

/// Says actions in the words that ask for them, as few sentences as will do. `view` is as it is before
/// the first of them.
pub fn say_actions(view: &View, actions: &[Action]) -> Vec<String> {
    let mut said = Vec::new();
    let mut rest = actions;
    while let Some(first) = rest.first() {
        let (sentence, count) = whole_move(view, rest)
            .or_else(|| carried(rest))
            .or_else(|| taps(rest))
            .unwrap_or_else(|| (say_action(first), 1));
        said.push(sentence);
        rest = rest.get(count..).unwrap_or_default();
    }
    said
}

/// A sentence for the move with which the actions begin, and how many of them it does.
fn whole_move(view: &View, actions: &[Action]) -> Option<(String, usize)> {
    let valve = |leg, quarter_turns| vec![Action::TurnValve { leg, quarter_turns }];
    let moves: [(&str, Vec<Action>); 12] = [
        ("loosen the nuts", loosen_all(view)),
        ("tighten the nuts", tighten_all(view)),
        ("put the washers above the plate", all_washers(WasherSeat::Above)),
        ("open both valves", open_both(view)),
        ("shut both valves", shut_both(view)),
        ("open the left valve", valve(Leg::Left, to_open(view, Leg::Left))),
        ("open the right valve", valve(Leg::Right, to_open(view, Leg::Right))),
        ("shut the left valve", valve(Leg::Left, to_shut(view, Leg::Left))),
        ("shut the right valve", valve(Leg::Right, to_shut(view, Leg::Right))),
        ("read both legs", read_both_legs()),
        ("set the dial to the watch", vec![set_dial_to_watch(view)]),
        ("open the knob fully", vec![Action::TurnKnob { opening: 1.0 }]),
    ];
    moves
        .into_iter()
        .find(|(_, whole)| !whole.is_empty() && actions.starts_with(whole))
        .map(|(sentence, whole)| (sentence.to_owned(), whole.len()))
}

/// A part that is taken and put somewhere.
fn carried(actions: &[Action]) -> Option<(String, usize)> {
    let [Action::Take { part }, Action::Put { place }, ..] = actions else { return None };
    let sentence = match (part, place) {
        (RigPart::Manometer, PartPlace::Hook) => "hang the manometer".to_owned(),
        (part, place) => {
            format!("carry the {} to the {}", name(PARTS, part), name(PLACES, place))
        }
    };
    Some((sentence, 2))
}

/// Taps in a row.
fn taps(actions: &[Action]) -> Option<(String, usize)> {
    let count = actions.iter().take_while(|action| **action == Action::Tap).count().min(MOST_TAPS);
    (count > 1).then(|| (format!("tap {count} times"), count))
}
