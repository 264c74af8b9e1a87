//! What the documents print holds: commands parse, files that they name exist.

use std::collections::BTreeSet;

use clap::Parser as _;
use steady_draw::CommandLine;

const DOCUMENTS: [&str; 3] = ["README.md", "DEVELOPERS.md", "scenarios/README.md"];
/// The page of the drawings.
const DRAWINGS: &str = "assets/README.md";

fn document(name: &str) -> String {
    let path = bench_tests::repository().join(name);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// Everything that stands between back quotes on one line, and every line of the shell's blocks.
fn quoted(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut block = None;
    for line in text.lines() {
        if let Some(language) = line.strip_prefix("```") {
            block = if block.is_none() { Some(language) } else { None };
        } else if let Some(language) = block {
            if language == "sh" {
                found.push(line.to_owned());
            }
        } else {
            found.extend(line.split('`').skip(1).step_by(2).map(str::to_owned));
        }
    }
    found
}

/// The words of a command of ours that stands in a line, whichever way the program is started.
fn arguments(line: &str) -> Option<Vec<&str>> {
    let after = line.strip_prefix("steady-draw ").or_else(|| {
        let (_, after) = line.strip_prefix("cargo run ")?.split_once(" -- ")?;
        Some(after)
    })?;
    Some(std::iter::once("steady-draw").chain(after.split_whitespace()).collect())
}

#[test]
fn every_command_that_is_printed_is_understood() {
    let mut commands = BTreeSet::new();
    for name in DOCUMENTS {
        for line in quoted(&document(name)) {
            let Some(words) = arguments(&line) else { continue };
            commands.insert(words.get(1).copied().unwrap_or_default().to_owned());
            if let Err(error) = CommandLine::try_parse_from(&words) {
                panic!("{name}: {line}\n{error}");
            }
        }
    }
    for known in ["check", "drive", "operating-point", "rehearse", "replay", "sums"] {
        assert!(commands.contains(known), "no document shows `{known}`");
    }
}

/// Whether something in back quotes is a path in the repository: it has a slash and an ending, or
/// ends with a slash, and is neither a pattern nor a thing that a session leaves.
fn is_path(text: &str) -> bool {
    let shape = text.ends_with('/')
        || (text.contains('/')
            && [".rs", ".md", ".ron", ".toml"].iter().any(|e| text.ends_with(e)));
    let plain = text.chars().all(|c| c.is_ascii_alphanumeric() || "_-./".contains(c));
    shape && plain && !text.starts_with('/') && !text.starts_with("out/")
}

#[test]
fn every_file_that_is_named_exists() {
    let mut named = 0;
    for name in DOCUMENTS {
        for text in quoted(&document(name)).iter().filter(|text| is_path(text)) {
            named += 1;
            assert!(bench_tests::repository().join(text).exists(), "{name} names `{text}`");
        }
    }
    assert!(named > 40, "only {named} files are named");
}

#[test]
fn every_drawing_has_its_row() {
    let page = document(DRAWINGS);
    let mut drawings = 0;
    for entry in std::fs::read_dir(bench_tests::repository().join("assets")).unwrap() {
        let file = entry.unwrap().file_name().into_string().unwrap();
        let Some(piece) = file.strip_suffix(".svg") else { continue };
        drawings += 1;
        assert!(page.contains(&format!("\n| `{piece}` |")), "{DRAWINGS} has no row for {file}");
    }
    assert!(drawings > 70, "only {drawings} drawings");
}

/// Folders that commands of the README and of the page for developers write into: a command that is
/// followed literally finds nothing there that it would have to replace.
#[test]
fn no_two_commands_write_into_one_folder() {
    let mut written = BTreeSet::new();
    for name in ["README.md", "DEVELOPERS.md"] {
        for line in quoted(&document(name)) {
            let Some(words) = arguments(&line) else { continue };
            let folder = words.iter().skip_while(|word| **word != "--out").nth(1);
            if let Some(folder) = folder.filter(|_| !words.contains(&"--replace")) {
                assert!(written.insert((*folder).to_owned()), "{name}: {line} writes there again");
            }
        }
    }
    assert!(written.len() > 2, "{written:?}");
}

#[test]
fn the_readme_names_two_commands_for_set_up_and_check() {
    let readme = document("README.md");
    assert!(readme.contains("```sh\n.ci/setup\ncargo test --workspace --locked\n```"));
    let last = document(".ci/run").lines().last().map(str::to_owned);
    assert_eq!(last.as_deref(), Some("cargo test --workspace --locked"));
}
