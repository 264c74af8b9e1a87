//! A window of 640 by 480: a part of the bench at a time, and all of it within reach.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::InputFocus;
use bevy::prelude::*;
use window::ui::told::told;

use super::harness::Bench;
use super::layout::{PAGES, check};

const SIZE: (u32, u32) = (640, 480);

#[test]
fn nothing_is_cut_and_nothing_lies_on_anything_else() {
    for percent in [100, 200] {
        let mut bench = Bench::at_start(SIZE, percent);
        check(&mut bench, SIZE, &format!("list at {percent} %"));
        let mut bench = Bench::at_work(SIZE, percent);
        for page in PAGES {
            bench.tab_to_label(page);
            bench.press(Key::Enter, KeyCode::Enter);
            check(&mut bench, SIZE, &format!("{page} at {percent} %"));
        }
        for (key, code) in [(Key::F1, KeyCode::F1), (Key::F2, KeyCode::F2)] {
            bench.press(key.clone(), code);
            bench.rest(3);
            check(&mut bench, SIZE, &format!("{key:?} at {percent} %"));
            bench.press(key, code);
            bench.rest(3);
        }
    }
}

#[test]
fn whatever_gets_the_focus_is_moved_into_the_window() {
    for percent in [100, 200] {
        let mut bench = Bench::at_work(SIZE, percent);
        let mut met = std::collections::BTreeSet::new();
        for _ in 0..140 {
            bench.press(Key::Tab, KeyCode::Tab);
            bench.rest(3);
            let Some(label) = bench.label_of_focus() else { continue };
            seen_whole(&mut bench, &label, percent);
            met.insert(label);
        }
        for label in ["lid of the shelter", "10 s", "remarks", "barometer"] {
            assert!(met.contains(label), "Tab never came to {label} at {percent} %");
        }
    }
}

/// What has the focus is seen, whole unless it is larger than the window.
fn seen_whole(bench: &mut Bench, label: &str, percent: u16) {
    let focus = bench.app.world().resource::<InputFocus>().get().expect("a focus");
    let size = bench.app.world().get::<ComputedNode>(focus).expect("a place").size();
    let wanted = size.min(Vec2::new(SIZE.0 as f32 - 20.0, SIZE.1 as f32 - 20.0));
    let told = told(bench.app.world_mut());
    let seen = told.iter().find(|one| one.focus).and_then(|one| one.seen);
    let [left, top, right, foot] =
        seen.unwrap_or_else(|| panic!("{label} is out of sight at {percent} %"));
    assert!(
        left >= -0.5 && top >= -0.5 && right <= SIZE.0 as f32 + 0.5 && foot <= SIZE.1 as f32 + 0.5,
        "{label} at {percent} %: {seen:?}"
    );
    assert!(
        right - left >= wanted.x - 2.0 && foot - top >= wanted.y - 2.0,
        "only {seen:?} of {label}, {size:?}, is seen at {percent} %"
    );
}
