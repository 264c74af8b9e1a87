//! The pointer alone: looking, moving, carrying.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::math::Vec2;
use hands::Spot;
use sim_core::rig::parts::{Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, Sight};
use window::desk::ActRequest;
use window::scene::places::{Carried, targets};

use super::harness::Bench;
use crate::bench::paint::run::to_mount;

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
    assert_eq!(bench.view().hand, Some(RigPart::Manometer), "nothing takes it up there");
    let hand = bench.place_of("manometer");
    let hook = bench.place_of("barometer") - Vec2::new(130.0, 80.0);
    bench.drag(hand, hook);
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Hook);
}

#[test]
fn what_is_carried_is_named_as_on_the_hand_card() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let spots = [Spot::Lid].into_iter().chain(Nut::ALL.map(Spot::Nut)).chain([Spot::Frame]);
    for spot in spots {
        bench.tab_to(spot);
        bench.press(Key::Enter, KeyCode::Enter);
    }
    assert_eq!(bench.view().hand, Some(RigPart::Frame), "{}", bench.said());
    let shown = bench.on_screen();
    assert!(!shown.contains("filter frame") && shown.contains("hold-down frame"), "{shown}");
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
    bench.click("2: move it into the open");
    let exposure = bench.view().thermometer.exposure;
    assert_eq!(exposure, sim_core::session::action::Exposure::Sun);
}

/// A short way to the right of a place.
fn beside(at: Vec2, by: f32) -> Vec2 {
    at + Vec2::new(by, 0.0)
}

#[test]
fn the_hung_manometer_is_swung_by_a_short_drag_and_taken_down_by_a_long_one() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let hook = bench.place_of("barometer") - Vec2::new(130.0, 80.0);
    let lies = bench.place_of("manometer");
    bench.drag(lies, hook);
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Hook);
    let before = bench.view().manometer.tilt_deg;
    let foot = bench.place_of("manometer");
    bench.drag(foot, beside(foot, 30.0));
    let after = bench.view().manometer.tilt_deg;
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Hook, "it still hangs");
    assert!(after - before > 0.5, "it swung from {before} to {after} degrees");
    let case = bench.place_of("carrying case");
    bench.drag(foot, case);
    assert_eq!(
        bench.view().mounting.place(RigPart::Manometer),
        PartPlace::Case,
        "it is taken down"
    );
}

#[test]
fn a_hand_that_trembles_carries_nothing() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let lies = bench.place_of("manometer");
    bench.drag(lies, beside(lies, 3.0));
    assert_eq!(bench.view().hand, None);
    assert_eq!(bench.view().mounting.place(RigPart::Manometer), PartPlace::Case);
}

#[test]
fn the_cap_is_dragged_off_the_pen_and_on_again() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("recorder's door");
    assert!(bench.view().recorder.capped);
    let on = bench.place_of("pen's cap");
    bench.drag(on, on - Vec2::new(60.0, -60.0));
    assert!(!bench.view().recorder.capped);
    let off = bench.place_of("pen's cap");
    assert!(off.distance(on) > 60.0, "it lies somewhere else");
    // A pen without its cap stands elsewhere: the outline shows where.
    let pen = targets(&bench.view(), Carried::PenCap).remove(0).0;
    let pen = bench.in_scene(pen);
    bench.drag(off, pen);
    assert!(bench.view().recorder.capped);
}

/// The calibrator on its plate and the manometer on its hook.
fn mounted(bench: &mut Bench) {
    let dead = [Action::SwitchTimer { to: TimerSwitch::Off }, Action::UnplugSampler];
    for action in dead.into_iter().chain(to_mount()) {
        bench.app.world_mut().write_message(ActRequest(action));
        bench.rest(2);
        assert_eq!(bench.said(), "");
    }
    bench.rest(4);
}

#[test]
fn the_end_of_the_tube_is_dragged_onto_the_tap_and_off() {
    let mut bench = Bench::at_work((1280, 800), 100);
    mounted(&mut bench);
    let end = bench.place_of("tube");
    // Scene units to pixels, from two things whose places are known.
    let (knob, timer) = (bench.place_of("calibrator's knob"), bench.place_of("timer"));
    let scale = (timer.x - knob.x) / (741.0 - 383.5);
    let tap = knob + Vec2::new(541.0 - 383.5, 201.0 - 196.0) * scale;
    let hangs = knob + Vec2::new(773.0 - 383.5, 331.0 - 196.0) * scale;
    assert!(end.distance(hangs) < 20.0 * scale, "the control is not where the end is drawn");
    bench.drag(end, tap);
    assert!(bench.view().tube.on_tap, "{}", bench.said());
    let on = bench.place_of("tube");
    assert!(on.distance(tap) < 3.0, "it is taken where it is");
    bench.drag(on, on + Vec2::new(60.0, 80.0));
    assert!(!bench.view().tube.on_tap);
}

#[test]
fn a_wheel_turned_to_the_side_turns_nothing() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    let before = bench.view();
    let knob = bench.place_of("calibrator's knob");
    bench.point(knob);
    for x in [-3.0, -0.5, 0.0, 0.5, 3.0] {
        bench.wheel(x, 0.0);
    }
    assert_eq!(bench.view().calibrator.knob.to_bits(), before.calibrator.knob.to_bits());
    // Nor does it raise the eye.
    let glass = bench.place_of("loupe");
    bench.point(glass);
    for x in [-3.0, 3.0, 3.0] {
        bench.wheel(x, 0.0);
    }
    assert_eq!(bench.view().eye_mm.to_bits(), before.eye_mm.to_bits());
}

#[test]
fn parts_of_a_notch_turn_the_knob_by_one_step_together() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    let open = bench.view().calibrator.knob;
    let knob = bench.place_of("calibrator's knob");
    bench.point(knob);
    for _ in 0..3 {
        bench.wheel(0.0, -0.25);
        let now = bench.view().calibrator.knob;
        assert_eq!(now.to_bits(), open.to_bits(), "a part of a notch is no step");
    }
    bench.wheel(0.0, -0.25);
    let by = open - bench.view().calibrator.knob;
    assert!((by - 0.05).abs() < 1e-9, "a notch turned it by {by}");
}
