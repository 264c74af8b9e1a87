//! The accessible tree of every screen, kept as text: role and name of everything, in the order of
//! the Tab key; and the rules that hold for all of it.

use std::collections::BTreeSet;

use bevy::a11y::AccessibilityNode;
use bevy::input::keyboard::{Key, KeyCode};
use bevy::input_focus::tab_navigation::{TabGroup, TabIndex};
use bevy::prelude::*;
use window::ui::access::is_worked;
use window::ui::told::{Told, told};

use super::harness::Bench;

const SIZE: (u32, u32) = (1280, 800);
const PAGES: [&str; 7] = ["order", "certificate", "air", "points", "line", "set point", "remarks"];

/// A line for each thing: its place in the order of the Tab key, its role, its name.
fn tree(told: &[Told]) -> String {
    let mut text = String::new();
    // Texts and pictures without a name are what is written and drawn, which changes.
    let named = told.iter().filter(|one| !(one.label.is_empty() && is_plain(&one.role)));
    for (number, one) in named.enumerate() {
        let place = if one.tab { format!("{:>3}", number + 1) } else { "  -".to_owned() };
        text.push_str(&format!("{place} {} {}\n", one.role, one.label));
    }
    text
}

/// Whether a role is that of something which is only looked at or read, or which only holds others.
fn is_plain(role: &str) -> bool {
    let holds = matches!(role, "GenericContainer" | "Row" | "Cell" | "ColumnHeader" | "RowHeader");
    holds || matches!(role, "Label" | "Image")
}

/// The tree of the whole window.
fn whole(bench: &mut Bench) -> String {
    tree(&told(bench.app.world_mut()))
}

/// The tree of a sheet that a key lays over the window.
fn sheet(bench: &mut Bench, key: Key, code: KeyCode) -> String {
    let mut under = told(bench.app.world_mut());
    bench.press(key, code);
    bench.rest(3);
    let mut all = told(bench.app.world_mut());
    all.retain(|one| {
        let same = |other: &Told| (&other.role, &other.label) == (&one.role, &one.label);
        under.iter().position(same).map(|at| under.remove(at)).is_none()
    });
    rules(bench);
    tree(&all)
}

/// What holds everywhere: nothing without a name, no two of a name side by side in the order of the
/// Tab key, and whatever can be worked is in that order, but for the keys of the pad, which are for
/// pointers.
fn rules(bench: &mut Bench) {
    let world = bench.app.world_mut();
    let nodes = world.query::<(Entity, &AccessibilityNode)>();
    let parents = world.query::<&ChildOf>();
    let world = &*world;
    let mut names = BTreeSet::new();
    let mut count = 0;
    for (entity, node) in nodes.iter_manual(world) {
        // What is not shown is hidden from readers.
        if node.is_hidden() {
            continue;
        }
        let name = node.label().unwrap_or_default().trim().to_owned();
        let plain = is_plain(&format!("{:?}", node.role()));
        assert!(plain || !name.is_empty(), "a {:?} has no name", node.role());
        let group = parents
            .query_manual(world)
            .iter_ancestors(entity)
            .find(|above| world.get::<TabGroup>(*above).is_some());
        let parent = world.get::<ChildOf>(entity).map(ChildOf::parent);
        let index = world.get::<TabIndex>(entity).map_or(-1, |index| index.0);
        if is_worked(node.role()) && !name.starts_with("key") {
            assert!(group.is_some() && index >= 0, "Tab never comes to `{name}`");
            count += 1;
        }
        if index >= 0 {
            assert!(names.insert((parent, name.clone())), "two are called `{name}`");
        }
    }
    assert!(count > 0, "there is nothing to work");
}

#[test]
fn the_list_has_its_tree() {
    let mut bench = Bench::at_start(SIZE, 100);
    insta::assert_snapshot!(whole(&mut bench));
    rules(&mut bench);
}

#[test]
fn the_bench_has_its_tree_on_every_page() {
    let mut bench = Bench::at_work(SIZE, 100);
    for page in PAGES {
        bench.click(page);
        bench.rest(3);
        insta::assert_snapshot!(page.replace(' ', "_"), whole(&mut bench));
        rules(&mut bench);
    }
}

#[test]
fn the_pages_of_a_run_have_their_trees() {
    let mut bench = Bench::at_run(SIZE, 100);
    for page in ["check", "run", "volume"] {
        bench.click(page);
        bench.rest(3);
        insta::assert_snapshot!(page, whole(&mut bench));
        rules(&mut bench);
    }
}

#[test]
fn help_and_settings_have_their_trees() {
    let mut bench = Bench::at_work(SIZE, 100);
    insta::assert_snapshot!("help", sheet(&mut bench, Key::F1, KeyCode::F1));
    bench.press(Key::F1, KeyCode::F1);
    bench.rest(3);
    insta::assert_snapshot!("settings", sheet(&mut bench, Key::F2, KeyCode::F2));
}

#[test]
fn the_debrief_has_its_tree() {
    let mut bench = Bench::at_work(SIZE, 100);
    bench.sign();
    insta::assert_snapshot!("debrief", whole(&mut bench));
    rules(&mut bench);
}
