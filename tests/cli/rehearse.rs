//! `rehearse`: exit statuses, files, scripts, and that nothing is lost when it cannot be done.

use bench_tests::program::run;
use insta::assert_snapshot;

use super::desk::{desk, first, object, refused, rehearsed};

#[test]
fn a_passed_session_writes_journal_marks_and_report() {
    let desk = desk();
    let arguments = ["rehearse", "first.ron", "--out", "deep/out", "--json"];
    let said = run(desk.path(), &arguments);
    assert_eq!(said.status, 0);
    let printed = object(&said);
    assert_eq!(printed["marks"]["passed"], true);
    assert_eq!(
        (printed["operator"].as_str(), printed["seed"].as_u64()),
        (Some("careful"), Some(1))
    );
    let folder = desk.path().join("deep/out");
    let read = |name: &str| std::fs::read_to_string(folder.join(name)).unwrap();
    assert_eq!(printed, serde_json::from_str::<serde_json::Value>(&read("marks.json")).unwrap());
    assert!(read("report.html").starts_with("<!DOCTYPE html>"));
    assert!(std::fs::read(folder.join("report.pdf")).unwrap().starts_with(b"%PDF-"));
    assert!(read("readings.csv").starts_with("time,reading,unit,"));
    let words = run(desk.path(), &["rehearse", "first.ron"]);
    assert_eq!((words.status, words.error.as_str()), (0, ""));
    assert!(words.out.starts_with(&read("debrief.txt")), "{}", words.out);
    assert!(read("session.journal").contains(" Sealed("));
    let mut names: Vec<_> =
        std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().file_name()).collect();
    names.sort();
    assert_eq!(
        names,
        [
            "debrief.txt",
            "marks.json",
            "readings.csv",
            "report.html",
            "report.pdf",
            "session.journal"
        ]
    );
}

#[test]
fn a_session_that_is_not_passed_is_status_1() {
    let desk = desk();
    let bad = ["rehearse", "first.ron", "--operator", "hurried+one-leg", "--seed", "7", "--json"];
    let said = run(desk.path(), &bad);
    assert_eq!(said.status, 1);
    assert_eq!(object(&said)["marks"]["passed"], false);
}

#[test]
fn the_same_session_twice_is_the_same_to_the_byte() {
    let desk = desk();
    let (one, two) = (rehearsed(&desk), rehearsed(&desk));
    assert_eq!(one, two);
}

#[test]
fn an_unknown_operator_is_told_those_that_there_are() {
    let desk = desk();
    assert_snapshot!(refused(desk.path(), &["rehearse", "first.ron", "--operator", "tidy"]), @"there is no operator `tidy`: choose from careful, hurried, one-leg, skips-warm-up, on-controller, never-zeroes, trusts-certificates, sees-faults, slant-reader, trusts-barometer, skips-leak-check, skips-hold-test, accepts-any-line, skips-tube-check, doubles-a-leg, ignores-thermometer, first-pair, trusts-copies, listens-once, reaches-in, skips-pen-zero, ignores-blower, never-looks-back, ignores-thunder, passes-any-check, square-root-always, design-flow-as-it-is, leaves-next-run, checks-as-calibrated, looks-at-the-day, leaves-averages-out, averages-regardless, leaves-valves-open, leaves-water, forgets-density, leaves-screw; several can be joined with +");
    assert_eq!(
        refused(desk.path(), &["rehearse", "first.ron", "--operator", "careful+", "--out", "out"])
            .split(':')
            .next(),
        Some("there is no operator `careful+`")
    );
    let twice = ["rehearse", "first.ron", "--operator", "one-leg+hurried+one-leg", "--out", "out"];
    assert_snapshot!(refused(desk.path(), &twice), @"the habit `one-leg` is named more than once: name each habit once");
    assert!(!desk.path().join("out").exists());
}

/// What is said about a script.
#[track_caller]
fn script(text: &str) -> String {
    let desk = desk();
    std::fs::write(desk.path().join("script.txt"), text).unwrap();
    refused(desk.path(), &["rehearse", "first.ron", "--script", "script.txt"])
}

#[test]
fn a_script_that_cannot_be_followed_names_its_line_and_why() {
    assert_snapshot!(script("open the lid\n\n# next\nturn the knob to 40 %\nsign\n"), @"script.txt:4: `turn the knob to 40 %` cannot be done: the calibrator is in its case: take it out first");
    assert_snapshot!(script("{\"turn_knob\":{\"opening\":1.5}}\n"), @r#"script.txt:1: `{"turn_knob":{"opening":1.5}}` cannot be done: the opening of the knob must be between 0 and 1 (1 is fully open), not 1.5"#);
    assert_snapshot!(script("{\"turn_knob\":{\"openning\":0.5}}\n"), @r#"script.txt:1: this is not an action (at column 24): unknown field `openning`, expected `opening`; write an action as "open_lid" or {"turn_knob":{"opening":0.5}}"#);
    assert_snapshot!(script("{\"turn_nut\":{\"nut\":5,\"quarter_turns\":1}}\n"), @r#"script.txt:1: this is not an action (at column 20): invalid value: `5`, expected the number of a nut, from 1 to 4; write an action as "open_lid" or {"turn_knob":{"opening":0.5}}"#);
    assert_snapshot!(script("{\"turn_knob\":{\"opening\":1e999}}\n"), @r#"script.txt:1: this is not an action (at column 29): number out of range; write an action as "open_lid" or {"turn_knob":{"opening":0.5}}"#);
    let unknown = script("\"fly\"\n");
    assert!(
        unknown.starts_with(
            "script.txt:1: this is not an action (at column 5): unknown variant `fly`"
        )
    );
    assert_snapshot!(script("open the lidd\n"), @"script.txt:1: `lidd` is not understood here. Did you mean `open lid`? Say `help` for the list of sentences.");
    assert_snapshot!(script("help\nsign\n"), @"script.txt:1: `help` cannot be used in a script: remove it");
    assert_snapshot!(script("sign\nopen the lid\n"), @"script.txt:2: the session has already ended: remove this line");
    assert_snapshot!(script("open the lid\n"), @"script.txt: the session was not signed: end the script with `sign`");
    assert_snapshot!(script(""), @"script.txt: the session was not signed: end the script with `sign`");
}

#[test]
fn a_script_and_an_operator_exclude_each_other() {
    let desk = desk();
    let both = ["rehearse", "first.ron", "--script", "x", "--operator", "careful"];
    let said = run(desk.path(), &both);
    assert_eq!((said.status, said.out.as_str()), (2, ""));
    assert!(said.error.contains("cannot be used with"), "{}", said.error);
}

#[test]
fn an_earlier_rehearsal_stays_when_the_next_cannot_be_done() {
    let desk = desk();
    let journal = rehearsed(&desk);
    let broken = first().replace("elevation_m", "elevation_ft");
    std::fs::write(desk.path().join("broken.ron"), broken).unwrap();
    std::fs::write(desk.path().join("script.txt"), "open the lid\nopen the lid\n").unwrap();
    for arguments in [
        &["rehearse", "first.ron", "--out", "out"][..],
        &["rehearse", "broken.ron", "--replace", "--out", "out"],
        &["rehearse", "first.ron", "--replace", "--script", "missing.txt", "--out", "out"],
        &["rehearse", "first.ron", "--replace", "--script", "script.txt", "--out", "out"],
        &["rehearse", "first.ron", "--replace", "--operator", "tidy", "--out", "out"],
    ] {
        refused(desk.path(), arguments);
        let kept = std::fs::read_to_string(desk.path().join("out/session.journal")).unwrap();
        assert!(kept == journal, "{arguments:?}");
    }
    assert_eq!(rehearsed(&desk), journal);
}

#[test]
fn a_folder_that_cannot_be_written_says_so() {
    let desk = desk();
    std::fs::write(desk.path().join("file"), "").unwrap();
    let out = |folder| refused(desk.path(), &["rehearse", "first.ron", "--out", folder]);
    assert_snapshot!(out("file"), @"cannot create file: there is a file where a folder is needed: choose another place");
    assert_snapshot!(out("file/in"), @"cannot create file/in: there is a file where a folder is needed: choose another place");
    std::fs::create_dir_all(desk.path().join("taken/session.journal/x")).unwrap();
    let said = run(desk.path(), &["rehearse", "first.ron", "--replace", "--out", "taken"]);
    assert_eq!(said.status, 2);
    let wanted = "taken/session.journal: there is a folder of that name: choose another folder";
    assert!(said.error.contains(wanted), "{}", said.error);
}

#[test]
fn what_the_operator_saw_is_printed_before_the_debrief() {
    let desk = desk();
    let scenarios = bench_tests::repository().join("scenarios");
    std::fs::copy(scenarios.join("03_a_new_blower.ron"), desk.path().join("blower.ron")).unwrap();
    let plain = run(desk.path(), &["rehearse", "blower.ron"]);
    let said = run(desk.path(), &["rehearse", "blower.ron", "--explain"]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    let (explained, debrief) = said.out.split_at(said.out.find("Debrief:").unwrap());
    assert_eq!(debrief, plain.out, "the session is the same");
    assert_snapshot!("a_careful_session_explained", explained);
}

#[test]
fn programs_get_what_the_operator_saw_as_an_array() {
    let desk = desk();
    let plain = object(&run(desk.path(), &["rehearse", "first.ron", "--json"]));
    let said = run(desk.path(), &["rehearse", "first.ron", "--json", "--explain", "--out", "out"]);
    let mut printed = object(&said);
    let explained = printed.as_object_mut().unwrap().remove("explained").unwrap();
    assert_eq!(printed, plain);
    let explained = explained.as_array().unwrap();
    assert!(explained.len() > 40, "{}", explained.len());
    for one in explained {
        assert_eq!(one.as_object().unwrap().len(), 3, "{one}");
        assert!(one["tick"].is_u64() && one["phase"].is_string() && one["thought"].is_string());
    }
    let last = explained.last().unwrap();
    assert_eq!(last["phase"], "signature");
    // The files of the report are those of any rehearsal.
    let marks = std::fs::read_to_string(desk.path().join("out/marks.json")).unwrap();
    assert!(!marks.contains("explained"));
}

#[test]
fn a_script_has_no_reasons() {
    let desk = desk();
    std::fs::write(desk.path().join("script.txt"), "sign\n").unwrap();
    let arguments =
        ["rehearse", "first.ron", "--script", "script.txt", "--explain", "--out", "out"];
    assert_snapshot!(refused(desk.path(), &arguments), @"--explain tells what a scripted operator thinks, and a script of actions does not say why: leave out --explain, or use --operator instead of --script");
    assert!(!desk.path().join("out").exists());
}
