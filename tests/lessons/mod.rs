//! Lessons: their beginning is the one that the careful operator reaches, and only what belongs to them
//! is assessed.

mod begun;
mod front_ends;
mod marked;

use sim_core::scenario::{KnownRules, Scenario, check};

/// The lessons that come with the program, by file name.
fn lessons() -> Vec<(String, String)> {
    let folder = bench_tests::repository().join("scenarios/lessons");
    let files = std::fs::read_dir(&folder).unwrap().map(|entry| entry.unwrap().path());
    let mut found: Vec<(String, String)> = files
        .map(|path| {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).unwrap())
        })
        .collect();
    found.sort();
    assert_eq!(found.len(), 8);
    found
}

/// A lesson by its file name.
fn lesson(name: &str) -> String {
    lessons().into_iter().find(|(known, _)| known == name).unwrap().1
}

/// A scenario as it was read.
fn read(text: &str) -> Scenario {
    check(text, KnownRules::Any).unwrap()
}

/// The whole job of which a lesson is a part: the same text without its phases.
fn whole(text: &str) -> String {
    let (before, rest) = text.split_once("phases: (").unwrap();
    let (_, after) = rest.split_once("), ").unwrap();
    format!("{before}{after}")
}
