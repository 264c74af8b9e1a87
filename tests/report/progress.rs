//! `progress`: over sessions of one person, with journals among them that cannot be counted.

use std::time::{Duration, Instant};

use bench_tests::program::run;
use serde_json::Value;
use tempfile::TempDir;

use super::browser::Browser;
use super::desk::paper_text;
use super::screen::is_right;

/// Journals: three of one who reads one leg, then two careful ones; one cut off, one of another
/// program.
pub fn journals() -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    let sessions = [
        ("a", "01_first_calibration", "one-leg"),
        ("b", "02_two_lines_and_an_audit", "one-leg+skips-hold-test"),
        ("c", "05_moved_from_the_coast", "slant-reader"),
        ("d", "01_first_calibration", "slant-reader+one-leg"),
        ("e", "06_october_at_the_substation", "careful"),
    ];
    for (name, scenario, operator) in sessions {
        let scenario = bench_tests::repository().join(format!("scenarios/{scenario}.ron"));
        let out = format!("journals/{name}");
        let arguments = [
            "rehearse",
            scenario.to_str().unwrap(),
            "--operator",
            operator,
            "--out",
            &out,
            "--json",
        ];
        let said = run(folder.path(), &arguments);
        assert!(said.status < 2, "{}", said.error);
    }
    let whole = std::fs::read_to_string(folder.path().join("journals/e/session.journal")).unwrap();
    let lines: Vec<&str> = whole.split_inclusive('\n').collect();
    let write = |name: &str, text: &str| {
        std::fs::write(folder.path().join("journals").join(name), text).unwrap()
    };
    write("unsigned.journal", &lines[..60].concat());
    write("edited.journal", &whole.replacen("3.40", "3.45", 1).replacen("2.2", "2.3", 1));
    write("notes.journal", "a shopping list\n");
    write("second.journal", &whole);
    let other = sim_core::session::journal::Chain::default()
        .add(&format!("Journal(form:{},version:\"0.0.9\")", sim_core::session::journal::FORM));
    write("old.journal", &(other + "\n"));
    folder
}

pub fn scenarios() -> String {
    bench_tests::repository().join("scenarios").to_str().unwrap().to_owned()
}

#[test]
fn progress_counts_what_holds_and_says_what_does_not() {
    let folder = journals();
    let said = run(folder.path(), &["progress", "journals", "--scenarios", &scenarios(), "--json"]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    let object: Value = serde_json::from_str(&said.out).unwrap();
    let sessions = object["sessions"].as_array().unwrap();
    assert_eq!(sessions.len(), 5);
    let left: Vec<(&str, &str)> = object["left_out"]
        .as_array()
        .unwrap()
        .iter()
        .map(|left| (left["file"].as_str().unwrap(), left["why"].as_str().unwrap()))
        .collect();
    let why = |name: &str| left.iter().find(|(file, _)| file.ends_with(name)).unwrap().1;
    assert!(why("unsigned.journal").contains("has not ended"));
    assert!(why("edited.journal").contains("this line does not follow from the lines before it"));
    assert!(why("notes.journal").contains("not the journal of a session"));
    assert!(why("old.journal").contains("written by version 0.0.9"));
    // Of two that no clock was told of, the first by its name counts.
    let copy = "it is a copy of journals/e/session.journal; a session counts once";
    assert_eq!(why("second.journal"), copy);
    assert_eq!(left.len(), 5);
    // Marks by part are those of the session's own report.
    let marks = std::fs::read_to_string(folder.path().join("journals/a/marks.json")).unwrap();
    let marks: Value = serde_json::from_str(&marks).unwrap();
    assert_eq!(sessions[0]["total"], marks["marks"]["total"]);
    let readings = &marks["marks"]["parts"][1];
    let share = 100.0 * readings["got"].as_f64().unwrap() / readings["weight"].as_f64().unwrap();
    assert!((sessions[0]["parts"][1]["percent"].as_f64().unwrap() - share).abs() < 1e-9);
    // Reading errors are the mean of those of the readings.
    let off = |wanted: &[&str]| {
        let all = marks["marks"]["readings"].as_array().unwrap().iter();
        let of = all.filter(|one| wanted.contains(&one["instrument"].as_str().unwrap()));
        let off: Vec<f64> = of.map(|one| one["off_divisions"].as_f64().unwrap()).collect();
        off.iter().sum::<f64>() / off.len() as f64
    };
    let told = |scale: &str| {
        let all = sessions[0]["readings"].as_array().unwrap();
        all.iter().find(|one| one["scale"] == scale).unwrap()["mean_off"].as_f64().unwrap()
    };
    assert!((told("legs") - off(&["leg_up", "leg_down"])).abs() < 1e-9);
    assert!((told("pen") - off(&["pen"])).abs() < 1e-9);
}

#[test]
fn progress_tells_what_keeps_being_broken_and_where_it_is_taught() {
    let folder = journals();
    let said = run(folder.path(), &["progress", "journals", "--scenarios", &scenarios(), "--json"]);
    let object: Value = serde_json::from_str(&said.out).unwrap();
    let rules = object["rules"].as_array().unwrap();
    let legs = rules.iter().find(|rule| rule["rule"] == "both-legs").unwrap();
    assert_eq!((legs["broken"].as_u64(), legs["lately"].as_u64()), (Some(3), Some(1)));
    assert_eq!(legs["keeps"], true);
    let next = object["next"].as_array().unwrap();
    let legs = next.iter().find(|one| one["topic"]["rule"] == "both-legs").unwrap();
    assert_eq!(legs["what"], "Read both legs");
    assert!(
        legs["why"]
            .as_str()
            .unwrap()
            .starts_with("You broke this rule (data) in 3 of 5 sessions, and in 1 of the last 3.")
    );
    // A scenario that was not passed and is about reading one leg, by its own words.
    let file = legs["scenario"]["file"].as_str().unwrap();
    assert!(std::fs::read_to_string(file).unwrap().contains("\"one-leg\""), "{file}");
    let words = run(folder.path(), &["progress", "journals", "--scenarios", &scenarios()]);
    for told in [
        "5 sessions, 1 passed; 5 journals left out.",
        "Left out: journals/old.journal",
        "Read both legs (data): in 3 of 5 sessions, in 1 of the last 3",
        "What to practise next",
    ] {
        assert!(words.out.contains(told), "{told}\n{}", words.out);
    }
}

#[test]
fn the_pages_of_progress_are_right() {
    let folder = journals();
    let arguments = ["progress", "journals", "--scenarios", &scenarios(), "--out", "out"];
    let said = run(folder.path(), &arguments);
    assert_eq!(said.status, 0, "{}", said.error);
    let mut browser = Browser::start();
    for width in [360, 1280] {
        is_right(&mut browser, &folder.path().join("out/progress.html"), width);
    }
    let paper = paper_text(&folder.path().join("out/progress.pdf"));
    for words in ["What to practise next", "Read both legs", "Journals left out", "page 1 of"] {
        assert!(paper.contains(words), "{words}");
    }
    let again = run(folder.path(), &arguments);
    assert_eq!(again.status, 2);
    assert!(again.error.contains("add --replace"), "{}", again.error);
}

#[test]
fn without_a_journal_that_counts_the_answer_is_no() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("a.journal"), "nothing\n").unwrap();
    let said = run(folder.path(), &["progress", "."]);
    assert_eq!((said.status, said.error.as_str()), (1, ""));
    assert!(said.out.contains("0 sessions, 0 passed; 1 journal left out."), "{}", said.out);
    let said = run(folder.path(), &["progress", "nowhere"]);
    assert_eq!(said.status, 2);
    assert!(said.error.contains("there is no such file or folder"), "{}", said.error);
}

#[test]
fn the_time_grows_with_the_number_of_journals_and_not_with_its_square() {
    let folder = tempfile::tempdir().unwrap();
    let scenario = bench_tests::repository().join("scenarios/01_first_calibration.ron");
    let made = |count: usize| {
        let name = count.to_string();
        std::fs::create_dir(folder.path().join(&name)).unwrap();
        for number in 0..count {
            let path = folder.path().join(&name).join(format!("{number}.journal"));
            std::fs::write(path, "no journal\n").unwrap();
        }
        name
    };
    let once = |name: &str| {
        let arguments = ["progress", name, "--scenarios", scenario.to_str().unwrap(), "--json"];
        let begun = Instant::now();
        assert_eq!(run(folder.path(), &arguments).status, 1);
        begun.elapsed()
    };
    // In turn, so that other work on the machine falls on both; the fastest of each counts.
    let names = [2_000, 8_000].map(made);
    let times: Vec<[Duration; 2]> =
        (0..5).map(|_| names.each_ref().map(|name| once(name))).collect();
    let [few, many] = [0, 1].map(|at| times.iter().map(|both| both[at]).min().unwrap());
    let ratio = many.as_secs_f64() / few.as_secs_f64();
    // Four times as many take four times as long; with the square of their number it would be sixteen.
    assert!(ratio < 8.0, "{ratio}: {few:?} and {many:?}");
}
