//! `drive`: one object a line, journals that are kept, and going on with them.

use bench_tests::program::{Said, run, run_on};
use insta::assert_snapshot;
use serde_json::Value;

use super::desk::{desk, first, message, refused, rehearsed};

/// The objects that were printed, one a line.
#[track_caller]
fn objects(said: &Said) -> Vec<Value> {
    assert_eq!(said.error, "");
    said.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[test]
fn every_line_is_answered_by_one_object() {
    let desk = desk();
    let input = concat!(
        "{\"look\":{\"at\":\"barometer\"}}\n",
        "\n",
        "{\"turn_knob\":{\"opening\":0.5}}\n",
        "open the lid\n",
        "{\"turn_knob\":{\"opening\":0.5,\"by\":1}}\n",
        "{\"wait\":{\"seconds\":90}}\n",
        "{\"wait\":{\"seconds\":1e9}}\n",
        "\"open_lid\"\n",
        "\"sign\"\n",
        "\"close_lid\"\n",
    );
    let said = run_on(desk.path(), &["drive", "first.ron"], input.as_bytes());
    assert_eq!(said.status, 1);
    let answers = objects(&said);
    let kinds: Vec<&str> = answers
        .iter()
        .map(|answer| {
            let keys = ["seen", "refused", "error", "marks"];
            keys.into_iter().find(|key| answer.get(key).is_some()).unwrap()
        })
        .collect();
    assert_eq!(
        kinds,
        ["seen", "seen", "refused", "error", "error", "seen", "refused", "seen", "seen", "marks"]
    );
    // The wait begins when the hands are free of what was done before: four seconds at the lid.
    assert_eq!(answers[5]["tick"], 1880);
    assert_eq!(answers[5]["time"], "08:31:34");
    assert_snapshot!(answers[2]["refused"].as_str().unwrap(), @"the calibrator is in its case: take it out first");
    assert_snapshot!(answers[3]["error"].as_str().unwrap(), @r#"this is not an action (at column 1): expected value; write an action as "open_lid" or {"turn_knob":{"opening":0.5}}"#);
    assert_snapshot!(answers[4]["error"].as_str().unwrap(), @r#"this is not an action (at column 32): unknown field `by`, expected `opening`; write an action as "open_lid" or {"turn_knob":{"opening":0.5}}"#);
    assert_snapshot!(answers[6]["refused"].as_str().unwrap(), @"the wait must be between 0 and 7200 s, not 1000000000");
    assert_eq!(answers[9]["marks"]["passed"], false);
}

#[test]
fn the_end_of_the_input_leaves_the_session_open() {
    let desk = desk();
    let said = run_on(desk.path(), &["drive", "first.ron"], b"\"open_lid\"");
    assert_eq!((said.status, objects(&said).len()), (1, 2));
}

#[test]
fn lines_that_are_no_text_or_too_long_are_answered_and_change_nothing() {
    let desk = desk();
    let mut input = vec![0xff, 0xfe, b'\n'];
    input.extend(std::iter::repeat_n(b'[', 10_000));
    input.push(b'\n');
    input.extend(std::iter::repeat_n(b'x', 1_000_000));
    input.extend(b"\n\"listen\"\n");
    let said = run_on(desk.path(), &["drive", "first.ron"], &input);
    assert_eq!(said.status, 1);
    let answers = objects(&said);
    let error = |at: usize| answers[at]["error"].as_str().unwrap().to_owned();
    assert_eq!(answers.len(), 5);
    assert!(error(1).starts_with("this is not an action"), "{}", error(1));
    assert!(error(2).starts_with("this is not an action") && error(2).len() < 300, "{}", error(2));
    assert_snapshot!(error(3), @"the line is longer than 64 KiB: send one action per line");
    assert_eq!(answers[4]["tick"], 0);
}

#[test]
fn a_session_is_left_and_gone_on_with() {
    let desk = desk();
    let begun = ["drive", "first.ron", "--seed", "3", "--journal", "mine.journal"];
    run_on(desk.path(), &begun, b"\"open_lid\"\n{\"wait\":{\"seconds\":60}}\n");
    let path = desk.path().join("mine.journal");
    let before = std::fs::read_to_string(&path).unwrap();
    // The power goes in the middle of a line.
    std::fs::write(&path, format!("{before}0123456789abcdef Act(tick:12")).unwrap();
    let said =
        run_on(desk.path(), &["drive", "--resume", "mine.journal"], b"\"close_lid\"\n\"sign\"\n");
    assert_eq!(said.status, 1);
    assert_eq!(objects(&said)[2]["seen"]["mounting"]["lid_open"], false);
    let after = std::fs::read_to_string(&path).unwrap();
    assert!(after.starts_with(&before) && after.contains("Sealed("), "{after}");
    assert_eq!(run(desk.path(), &["replay", "mine.journal"]).status, 1);
}

#[test]
fn a_finished_journal_gives_its_marks_again_and_stays_as_it_is() {
    let desk = desk();
    let journal = rehearsed(&desk);
    let said =
        run_on(desk.path(), &["drive", "--resume", "out/session.journal"], b"\"open_lid\"\n");
    assert_eq!(said.status, 0);
    let answers = objects(&said);
    assert_eq!((answers.len(), &answers[2]["marks"]["passed"]), (3, &Value::Bool(true)));
    let kept = std::fs::read_to_string(desk.path().join("out/session.journal")).unwrap();
    assert!(kept == journal);
    let said = run(desk.path(), &["drive", "--resume", "out/session.journal", "--words"]);
    assert_eq!(said.status, 0);
    assert!(
        said.out.contains("Note: the session in out/session.journal has ended"),
        "{}",
        said.out
    );
}

#[test]
fn a_journal_is_never_written_over() {
    let desk = desk();
    std::fs::write(desk.path().join("mine.journal"), "precious").unwrap();
    let taken = ["drive", "first.ron", "--journal", "mine.journal"];
    assert_snapshot!(refused(desk.path(), &taken), @"cannot create mine.journal: it already exists: choose another name, or continue its session with --resume");
    assert_eq!(std::fs::read(desk.path().join("mine.journal")).unwrap(), b"precious");
    assert_snapshot!(refused(desk.path(), &["drive", "first.ron", "--journal", "no/such.journal"]), @"cannot create no/such.journal: there is no such file or folder: check the name");
}

#[test]
fn a_scenario_with_a_problem_leaves_no_journal_behind() {
    let desk = desk();
    let path = desk.path().join("scenario.ron");
    std::fs::write(&path, first().replace("pass_mark: 75", "pass_mark: 750")).unwrap();
    let begin = ["drive", "scenario.ron", "--journal", "mine.journal"];
    assert_snapshot!(refused(desk.path(), &begin), @"scenario.ron:33:25: pass_mark 750 is outside 0 to 100; write a value in this range");
    assert!(!desk.path().join("mine.journal").exists());
    std::fs::write(&path, first()).unwrap();
    assert_eq!(run(desk.path(), &begin).status, 1, "begun, and left unsigned");
}

#[test]
fn what_cannot_be_gone_on_with_stays_as_it_is() {
    let desk = desk();
    let journal = rehearsed(&desk);
    let head: String = journal.split_inclusive('\n').take(2).collect();
    let edited = journal.replacen("open_lid", "open_lip", 1);
    for (name, text) in [("head", &head), ("edited", &edited), ("other", &first())] {
        let path = desk.path().join(name);
        std::fs::write(&path, text).unwrap();
        let said = message(&run(desk.path(), &["drive", "--resume", name]));
        assert!(said.starts_with(&format!("{name}: line ")), "{said}");
        assert_eq!(&std::fs::read_to_string(&path).unwrap(), text);
    }
}

#[test]
fn without_a_scenario_or_a_journal_the_usage_is_shown() {
    let desk = desk();
    let said = run(desk.path(), &["drive"]);
    assert_eq!((said.status, said.out.as_str()), (2, ""));
    assert!(said.error.contains("Usage: steady-draw drive"), "{}", said.error);
    let both = run(desk.path(), &["drive", "first.ron", "--resume", "x"]);
    assert!(both.status == 2 && both.error.contains("cannot be used with"), "{}", both.error);
}
