//! What counts as a hand near the rotor.

use super::super::test_bench::careful;
use super::broken;
use crate::rig::parts::{Gasket, Grip, Nut, PartPlace, RigPart, WasherSeat};
use crate::session::action::Action;
use crate::session::ground_truth::GroundTruth;

/// Whether the rule is broken by an action with the rotor turning.
fn is_critical(action: Action, filter: PartPlace) -> bool {
    let mut session = careful();
    let turns = |facts: &mut GroundTruth| {
        facts.speed_ratio = 0.4;
        facts.places[RigPart::Filter as usize] = filter;
    };
    session.insert_after(|action| matches!(action, Action::OpenLid), action.clone());
    session.at(|other| *other == action, turns);
    broken(&session).contains(&"dead-before-hands")
}

#[test]
fn a_filter_that_is_taken_from_the_holder_or_centred_brings_hands_in() {
    let takes = Action::TakeFilter { grip: Grip::Edges };
    assert!(is_critical(takes.clone(), PartPlace::Holder));
    assert!(!is_critical(takes, PartPlace::Case));
    assert!(is_critical(Action::CentreFilter, PartPlace::Holder));
    let [nut, ..] = Nut::ALL;
    assert!(is_critical(Action::SetWasher { nut, seat: WasherSeat::Below }, PartPlace::Case));
    assert!(is_critical(Action::FitGasket { gasket: Gasket::Holder }, PartPlace::Case));
}

#[test]
fn a_lid_that_is_opened_and_a_nut_that_is_tightened_do_not() {
    let [nut, ..] = Nut::ALL;
    assert!(!is_critical(Action::TurnNut { nut, quarter_turns: 2 }, PartPlace::Case));
    assert!(is_critical(Action::TurnNut { nut, quarter_turns: -2 }, PartPlace::Case));
    assert!(!is_critical(Action::CloseLid, PartPlace::Case));
}
