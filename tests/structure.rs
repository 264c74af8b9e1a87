//! How the house is built: which file uses which, and which crates and parts of the standard library a
//! package may not touch. Read from the sources, by the small reader in this folder.
//!
//! That a module declares another (`mod x;`) ties nothing: otherwise no child could use what lies
//! beside it in its parent. A re-export does, and so does every import and every path in code. What
//! only tests use is left out.

mod circles;
mod items;
mod made_up;
mod tokens;
mod uses;
mod workspace;

use std::collections::BTreeSet;
use std::sync::OnceLock;

use circles::circles;
use uses::{Uses, uses};
use workspace::{Package, dependencies, packages};

/// Where the window lives: nobody else may know its engine.
const WINDOW: &str = "game/window";

/// The packages and what they use, read once for all tests.
fn product() -> &'static (Vec<Package>, Uses) {
    static PRODUCT: OnceLock<(Vec<Package>, Uses)> = OnceLock::new();
    PRODUCT.get_or_init(|| {
        let packages = packages(&bench_tests::repository());
        let uses = uses(&packages);
        (packages, uses)
    })
}

/// Whether a file belongs to a package.
fn lies_in(file: &str, folder: &str) -> bool {
    file.strip_prefix(folder).is_some_and(|rest| rest.starts_with("/src/"))
}

#[test]
fn no_files_use_each_other_in_a_circle() {
    let (packages, uses) = product();
    for Package { folder, .. } in packages {
        let read = uses.inside.iter().any(|edge| lies_in(&edge.from, folder));
        assert!(read, "nothing was read in {folder}");
    }
    let circles: Vec<String> = circles(&uses.inside).iter().map(ToString::to_string).collect();
    assert!(circles.is_empty(), "{}", circles.join("\n"));
}

#[test]
fn every_path_into_our_own_packages_is_followed() {
    let found = &product().1;
    assert!(found.lost.is_empty(), "{}", found.lost.join("\n"));
    assert!(found.inside.len() > 1000, "only {} uses were read", found.inside.len());
}

#[test]
fn only_the_window_knows_its_engine() {
    let (packages, uses) = product();
    let mut found: Vec<String> = uses
        .outside
        .iter()
        .filter(|use_of| !lies_in(&use_of.from, WINDOW) && is_engine(&use_of.path))
        .map(|use_of| format!("{}:{}: {}", use_of.from, use_of.line, use_of.path.join("::")))
        .collect();
    let others = packages.iter().filter(|package| package.folder != WINDOW);
    found.extend(
        others
            .filter(|package| depends_on_engine(&package.manifest))
            .map(|package| format!("{}/Cargo.toml depends on the engine", package.folder)),
    );
    assert!(found.is_empty(), "{}", found.join("\n"));
    assert!(packages.iter().any(|package| depends_on_engine(&package.manifest)));
}

#[test]
fn neither_core_nor_window_opens_files_or_asks_a_clock() {
    let (packages, Uses { outside, .. }) = product();
    let folders = ["sim-core", WINDOW];
    let found: Vec<String> = outside
        .iter()
        .filter(|use_of| folders.iter().any(|folder| lies_in(&use_of.from, folder)))
        .filter(|use_of| is_file_or_clock(&use_of.path))
        .map(|use_of| format!("{}:{}: {}", use_of.from, use_of.line, use_of.path.join("::")))
        .collect();
    assert!(found.is_empty(), "{}", found.join("\n"));
    for folder in folders {
        let is_member = packages.iter().any(|package| package.folder == folder);
        assert!(is_member, "{folder} is no member of the workspace");
    }
}

/// The rooms of the window, each of which knows those before it and none behind.
const ROOMS: [&str; 5] = ["ui", "desk", "scene", "panels", "pages"];

/// The number of the room that a file of the window lies in; `None` for what lies in no room, and so
/// may know them all.
fn room(file: &str) -> Option<usize> {
    let inside = file.strip_prefix(WINDOW)?.strip_prefix("/src/")?;
    ROOMS.iter().position(|room| inside.split('/').next() == Some(room))
}

#[test]
fn each_room_of_the_window_knows_only_those_before_it() {
    let inside = &product().1.inside;
    let behind: Vec<String> = inside
        .iter()
        .filter(|edge| room(&edge.from).zip(room(&edge.to)).is_some_and(|(from, to)| from < to))
        .map(ToString::to_string)
        .collect();
    assert!(behind.is_empty(), "{}", behind.join("\n"));
    for (number, name) in ROOMS.iter().enumerate() {
        assert!(inside.iter().any(|edge| room(&edge.from) == Some(number)), "there is no {name}");
    }
    // Only what puts the window together may look into the rooms from outside of them.
    let window = inside.iter().filter(|edge| lies_in(&edge.from, WINDOW));
    let outside: Vec<String> = window
        .filter(|edge| room(&edge.from).is_none() && room(&edge.to).is_some())
        .filter(|edge| !edge.from.ends_with("/app.rs") && !edge.from.contains("/sound/"))
        .map(ToString::to_string)
        .collect();
    assert!(outside.is_empty(), "{}", outside.join("\n"));
}

/// What is said and reported: it may change without the window being compiled again.
const NOT_BELOW_WINDOW: [&str; 2] = ["report", "words"];

/// The packages of ours that lie below one of them, itself included: whatever it is compiled after, for
/// its tests as well.
fn below(packages: &[Package], name: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    let mut open = vec![name.to_owned()];
    while let Some(name) = open.pop() {
        let Some(package) = packages.iter().find(|package| package.name == name) else { continue };
        if found.insert(name) {
            open.extend(dependencies(&package.manifest));
        }
    }
    found
}

#[test]
fn the_window_stands_on_neither_words_nor_report() {
    let packages = &product().0;
    let window = below(packages, "window");
    for name in NOT_BELOW_WINDOW {
        assert!(!window.contains(name), "the window depends on {name}: {window:?}");
        // What has no such package cannot depend on it: both are there, and below the program.
        assert!(below(packages, "steady-draw").contains(name), "there is no package {name}");
    }
    let expected = ["content", "hands", "paint", "sessions", "sim-core", "window"];
    assert_eq!(window, expected.map(str::to_owned).into());
}

#[test]
fn dependencies_are_read_from_every_part_of_a_manifest() {
    let manifest = "[package]\nname = \"a\"\n[dependencies]\nb.workspace = true\nc = \"1\"\n\
        # d = \"1\"\n[dev-dependencies]\ne-f = { path = \"g\" }\n[dependencies.h]\noptional = true\n\
        [target.'cfg(unix)'.dependencies]\ni = \"1\"\n[target.'cfg(unix)'.dependencies.j]\nk = \"1\"\n\
        [features]\nl = []\n";
    let names = ["b", "c", "e-f", "h", "i", "j"].map(str::to_owned);
    assert_eq!(dependencies(manifest), names.into());
}

/// Whether a path leads into the engine or a crate of it.
fn is_engine(path: &[String]) -> bool {
    path.first().is_some_and(|name| name == "bevy" || name.starts_with("bevy_"))
}

/// Whether a manifest names the engine as a dependency.
fn depends_on_engine(manifest: &str) -> bool {
    manifest.lines().map(str::trim).any(|line| {
        let line = line.strip_prefix("[dependencies.").unwrap_or(line);
        line.starts_with("bevy") && !line.starts_with("bevy/")
    })
}

/// Whether a path leads to files or to a clock, or to so much that it may.
fn is_file_or_clock(path: &[String]) -> bool {
    let names: Vec<&str> = path.iter().map(String::as_str).collect();
    matches!(
        names.as_slice(),
        ["std", "fs", ..] | ["std", "time", "Instant" | "SystemTime" | "UNIX_EPOCH" | "*", ..]
    )
}
