//! The pointer alone: looking, moving, carrying.

use bevy::input::ButtonState;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::picking::hover::Hovered;
use bevy::prelude::{ComputedNode, Text, Vec2};
use bevy::ui::UiGlobalTransform;
use hands::Spot;
use sim_core::rig::parts::{Nut, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Action, Sight};
use window::desk::ActRequest;
use window::scene::owners::is_there;
use window::scene::places::{Area, Carried, LOUPE, targets};
use window::scene::reach::Reach;
use window::scene::spot_reader::SpotControl;
use window::scene::word::NOTHING_THERE;

use super::harness::Bench;
use crate::bench::paint::run::to_mount;

#[test]
fn a_click_only_looks_and_the_card_acts() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("barometer");
    assert_eq!(bench.view().focus, Sight::Barometer);
    let before = bench.view();
    for spot in Spot::all().into_iter().filter(|&spot| is_there(&before, spot)) {
        for _ in 0..2 {
            bench.click(&spot.name());
        }
        assert_eq!(bench.at_hand(), Some(spot), "what was clicked is on the hand card");
    }
    let acts = bench.done();
    let acted = acts.iter().find(|act| !matches!(act, Action::Look { .. }));
    assert_eq!(acted, None, "a click did more than to look");
    bench.click("lid of the shelter");
    bench.click("1: open the lid");
    assert!(bench.view().mounting.lid_open);
}

#[test]
fn a_number_pressed_twice_does_not_undo_what_it_did() {
    let mut bench = Bench::at_work((1280, 800), 100);
    for (spot, key) in [(Spot::Lid, '1'), (Spot::Door, '1'), (Spot::Cord, '1'), (Spot::Timer, '1')]
    {
        bench.tab_to(spot);
        for _ in 0..2 {
            bench.press(Key::Character(key.to_string().as_str().into()), KeyCode::F35);
        }
    }
    let view = bench.view();
    assert!(view.mounting.lid_open && view.recorder.door_open);
    assert!(!view.power.sampler_cord_in);
    assert_eq!(view.power.timer_switch, TimerSwitch::Off);
}

#[test]
fn a_click_on_nothing_says_so_where_the_hand_is() {
    let mut bench = Bench::at_work((1280, 800), 100);
    // On the wall of the cabinet.
    let wall = Area { x: 700.0, y: 715.0, w: 1.0, h: 1.0 };
    let wall = [wall, Area { x: 290.0, y: 660.0, ..wall }];
    let reach = Reach::of(&bench.view());
    let wall = wall.into_iter().find(|at| reach.at(at.x, at.y).is_none()).expect("a bare place");
    let wall = bench.in_scene(wall);
    bench.point(wall);
    bench.button(ButtonState::Pressed);
    bench.button(ButtonState::Released);
    assert_eq!(bench.said(), NOTHING_THERE);
    let world = bench.app.world_mut();
    let mut texts = world.query::<(&Text, &ComputedNode, &UiGlobalTransform)>();
    let near = texts.iter(world).any(|(text, node, place)| {
        text.0 == NOTHING_THERE && node.size().x > 0.0 && place.translation.distance(wall) < 260.0
    });
    assert!(near, "it is not said where the hand is");
    bench.click("barometer");
    assert_eq!(bench.said(), "", "it is forgotten over a thing");
}

#[test]
fn a_refused_drag_says_why_where_the_hand_is() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.click("lid of the shelter");
    bench.click("1: open the lid");
    let frame = bench.place_of("hold-down frame");
    let roof = bench.place_of("roof beside the stand");
    bench.drag(frame, roof);
    let why = bench.said();
    assert!(why.contains("take all four nuts off first"), "{why}");
    let world = bench.app.world_mut();
    let mut texts = world.query::<(&Text, &ComputedNode, &UiGlobalTransform)>();
    let near = texts.iter(world).any(|(text, node, place)| {
        text.0 == why && node.size().x > 0.0 && place.translation.distance(roof) < 260.0
    });
    assert!(near, "it is not said where the hand is");
}

#[test]
fn what_the_pointer_meets_is_what_is_drawn_there() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    let reach = Reach::of(&bench.view());
    let mut met = std::collections::BTreeSet::new();
    for at in 0..480 {
        let (x, y) = ((at % 32) as f32 * 35.0 + 11.0, (at / 32) as f32 * 52.0 + 17.0);
        let place = bench.in_scene(Area { x, y, w: 1.0, h: 1.0 });
        let round = LOUPE.holds(x, y);
        bench.point(place);
        bench.rest(1);
        let world = bench.app.world_mut();
        let mut spots = world.query::<(&SpotControl, &Hovered)>();
        let hovered: Vec<Spot> =
            spots.iter(world).filter(|(_, over)| over.get()).map(|(spot, _)| spot.0).collect();
        let expected: Vec<Spot> = reach.at(x + 0.5, y + 0.5).into_iter().collect();
        if !round {
            assert_eq!(hovered, expected, "at {x}, {y}");
        }
        met.extend(expected);
    }
    assert!(met.len() > 20, "{met:?}");
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
    // It has gone with the hand.
    let foot = bench.place_of("manometer");
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
    bench.click("1: open the door");
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
    // Scene units to pixels, from two things whose places are known.
    let (knob, timer) = (bench.place_of("calibrator's knob"), bench.place_of("timer"));
    let scale = (timer.x - knob.x) / (741.0 - 383.5);
    let tap = knob + Vec2::new(541.0 - 383.5, 201.0 - 196.0) * scale;
    let hangs = knob + Vec2::new(773.0 - 383.5, 331.0 - 196.0) * scale;
    bench.drag(hangs, tap);
    assert!(bench.view().tube.on_tap, "{}", bench.said());
    let on = bench.place_of("tube");
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

#[test]
fn what_is_dragged_follows_the_hand() {
    let mut bench = Bench::at_work((1280, 800), 100);
    mounted(&mut bench);
    let scale = bench.in_scene(Area { x: 100.0, y: 0.0, w: 0.0, h: 0.0 }).x
        - bench.in_scene(Area { x: 0.0, y: 0.0, w: 0.0, h: 0.0 }).x;
    let unit = scale / 100.0;
    // The scale goes up with the hand, an inch of it for an inch.
    let stood = bench.view().manometer.scale_in;
    let from = bench.place_of("manometer's scale");
    bench.drag(from, from - Vec2::new(0.0, 31.0 * unit));
    let slid = bench.view().manometer.scale_in;
    let by = slid - stood;
    assert!((by - 1.0).abs() < 0.04, "the scale was slid by {by} in");
    // A pixel moves it by less than it is read to.
    let from = bench.place_of("manometer's scale");
    bench.drag(from, from + Vec2::new(0.0, 1.0));
    let by = slid - bench.view().manometer.scale_in;
    assert!((0.005..0.06).contains(&by), "a pixel slides it by {by} in");
    // The foot of the manometer goes to the right with the hand, and by tenths of a degree.
    let hook = bench.in_scene(Area { x: 894.0, y: 74.0, w: 0.0, h: 0.0 });
    let foot = bench.in_scene(Area { x: 960.0, y: 700.0, w: 0.0, h: 0.0 });
    let before = bench.view().manometer.tilt_deg;
    bench.drag(foot, foot + Vec2::new(5.0, 0.0));
    let swung = bench.view().manometer.tilt_deg - before;
    let meant = f64::from((5.0 / foot.distance(hook)).to_degrees());
    assert!((swung - meant).abs() < 0.11, "it swung by {swung} degrees for {meant}");
    // Clockwise closes the knob.
    let knob = bench.place_of("calibrator's knob");
    let open = bench.view().calibrator.knob;
    let rim = knob - Vec2::new(0.0, 20.0 * unit);
    bench.drag(rim, knob + Vec2::new(20.0 * unit, 0.0));
    let closed = open - bench.view().calibrator.knob;
    assert!((closed - 90.0 / 240.0).abs() < 0.03, "a quarter turn closes it by {closed}");
    // Held at its middle it goes on turning however far the hand goes to the side.
    let before = bench.view().calibrator.knob;
    let along: Vec<Vec2> =
        [0.0, 4.0, 16.0, 32.0].map(|units| knob + Vec2::new(units * unit, 0.0)).to_vec();
    bench.drag_along(&along);
    let closed = before - bench.view().calibrator.knob;
    let meant = (32.0_f64 / 24.0).to_degrees() / 240.0;
    assert!((closed - meant).abs() < 0.04, "it closes by {closed} for {meant}");
}
