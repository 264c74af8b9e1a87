//! Everything that can be worked has a role, a name, and its place in the order of the Tab key.

use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::tab_navigation::TabIndex;
use bevy::prelude::*;
use hands::Spot;
use window::scene::owners::is_there;
use window::scene::spot_reader::SpotControl;
use window::ui::access::is_worked;

use super::harness::Bench;

#[test]
fn everything_that_takes_the_focus_has_a_role_and_a_name() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let mut controls =
        bench.app.world_mut().query::<(Entity, &TabIndex, Option<&AccessibilityNode>)>();
    let mut count = 0;
    for (entity, _, node) in controls.iter(bench.app.world()) {
        let node = node.unwrap_or_else(|| panic!("{entity} has no place in the accessible tree"));
        assert!(is_worked(node.role()), "{:?}", node.role());
        // The nine places for offers have no name while nothing is offered in them.
        let unused = bench.app.world().get::<Node>(entity).unwrap().display == Display::None;
        assert!(unused || node.label().is_some_and(|label| !label.is_empty()), "{entity}");
        count += 1;
    }
    assert!(count > 50, "only {count} controls");
}

#[test]
fn things_say_how_they_stand() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let mut spots = bench.app.world_mut().query::<(&SpotControl, &AccessibilityNode)>();
    let said: Vec<(Spot, Option<String>)> = spots
        .iter(bench.app.world())
        .map(|(spot, node)| (spot.0, node.value().map(str::to_owned)))
        .collect();
    assert_eq!(said.len(), Spot::all().len());
    for (spot, value) in said {
        assert!(value.is_some_and(|value| !value.is_empty()), "{spot:?} says nothing");
    }
}

#[test]
fn tab_goes_through_the_things_in_the_order_of_the_work() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let view = bench.view();
    let expected: Vec<Spot> =
        Spot::all().into_iter().filter(|&spot| is_there(&view, spot)).collect();
    bench.tab_to(Spot::Sky);
    let mut order = vec![Spot::Sky];
    for _ in 1..expected.len() {
        bench.press(Key::Tab, KeyCode::Tab);
        order.push(bench.at_hand().expect("a thing"));
    }
    assert_eq!(order, expected);
    bench.press(Key::Tab, KeyCode::Tab);
    assert_eq!(bench.at_hand(), None, "after the scene comes the field book");
}

#[test]
fn f6_goes_from_scene_to_book_to_watch_and_round() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Timer);
    bench.press(Key::F6, KeyCode::F6);
    let first = "certificate: blank";
    assert_eq!(bench.label_of_focus().as_deref(), Some(first), "the first on the open page");
    bench.press(Key::F6, KeyCode::F6);
    assert_eq!(bench.label_of_focus().as_deref(), Some("10 s"));
    bench.press(Key::F6, KeyCode::F6);
    assert_eq!(bench.at_hand(), Some(Spot::Timer), "back to the thing that was at hand");
}
