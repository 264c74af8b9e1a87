//! What a screen reader is told and what it may ask for: the tree is looked at as the engine hands it over,
//! every node of it, and as a reader goes through it, passing over what is hidden.

use std::collections::BTreeSet;

use accesskit::{Action as Asked, Role};
use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use hands::Spot;
use sim_core::field_book::Field;
use sim_core::rig::parts::Leg;
use window::desk::{Said, Seen};
use window::ui::access::is_pressed;
use window::ui::overlay::Veil;
use window::ui::settings::{Hints, Settings};
use window::ui::told::told;

use super::harness::Bench;

/// Every node that a reader comes to: all that the engine hands over, without what is hidden, what lies
/// in something hidden, and what only holds others together. A node lies in its parent where that is a node too, and else in the window.
fn read(bench: &mut Bench) -> Vec<Entity> {
    let world = bench.app.world_mut();
    let mut nodes = world.query_filtered::<Entity, With<AccessibilityNode>>();
    let all: Vec<Entity> = nodes.iter(world).collect();
    let world = &*world;
    let node = |entity: Entity| world.get::<AccessibilityNode>(entity);
    let parent = |entity: Entity| {
        let above = world.get::<ChildOf>(entity).map(ChildOf::parent)?;
        node(above).map(|_| above)
    };
    let reached = |entity: &Entity| {
        let mut at = Some(*entity);
        while let Some(entity) = at {
            if node(entity).is_none_or(|node| node.is_hidden()) {
                return false;
            }
            at = parent(entity);
        }
        true
    };
    let holds =
        |entity: &Entity| node(*entity).is_some_and(|node| node.role() == Role::GenericContainer);
    all.into_iter().filter(|entity| reached(entity) && !holds(entity)).collect()
}

/// What holds on every screen.
fn check(bench: &mut Bench, what: &str) {
    let read = read(bench);
    assert_eq!(
        told(bench.app.world_mut()).len(),
        read.len(),
        "{what}: other programs are told more or less"
    );
    let world = bench.app.world_mut();
    let mut veils = world.query_filtered::<Entity, With<Veil>>();
    let veil = veils.iter(world).next();
    let parents = world.query::<&ChildOf>();
    let world = &*world;
    let parents = parents.query_manual(world);
    for entity in read {
        let node = world.get::<AccessibilityNode>(entity).expect("a node");
        let name = format!("{what}: {:?} {:?} {:?}", node.role(), node.label(), node.value());
        let mut above: Vec<Entity> = parents.iter_ancestors(entity).collect();
        // What is announced is heard over a sheet too.
        let announced = node.live().is_some();
        let under = veil.is_some_and(|veil| !above.contains(&veil));
        assert!(announced || !under, "{name} lies under a sheet");
        above.push(entity);
        let shown = above.iter().filter_map(|at| world.get::<Node>(*at));
        assert!(shown.into_iter().all(|node| node.display != Display::None), "{name} is not shown");
        if matches!(node.role(), Role::Image | Role::Label) {
            assert!(node.label().is_some() || node.value().is_some(), "{name} tells nothing");
        }
        // Only what is pressed, typed into or turned may be asked for anything but the focus.
        if is_pressed(node.role()) {
            assert!(node.supports_action(Asked::Click), "{name} cannot be pressed");
        }
    }
}

#[test]
fn a_reader_is_told_of_what_is_shown_and_of_nothing_else() {
    let mut bench = Bench::at_start((1280, 800), 100);
    check(&mut bench, "list");
    let mut bench = Bench::at_work((1280, 800), 100);
    check(&mut bench, "bench");
    for page in ["points", "line", "remarks"] {
        bench.click(page);
        check(&mut bench, page);
    }
    for (key, code) in [(Key::F1, KeyCode::F1), (Key::F2, KeyCode::F2)] {
        bench.press(key.clone(), code);
        check(&mut bench, &format!("{key:?}"));
        bench.press(key, code);
        check(&mut bench, "bench again");
    }
    bench.sign();
    check(&mut bench, "debrief");
    let mut bench = Bench::at_run((1280, 800), 100);
    check(&mut bench, "run");
}

#[test]
fn what_lies_under_a_sheet_cannot_be_asked_for() {
    let mut bench = Bench::at_start((1280, 800), 100);
    let world = bench.app.world_mut();
    let mut nodes = world.query::<(Entity, &AccessibilityNode)>();
    let card = nodes
        .iter(world)
        .find(|(_, node)| node.label().is_some_and(|label| label.starts_with("First calibration")))
        .map(|(entity, _)| entity)
        .expect("a card");
    bench.press(Key::F2, KeyCode::F2);
    bench.ask_as_reader(card, Asked::Click);
    bench.rest(6);
    assert!(!bench.app.world().contains_resource::<Seen>(), "a session was begun under the sheet");
    bench.press(Key::F2, KeyCode::F2);
    bench.ask_as_reader(card, Asked::Click);
    bench.rest(6);
    assert!(bench.app.world().contains_resource::<Seen>());
}

#[test]
fn knob_and_valve_say_how_far_they_are_open_and_are_turned() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    let (knob, node) = bench.node_of("calibrator's knob").expect("it is told");
    assert_eq!(node.role(), Role::Slider);
    let numbers = (node.min_numeric_value(), node.numeric_value(), node.max_numeric_value());
    assert_eq!(numbers, (Some(0.0), Some(100.0), Some(100.0)));
    bench.ask_as_reader(knob, Asked::Decrement);
    let after = bench.view().calibrator.knob;
    assert!((after - 0.95).abs() < 1e-9, "it stands at {after}");
    let (_, node) = bench.node_of("calibrator's knob").expect("it is told");
    assert_eq!(node.numeric_value(), Some(95.0));

    bench.tab_to(Spot::Manometer);
    bench.press(Key::Enter, KeyCode::Enter);
    bench.press(Key::Enter, KeyCode::Enter);
    let (valve, node) = bench.node_of(&Spot::Valve(Leg::Left).name()).expect("it is told");
    assert_eq!(node.role(), Role::SpinButton);
    assert_eq!(node.numeric_value(), Some(0.0));
    assert!(node.value().is_some_and(|value| !value.is_empty()));
    bench.ask_as_reader(valve, Asked::Increment);
    assert_eq!(bench.view().manometer.left.valve_quarters, 2);
    bench.ask_as_reader(valve, Asked::Decrement);
    assert_eq!(bench.view().manometer.left.valve_quarters, 0);
}

#[test]
fn whatever_offers_to_be_turned_is_turned_by_a_reader() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.mount_calibrator();
    for entity in read(&mut bench) {
        let node = bench.app.world().get::<AccessibilityNode>(entity).expect("a node").clone();
        if !node.supports_action(Asked::Increment) {
            continue;
        }
        *bench.app.world_mut().resource_mut::<Said>() = Said::Nothing;
        let before = bench.done().len();
        let up = node.numeric_value().is_none_or(|now| Some(now) < node.max_numeric_value());
        bench.ask_as_reader(entity, if up { Asked::Increment } else { Asked::Decrement });
        let refused = matches!(bench.saying(), Said::Refused(_));
        assert!(bench.done().len() > before || refused, "{:?} does nothing", node.label());
    }
}

#[test]
fn the_keys_of_the_pad_are_pressed_by_a_reader() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.app.world_mut().resource_mut::<Settings>().hints = Hints::Pointer;
    bench.click("air");
    bench.click("Station pressure, mmHg");
    for key in ["key 7", "key 6", "key 2", "key: take back", "key 1"] {
        let (entity, node) = bench.node_of(key).unwrap_or_else(|| panic!("{key} is not told"));
        assert!(node.supports_action(Asked::Click));
        bench.ask_as_reader(entity, Asked::Click);
    }
    let (done, _) = bench.node_of("key: done").expect("it is told");
    bench.ask_as_reader(done, Asked::Click);
    assert_eq!(bench.written(Field::Pressure).as_deref(), Some("761"));
}

#[test]
fn a_choice_says_whether_it_is_the_one_in_force() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.press(Key::F2, KeyCode::F2);
    let chosen = |bench: &mut Bench| -> BTreeSet<String> {
        read(bench)
            .into_iter()
            .filter_map(|entity| bench.app.world().get::<AccessibilityNode>(entity))
            .filter(|node| node.toggled() == Some(accesskit::Toggled::True))
            .filter_map(|node| node.label().map(str::to_owned))
            .collect()
    };
    let usual = ["100 %", "\u{b0}C", "mmHg", "m\u{b3}/min"].map(str::to_owned);
    assert_eq!(chosen(&mut bench), BTreeSet::from(usual));
    bench.click("hPa");
    let other = ["100 %", "\u{b0}C", "hPa", "m\u{b3}/min"].map(str::to_owned);
    assert_eq!(chosen(&mut bench), BTreeSet::from(other));
}
