//! The reader of sources, tried on sources that were made up for it.

use std::collections::BTreeMap;

use super::circles::circles;
use super::uses::{Uses, uses};
use super::workspace::{Package, members};
use super::{depends_on_engine, is_engine, is_file_or_clock};

/// A package `core` of these files.
fn package(files: &[(&str, &str)]) -> Package {
    named("core", files)
}

fn named(name: &str, files: &[(&str, &str)]) -> Package {
    let sources: BTreeMap<String, String> = files
        .iter()
        .map(|(file, text)| (format!("{name}/src/{file}"), (*text).to_owned()))
        .collect();
    let roots = vec![format!("{name}/src/lib.rs")];
    let folder = name.to_owned();
    Package {
        folder,
        name: name.to_owned(),
        crate_name: name.to_owned(),
        manifest: String::new(),
        roots,
        sources,
    }
}

fn read(files: &[(&str, &str)]) -> Uses {
    uses(&[package(files)])
}

/// Who uses whom, as `a.rs > b.rs`, each once.
fn edges(found: &Uses) -> Vec<String> {
    assert!(found.lost.is_empty(), "{:?}", found.lost);
    let short = |file: &str| file.replacen("core/src/", "", 1);
    let mut edges: Vec<String> = found
        .inside
        .iter()
        .filter(|edge| edge.from != edge.to)
        .map(|edge| format!("{} > {}", short(&edge.from), short(&edge.to)))
        .collect();
    edges.sort();
    edges.dedup();
    edges
}

#[test]
fn two_files_that_import_each_other_are_a_circle() {
    let found = read(&[
        ("lib.rs", "mod a; mod b; mod c;"),
        ("a.rs", "use crate::b::B;\npub struct A(B);"),
        ("b.rs", "pub struct B;\n\nuse super::a::A;\nimpl B { fn a(&self) -> Option<A> { None } }"),
        ("c.rs", "use crate::a::A;"),
    ]);
    let circles = circles(&found.inside);
    assert_eq!(circles.len(), 1);
    assert_eq!(
        circles[0].to_string(),
        "a circle of 2 files:\n  \
         core/src/a.rs:1 uses core/src/b.rs by `crate::b::B`\n  \
         core/src/b.rs:3 uses core/src/a.rs by `super::a::A`\n"
    );
}

#[test]
fn a_circle_of_three_is_found_by_a_path_in_code_and_two_circles_are_told_apart() {
    let found = read(&[
        ("lib.rs", "mod a; mod b; mod c; mod d; mod e;"),
        ("a.rs", "pub fn a() { crate::b::b() }"),
        ("b.rs", "pub fn b() { super::c::C::new(); }"),
        ("c.rs", "pub struct C; impl C { pub fn new() -> Self { crate::a::a(); Self } }"),
        ("d.rs", "use crate::{a::a, e::E}; pub type D = E;"),
        ("e.rs", "pub enum E { One(Box<crate::d::D>) }"),
    ]);
    let files: Vec<Vec<String>> = circles(&found.inside).into_iter().map(|c| c.files).collect();
    assert_eq!(
        files,
        [
            vec!["core/src/a.rs", "core/src/b.rs", "core/src/c.rs"],
            vec!["core/src/d.rs", "core/src/e.rs"]
        ]
    );
}

#[test]
fn a_name_leads_through_re_exports_to_the_file_that_declares_it() {
    let found = read(&[
        ("lib.rs", "pub mod room; mod user;"),
        (
            "room/mod.rs",
            "mod types; mod more; pub use types::{Thing, Other as Renamed}; pub use more::*;",
        ),
        ("room/types.rs", "pub struct Thing; pub struct Other;"),
        ("room/more.rs", "pub const MORE: u8 = 1;"),
        ("user.rs", "use crate::room::{self, Renamed, MORE}; fn f() { room::Thing; }"),
    ]);
    assert_eq!(
        edges(&found),
        [
            "room/mod.rs > room/more.rs",
            "room/mod.rs > room/types.rs",
            "user.rs > room/mod.rs",
            "user.rs > room/more.rs",
            "user.rs > room/types.rs",
        ]
    );
}

#[test]
fn a_child_may_use_what_lies_beside_it_and_its_parent_may_not_use_the_child_back() {
    let parent = "mod child;\npub struct Shared;";
    let child = "use super::Shared;\npub struct Child(Shared);";
    let found = read(&[("lib.rs", "mod p;"), ("p.rs", parent), ("p/child.rs", child)]);
    assert_eq!(edges(&found), ["p/child.rs > p.rs"]);
    assert!(circles(&found.inside).is_empty());
    let parent = format!("{parent}\npub use child::Child;");
    let found = read(&[("lib.rs", "mod p;"), ("p.rs", &parent), ("p/child.rs", child)]);
    assert_eq!(circles(&found.inside).len(), 1);
}

#[test]
fn what_is_for_tests_comments_and_texts_tie_nothing() {
    let found = read(&[
        ("lib.rs", "mod a; mod b;\n#[cfg(test)]\nmod tests;\n#[cfg(not(test))] mod c;"),
        (
            "a.rs",
            "// use crate::b::B;\n/* crate::b::B /* nested */ crate::b::B */\n\
             const TEXT: &str = \"crate::b::B \\\" crate::b::B\"; const RAW: &str = r#\"\" crate::b::B\"#;\n\
             fn lives<'a>(c: &'a char) -> bool { *c == '\"' || *c == '\\'' }\n\
             #[cfg(test)]\n#[allow(unused)]\nuse crate::b::B;\n\
             #[cfg(all(test, feature = \"x\"))]\nfn f() { crate::b::f(); }\n\
             #[cfg(test)]\nmod tests { use crate::b::B; #[test] fn t() { crate::b::f() } }\n\
             pub fn captures<'a>() -> impl Sized + use<'a> {}",
        ),
        ("b.rs", "use crate::a; pub struct B; pub fn f() { a::captures() }"),
        ("c.rs", "use crate::b::B;"),
        ("tests.rs", "use crate::b::B;"),
    ]);
    assert_eq!(edges(&found), ["b.rs > a.rs", "c.rs > b.rs"]);
}

#[test]
fn inner_modules_super_and_names_that_mean_two_things_are_followed() {
    let found = read(&[
        ("lib.rs", "pub mod sum; mod a;"),
        ("sum/mod.rs", "mod sum; pub use sum::{sum, Sum};"),
        ("sum/sum.rs", "pub fn sum() {} pub struct Sum;"),
        (
            "a.rs",
            "mod inner { use super::super::sum::{sum, Sum as S}; pub fn f() { self::g(); S } fn g() {} }\n\
                  fn h() { inner::f() }",
        ),
    ]);
    assert_eq!(edges(&found), ["a.rs > sum/sum.rs", "sum/mod.rs > sum/sum.rs"]);
}

#[test]
fn a_name_that_a_macro_declares_belongs_to_the_module_that_calls_the_macro() {
    let found = read(&[
        ("lib.rs", "pub mod made; mod a;"),
        (
            "made.rs",
            "macro_rules! make { ($n:ident) => { pub struct $n; } } make!(Made); pub(crate) use make;",
        ),
        ("a.rs", "use crate::made::{Made, make}; make!(Another);"),
    ]);
    assert_eq!(edges(&found), ["a.rs > made.rs"]);
}

#[test]
fn another_package_of_the_workspace_is_entered_by_its_name() {
    let packages = [
        package(&[("lib.rs", "pub mod a;"), ("a.rs", "pub struct A; pub fn core() {}")]),
        named("front", &[("lib.rs", "use core::a::{A, core}; use std::fs; fn f() { core(); }")]),
    ];
    let found = uses(&packages);
    assert!(found.lost.is_empty(), "{:?}", found.lost);
    assert_eq!(found.inside.len(), 2);
    assert!(found.inside.iter().all(|edge| edge.to == "core/src/a.rs"));
    assert_eq!(found.outside.len(), 1);
}

#[test]
fn a_path_that_leads_nowhere_is_reported() {
    let found = read(&[("lib.rs", "mod a;"), ("a.rs", "use super::super::b::B;")]);
    assert_eq!(found.lost, ["core/src/a.rs:1: `super::super::b::B`"]);
}

#[test]
fn files_clocks_and_the_engine_are_seen_behind_any_import() {
    let found = read(&[(
        "lib.rs",
        "use std::{fs, time::{self, Duration}}; use bevy::prelude::*; use bevy_ecs::world::World;\n\
         fn f() { fs::read(\"x\"); time::Instant::now(); std::time::SystemTime::now(); }",
    )]);
    let caught: Vec<String> = found
        .outside
        .iter()
        .filter(|use_of| is_file_or_clock(&use_of.path))
        .map(|use_of| use_of.path.join("::"))
        .collect();
    assert_eq!(
        caught,
        ["std::fs", "std::fs::read", "std::time::Instant::now", "std::time::SystemTime::now"]
    );
    assert_eq!(found.outside.iter().filter(|use_of| is_engine(&use_of.path)).count(), 2);
    assert!(depends_on_engine("[dependencies]\nbevy.workspace = true\n"));
    assert!(depends_on_engine("[dependencies.bevy]\nworkspace = true\n"));
    assert!(!depends_on_engine("[features]\nwayland = [\"bevy/wayland\"]\n"));
}

#[test]
fn members_are_read_from_the_manifest_of_the_workspace() {
    let manifest =
        "[workspace]\nresolver = \"3\"\nmembers = [\n    \"core\",\n    \"game/words\",\n]\n";
    assert_eq!(members(manifest), ["core", "game/words"]);
}
