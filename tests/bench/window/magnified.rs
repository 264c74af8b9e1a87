//! The loupe: opened over the scene and put back, held nearer and farther away, by keys, by the wheel and
//! by its buttons.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use hands::Spot;

use super::harness::Bench;

fn character(bench: &mut Bench, typed: &str) {
    bench.press(Key::Character(typed.into()), KeyCode::F35);
    bench.rest(3);
}

/// Height of the glass, logical pixels.
fn glass(bench: &mut Bench) -> f32 {
    let glass = bench.node_of("loupe").expect("the loupe").0;
    let node = bench.app.world().get::<ComputedNode>(glass).expect("its place");
    node.size().y * node.inverse_scale_factor()
}

/// What is said of how it is held.
fn said(bench: &mut Bench) -> String {
    bench.value_of("loupe").unwrap_or_default()
}

#[test]
fn it_is_opened_over_the_scene_and_put_back() {
    for (size, percent) in [((1280, 800), 100), ((1280, 800), 200), ((1920, 1080), 100)] {
        let mut bench = Bench::at_work(size, percent);
        bench.tab_to(Spot::Barometer);
        let small = glass(&mut bench);
        character(&mut bench, "z");
        let large = glass(&mut bench);
        assert!(large > 2.4 * small, "{large} after {small} pixels at {size:?}, {percent} %");
        assert!(large > 0.4 * size.1 as f32, "only {large} pixels at {size:?}, {percent} %");
        bench.press(Key::Escape, KeyCode::Escape);
        bench.rest(3);
        assert!((glass(&mut bench) - small).abs() < 0.5, "Esc puts it back");
        bench.click("loupe: open it or put it back");
        bench.rest(3);
        assert!((glass(&mut bench) - large).abs() < 0.5, "its button opens it");
        bench.click("loupe: open it or put it back");
        bench.rest(3);
        assert!((glass(&mut bench) - small).abs() < 0.5, "and puts it back");
    }
}

#[test]
fn it_grows_with_the_window() {
    let side = |size| glass(&mut Bench::at_work(size, 100));
    assert!(side((1920, 1080)) > 1.3 * side((1280, 720)));
    assert!(side((2560, 1440)) > 1.25 * side((1920, 1080)));
}

#[test]
fn it_is_held_nearer_and_farther_away() {
    let mut bench = Bench::at_work((1280, 800), 100);
    bench.tab_to(Spot::Barometer);
    assert_eq!(said(&mut bench), "the station");
    character(&mut bench, "+");
    assert_eq!(said(&mut bench), "the station, 1.5 \u{d7}");
    for _ in 0..5 {
        character(&mut bench, "+");
    }
    assert_eq!(said(&mut bench), "the station, 3 \u{d7}", "nearer it does not go");
    character(&mut bench, "-");
    assert_eq!(said(&mut bench), "the station, 2 \u{d7}");
    let middle = bench.place_of("loupe");
    bench.point(middle);
    bench.wheel(0.0, -1.0);
    bench.rest(3);
    assert_eq!(said(&mut bench), "the station, 1.5 \u{d7}");
    bench.click("loupe: hold it nearer");
    bench.rest(3);
    assert_eq!(said(&mut bench), "the station, 2 \u{d7}");
}

#[test]
fn what_is_typed_holds_no_loupe() {
    let mut bench = Bench::at_work((1280, 800), 100);
    let small = glass(&mut bench);
    bench.click("air");
    bench.rest(3);
    bench.tab_to_label("Air temperature, \u{b0}C");
    bench.type_text("z+-");
    assert!((glass(&mut bench) - small).abs() < 0.5);
    assert_eq!(said(&mut bench), "the station");
}
