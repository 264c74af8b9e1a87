//! Nothing is cut and nothing lies on anything else, at every size of window and of text.

use bevy::input::keyboard::{Key, KeyCode};
use bevy::prelude::*;
use bevy::ui::UiGlobalTransform;
use bevy::ui_widgets::Scrollbar;
use sim_core::session::action::Action;
use window::desk::ActRequest;
use window::panels::lapse::LapseRequest;
use window::scene::spot_reader::SpotControl;
use window::ui::overlay::Veil;
use window::ui::pan::Pan;

use super::harness::Bench;

/// The sizes of a window in which the bench lies in two columns and is seen whole.
const SIZES: [(u32, u32); 5] = [(1280, 720), (1280, 800), (1366, 768), (1920, 1080), (2560, 1440)];
/// The name beside what is pointed at may lie on the drawing.
pub const PAGES: [&str; 7] =
    ["order", "certificate", "air", "points", "line", "set point", "remarks"];

/// A text as it is laid out.
struct Laid {
    words: String,
    /// Where it lies.
    whole: Rect,
    /// What is seen of it, once everything that scrolls has cut it.
    seen: Rect,
    /// What it scrolls with.
    scrolls: Option<Entity>,
}

/// Where something lies, logical pixels.
fn rect(world: &World, entity: Entity) -> Option<Rect> {
    let node = world.get::<ComputedNode>(entity)?;
    let place = world.get::<UiGlobalTransform>(entity)?;
    let scale = node.inverse_scale_factor();
    Some(Rect::from_center_size(place.translation * scale, node.size() * scale))
}

/// Every text that is shown: of the sheet that lies over the window, when one does.
fn laid(bench: &mut Bench) -> Vec<Laid> {
    let world = bench.app.world_mut();
    let mut veils = world.query_filtered::<Entity, With<Veil>>();
    let veil = veils.iter(world).next();
    let texts = world.query::<(Entity, &Text, &ComputedNode)>();
    let parents = world.query::<&ChildOf>();
    let world = bench.app.world();
    let parents = parents.query_manual(world);
    let mut laid = Vec::new();
    for (entity, text, node) in texts.iter_manual(world) {
        if text.0.trim().is_empty() || node.size().x <= 0.0 {
            continue;
        }
        let mut above = parents.iter_ancestors(entity);
        if veil.is_some_and(|veil| !above.any(|above| above == veil)) {
            continue;
        }
        let Some(whole) = rect(world, entity) else { continue };
        let mut one = Laid { words: text.0.clone(), whole, seen: whole, scrolls: None };
        let mut at = entity;
        while let Some(parent) = world.get::<ChildOf>(at).map(ChildOf::parent) {
            let (Some(around), Some(style)) = (rect(world, parent), world.get::<Node>(parent))
            else {
                break;
            };
            if world.get::<Pan>(parent).is_some() {
                // A small window shows a part of the bench; its texts are apart all the same.
                break;
            }
            if style.overflow.y == OverflowAxis::Scroll {
                one.seen = one.seen.intersect(around);
                one.scrolls = one.scrolls.or(Some(parent));
            } else if one.scrolls.is_none()
                && world
                    .get::<Node>(at)
                    .is_some_and(|node| node.position_type != PositionType::Absolute)
            {
                let room = around.inflate(1.5);
                assert!(
                    room.contains(whole.min) && room.contains(whole.max),
                    "`{}` leaves what is about it: {whole:?} in {around:?}",
                    text.0
                );
            }
            at = parent;
        }
        laid.push(one);
    }
    laid
}

/// Checks that texts are whole and apart.
pub fn check(bench: &mut Bench, size: (u32, u32), what: &str) {
    let window = under_the_window(bench)
        .unwrap_or_else(|| Rect::new(0.0, 0.0, size.0 as f32, size.1 as f32))
        .inflate(1.0);
    let laid = laid(bench);
    assert!(!laid.is_empty(), "{what}: nothing is written anywhere");
    for text in laid.iter().filter(|text| !text.seen.is_empty()) {
        assert!(
            window.contains(text.seen.min) && window.contains(text.seen.max),
            "{what}: `{}` leaves the window: {:?}",
            text.words,
            text.seen
        );
        assert!(
            text.seen.width() >= text.whole.width() - 1.5,
            "{what}: `{}` is cut at its side",
            text.words
        );
    }
    for (at, text) in laid.iter().enumerate() {
        for other in laid.iter().skip(at + 1) {
            // What scrolls together lies as it lies, in sight or not.
            let both = if text.scrolls.is_some() && text.scrolls == other.scrolls {
                text.whole.intersect(other.whole)
            } else {
                text.seen.intersect(other.seen)
            };
            assert!(
                both.width() <= 1.0 || both.height() <= 1.0,
                "{what}: `{}` and `{}` lie on one another",
                text.words,
                other.words
            );
        }
    }
}

/// The whole bench, of which a small window shows a part.
fn under_the_window(bench: &mut Bench) -> Option<Rect> {
    let world = bench.app.world_mut();
    let mut veils = world.query_filtered::<(), With<Veil>>();
    if veils.iter(world).next().is_some() {
        return None;
    }
    let mut pans = world.query_filtered::<&Children, With<Pan>>();
    let inner = *pans.iter(world).next()?.first()?;
    rect(world, inner)
}

#[test]
fn the_list_of_scenarios_is_whole() {
    for size in SIZES {
        for percent in [100, 150, 200] {
            let mut bench = Bench::at_start(size, percent);
            check(&mut bench, size, &format!("list at {size:?}, {percent} %"));
        }
    }
}

#[test]
fn the_bench_is_whole_on_every_page() {
    for size in SIZES {
        for percent in [100, 150, 200] {
            let mut bench = Bench::at_work(size, percent);
            for page in PAGES {
                bench.click(page);
                bench.rest(3);
                let what = format!("{page} at {size:?}, {percent} %");
                check(&mut bench, size, &what);
                no_bars(&mut bench, &what);
            }
            check_scene(&mut bench, size, percent);
        }
    }
}

/// A window in which the whole bench has room has no bars at its sides.
fn no_bars(bench: &mut Bench, what: &str) {
    let world = bench.app.world_mut();
    let mut pans = world.query_filtered::<&ComputedNode, With<Pan>>();
    let pan = pans.single(world).expect("the bench");
    let room = format!("{} in {}", pan.content_size(), pan.size());
    let mut pans = world.query_filtered::<Entity, With<Pan>>();
    let pan = pans.single(world).expect("the bench");
    let mut bars = world.query::<(&Scrollbar, &Node)>();
    let bars = bars.iter(world).filter(|(bar, _)| bar.target == pan);
    let shown = bars.filter(|(_, node)| node.display != Display::None).count();
    assert_eq!(shown, 0, "{what}: {room}");
}

#[test]
fn the_bench_is_whole_on_the_pages_of_a_run() {
    for size in SIZES {
        for percent in [100, 150, 200] {
            let mut bench = Bench::at_run(size, percent);
            for page in ["order", "check", "run", "volume"] {
                bench.click(page);
                bench.rest(3);
                check(&mut bench, size, &format!("{page} at {size:?}, {percent} %"));
            }
            check_scene(&mut bench, size, percent);
            bench.app.world_mut().write_message(ActRequest(Action::LeaveSite));
            bench.rest(4);
            for request in [LapseRequest::StopOrGo, LapseRequest::WhatIsSeen] {
                bench.app.world_mut().write_message(request);
                bench.rest(4);
            }
            check(&mut bench, size, &format!("nobody at the site at {size:?}, {percent} %"));
        }
    }
}

/// The scene keeps its shape and a useful size, and its things can be hit.
fn check_scene(bench: &mut Bench, size: (u32, u32), percent: u16) {
    let mut spots = bench.app.world_mut().query_filtered::<&ComputedNode, With<SpotControl>>();
    let least = spots
        .iter(bench.app.world())
        .map(|node| node.size() * node.inverse_scale_factor())
        .filter(|size| size.x > 0.0)
        .map(|size| size.min_element())
        .fold(f32::INFINITY, f32::min);
    assert!(least >= 7.0, "at {size:?}, {percent} % a thing is only {least} pixels wide");
}

#[test]
fn help_and_settings_are_whole() {
    for size in SIZES {
        for percent in [100, 150, 200] {
            let mut bench = Bench::at_work(size, percent);
            for (key, code, name) in
                [(Key::F1, KeyCode::F1, "help"), (Key::F2, KeyCode::F2, "settings")]
            {
                bench.press(key.clone(), code);
                bench.rest(3);
                let what = format!("{name} at {size:?}, {percent} %");
                let open = laid(&mut bench).iter().any(|text| text.words == "close");
                assert!(open, "{what}: it did not open");
                check(&mut bench, size, &what);
                bench.press(key, code);
                bench.rest(3);
                let open = laid(&mut bench).iter().any(|text| text.words == "close");
                assert!(!open, "{what}: it did not close");
            }
        }
    }
}

#[test]
fn the_debrief_is_whole() {
    for size in SIZES {
        for percent in [100, 150, 200] {
            let mut bench = Bench::at_work(size, percent);
            bench.sign();
            check(&mut bench, size, &format!("debrief at {size:?}, {percent} %"));
        }
    }
}
