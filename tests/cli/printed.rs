//! Nothing that comes from outside acts on the terminal: names, titles, scripts, journals, words.

use bench_tests::program::{Said, run, run_on};
use serde_json::json;
use sim_core::session::journal::Chain;

use super::desk::{desk, first};

/// Clears a terminal, turns the direction of writing, breaks a line, sets a colour in one byte.
const ACTING: &str = "\u{1b}[2J\u{202e}\u{2028}\u{9b}31m";

/// Whether a character only stands in its line, or ends it.
fn stands(c: char) -> bool {
    let turns = matches!(c, '\u{61c}' | '\u{200e}' | '\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    c == '\n' || !(c.is_control() || turns || matches!(c, '\u{2028}' | '\u{2029}'))
}

/// Requires that nothing printed acts, and that what was hostile is shown all the same.
#[track_caller]
fn assert_harmless(said: &Said, shown: &str) {
    for text in [&said.out, &said.error] {
        assert!(text.chars().all(stands), "{text:?}");
    }
    assert!(format!("{}{}", said.out, said.error).contains(shown), "{said:?}");
}

/// A session of a scenario with a hostile title.
fn hostile_title() -> tempfile::TempDir {
    let desk = desk();
    let (before, after) =
        first().split_once("title: \"").map(|(a, b)| (a.to_owned(), b.to_owned())).unwrap();
    let text = format!("{before}title: \"\u{202e}\u{2028}{after}");
    std::fs::write(desk.path().join("first.ron"), text).unwrap();
    desk
}

#[cfg(unix)]
#[test]
fn the_name_of_a_file() {
    let desk = desk();
    let missing = format!("missing{ACTING}\n.ron");
    for arguments in [
        &["check"][..],
        &["rehearse"],
        &["rehearse", "--json"],
        &["drive"],
        &["replay"],
        &["replay", "--json"],
        &["progress"],
        &["trial"],
        &["sums"],
        &["rehearse", "first.ron", "--script"],
    ] {
        let said = run(desk.path(), &[arguments, &[missing.as_str()]].concat());
        assert_eq!(said.status, 2, "{arguments:?}");
        assert_harmless(
            &said,
            r"missing\u{1b}[2J\u{202e}\u{2028}\u{9b}31m\u{a}.ron: there is no such",
        );
    }
}

#[cfg(unix)]
#[test]
fn a_name_does_not_begin_a_line_of_its_own() {
    let desk = desk();
    let name = format!("a{ACTING}\nforged.ron");
    let write = |text: &str| std::fs::write(desk.path().join(&name), text).unwrap();
    let safe = r"a\u{1b}[2J\u{202e}\u{2028}\u{9b}31m\u{a}forged.ron";
    write(&first().replace("pass_mark: 75", "pass_mark: 750"));
    for arguments in [&["check"][..], &["trial", "--runs", "1"], &["rehearse"]] {
        let said = run(desk.path(), &[arguments, &[name.as_str()]].concat());
        assert_harmless(&said, &format!("{safe}:33:25: "));
    }
    write("no journal");
    for arguments in [&["replay"][..], &["progress"], &["drive", "--resume"], &["sums"]] {
        let said = run(desk.path(), &[arguments, &[name.as_str()]].concat());
        assert_harmless(&said, safe);
        let begins = |line: &str| line.starts_with("forged");
        assert!(!said.out.lines().chain(said.error.lines()).any(begins), "{said:?}");
    }
    write(&first());
    let said = run(desk.path(), &["trial", "--runs", "1", "--operators", "careful", &name]);
    assert_harmless(&said, safe);
    let said = run(desk.path(), &["rehearse", "first.ron", "--out", &format!("out{ACTING}")]);
    assert_harmless(&said, r"are in out\u{1b}[2J\u{202e}\u{2028}\u{9b}31m.");
}

#[test]
fn the_title_of_a_scenario() {
    let desk = hostile_title();
    let said = run(desk.path(), &["rehearse", "first.ron", "--out", "out", "--json"]);
    if said.status == 2 {
        // A scenario may be refused for such a title; then that is said.
        return assert_harmless(&said, "first.ron:");
    }
    assert_harmless(&said, r"\u202e\u2028");
    let printed: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert!(printed.to_string().contains('\u{202e}'), "the object means what it meant");
    for arguments in [
        &["replay", "out/session.journal"][..],
        &["replay", "out/session.journal", "--json"],
        &["progress", "out"],
        &["progress", "out", "--json"],
        &["trial", "first.ron", "--runs", "1", "--operators", "careful"],
        &["trial", "first.ron", "--runs", "1", "--operators", "careful", "--json"],
    ] {
        assert_harmless(&run(desk.path(), arguments), "");
    }
}

#[test]
fn a_word_that_is_refused() {
    let desk = desk();
    let word = format!("open the {ACTING}lid");
    std::fs::write(desk.path().join("script.txt"), format!("{word}\n")).unwrap();
    let said = run(desk.path(), &["rehearse", "first.ron", "--script", "script.txt"]);
    assert_eq!(said.status, 2);
    // A refused word is quoted in lower case.
    assert_harmless(&said, r"\u{1b}[2j");
    let said = run_on(desk.path(), &["drive", "first.ron", "--words"], word.as_bytes());
    assert_harmless(&said, r"\u{1b}[2j");
    let said =
        run_on(desk.path(), &["drive", "first.ron"], json!({ ACTING: 1 }).to_string().as_bytes());
    assert_harmless(&said, "[2J");
    for line in said.out.lines() {
        serde_json::from_str::<serde_json::Value>(line).unwrap();
    }
    for arguments in [
        &["rehearse", "first.ron", "--operator", ACTING][..],
        &["trial", "first.ron", "--operators", ACTING],
        &["rehearse", "first.ron", "--seed", ACTING],
        &["rehearse", "first.ron", "--seed", ACTING, "--json"],
        &[ACTING, ACTING],
    ] {
        let said = run(desk.path(), arguments);
        assert_eq!(said.status, 2, "{arguments:?}");
        // The parser of the command line leaves out what would steer a terminal's colours.
        assert_harmless(&said, r"\u{202e}");
    }
}

#[test]
fn what_stands_in_a_journal() {
    let desk = desk();
    let head = r#"Journal(form:1,version:"\u{1b}[2J\u{202e}\n")"#;
    std::fs::write(desk.path().join("a.journal"), Chain::default().add(head) + "\n").unwrap();
    for arguments in [
        &["replay", "a.journal"][..],
        &["replay", "a.journal", "--json"],
        &["progress", "a.journal"],
        &["progress", "a.journal", "--json"],
        &["drive", "--resume", "a.journal"],
    ] {
        let said = run(desk.path(), arguments);
        assert_harmless(&said, "[2J");
    }
}
