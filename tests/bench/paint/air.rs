//! The air in the cut-away: its arrows follow the flow, not the noise of the blower.

use paint::moving::air_flow;
use sim_core::session::action::Action;
use sim_core::session::view::View;

use super::run::mounted;

/// How much of the picture of the air is inked.
fn inked(view: &View) -> u64 {
    let picture = air_flow(view, 1.0, 0.3).picture;
    picture.pixels().iter().map(|pixel| u64::from(pixel.alpha())).sum()
}

#[test]
fn arrows_follow_the_flow_and_not_the_noise() {
    let mut session = mounted();
    session.wait(30.0).unwrap();
    let open = session.view();
    session.act(Action::TurnKnob { opening: 0.27 }).unwrap();
    session.wait(30.0).unwrap();
    let throttled = session.view();
    session.act(Action::BlockOpenings).unwrap();
    session.wait(10.0).unwrap();
    let covered = session.view();
    assert!(covered.blower.loudness > 0.8, "the blower runs on");
    assert!(inked(&open) > inked(&throttled), "the less flows, the fainter the arrows");
    assert!(inked(&throttled) > 0);
    assert_eq!(inked(&covered), 0, "no air flows: {:?}", covered.blower);
}
