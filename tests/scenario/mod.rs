//! Scenario files: what is accepted, what is refused, and with which words.

mod accepted;
mod any_text;
mod cards;
mod drawn;
mod plans;
mod readme;
mod refused;

use sim_core::scenario::{KnownRules, Scenario, ScenarioProblem, check};

/// A sound scenario with every section written out.
const BASE: &str = include_str!("base.ron");

/// The rules of the work that these tests know.
const KNOWN: KnownRules<'_> = KnownRules::These(&["tube-clear", "zeroed-after-hanging"]);

/// Checks a text against those rules.
fn checked(text: &str) -> Result<Scenario, Vec<ScenarioProblem>> {
    check(text, KNOWN)
}

/// The base with some of its parts replaced. Each part must stand there once.
fn edited(edits: &[(&str, &str)]) -> String {
    edits.iter().fold(BASE.to_owned(), |text, (from, to)| {
        assert_eq!(text.matches(from).count(), 1, "`{from}` must stand in the base once");
        text.replace(from, to)
    })
}

/// The base, read, with some of its parts replaced.
fn sound(edits: &[(&str, &str)]) -> Scenario {
    checked(&edited(edits)).unwrap_or_else(|problems| panic!("{}", listed(&problems)))
}

/// Problems, one a line.
fn listed(problems: &[ScenarioProblem]) -> String {
    problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
}

/// The repository's own scenarios by file name, sorted.
fn shipped() -> Vec<(String, String)> {
    let folder = bench_tests::repository().join("scenarios");
    let mut found: Vec<(String, String)> = std::fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("{}: {error}", folder.display()))
        .map(|entry| entry.expect("a folder's entry").path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
        .map(|path| {
            let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
            (name, std::fs::read_to_string(&path).expect("a readable scenario"))
        })
        .collect();
    found.sort();
    found
}
