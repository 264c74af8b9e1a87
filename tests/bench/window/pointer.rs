//! The pointer alone: looking, moving, carrying.

use bevy::math::Vec2;
use sim_core::rig::parts::{Part, Place};
use sim_core::session::action::Sight;
use steady_draw::bench::hands::Spot;

use super::harness::Bench;

#[test]
fn a_click_looks_and_moves_lid_and_door() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("barometer");
    assert_eq!(bench.view().focus, Sight::Barometer);
    bench.click("lid of the shelter");
    assert!(bench.view().mounting.lid_open);
    bench.click("recorder's door");
    assert!(bench.view().recorder.door_open);
    assert_eq!(bench.at_hand(), Some(Spot::Door), "what was clicked is on the hand card");
}

#[test]
fn a_part_is_dragged_to_its_place_and_stays_in_the_hand_elsewhere() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let manometer = bench.place_of("manometer");
    let sky = bench.place_of("sky");
    bench.drag(manometer, sky);
    assert_eq!(bench.view().hand, Some(Part::Manometer), "nothing takes it up there");
    let hand = bench.place_of("manometer");
    let hook = bench.place_of("barometer") - Vec2::new(130.0, 80.0);
    bench.drag(hand, hook);
    assert_eq!(bench.view().mounting.place(Part::Manometer), Place::Hook);
}

#[test]
fn a_plug_is_dragged_out_and_in() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let plug = bench.place_of("sampler's cord");
    let away = bench.place_of("blower");
    bench.drag(plug, away);
    assert!(!bench.view().power.sampler_cord_in);
    let loose = bench.place_of("sampler's cord");
    bench.drag(loose, plug);
    assert!(bench.view().power.sampler_cord_in);
}

#[test]
fn offers_are_buttons() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("thermometer");
    bench.click("2: take it out into the open");
    let exposure = bench.view().thermometer.exposure;
    assert_eq!(exposure, sim_core::session::action::Exposure::Sun);
}
