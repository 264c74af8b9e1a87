//! Plans that are refused, and with which words.

use sim_core::plan::check::is_plan;
use sim_core::plan::{FileState, FilesAtHand, NamedFile, check};

fn plan(steps: &str) -> String {
    format!(
        "(\n    format: 1,\n    title: \"A plan\",\n    for_whom: \"Anybody.\",\n    steps: [\n{steps}\n    ],\n)"
    )
}

fn files() -> Vec<NamedFile> {
    let of = |name: &str, state| NamedFile { name: name.to_owned(), state };
    vec![
        of("01_first.ron", FileState::Practice),
        of("26_sitting.ron", FileState::Timed),
        of("09_bad.ron", FileState::Broken),
    ]
}

fn said(text: &str) -> Vec<String> {
    match check(text, FilesAtHand::These(&files())) {
        Ok(plan) => panic!("it is taken: {plan:?}"),
        Err(problems) => problems.iter().map(ToString::to_string).collect(),
    }
}

fn one(steps: &str) -> String {
    let said = said(&plan(steps));
    assert_eq!(said.len(), 1, "{said:#?}");
    said.into_iter().next().unwrap_or_default()
}

#[test]
fn a_sound_plan_is_taken() {
    let steps = r#"(step: Drill("pen")), (step: Job("01_first.ron"), until: (marks: 80, unaided: true, times: 3), again: true),
        (step: Drawn(2)), (step: Sitting("26_sitting.ron"))"#;
    let plan = check(&plan(steps), FilesAtHand::These(&files())).expect("a sound plan");
    assert_eq!(plan.steps.len(), 4);
    assert!(plan.steps[0].is_due_again() && plan.steps[1].is_due_again());
    assert!(!plan.steps[2].is_due_again());
    assert_eq!(
        plan.steps[1].until_words(),
        "passed with 80 marks at least, without asking for help, 3 times"
    );
}

#[test]
fn what_cannot_be_read_is_said_with_its_place() {
    insta::assert_snapshot!(one(r#"(step: Dril("pen"))"#), @"6:8: `Dril` is unknown here; write `Drill` (reading stopped here: check again afterwards)");
    insta::assert_snapshot!(one(r#"(step: Drill("pan"))"#), @"6:15: there is no drill called `pan`: choose one of certificate, barometer, thermometer, leg, difference, water-at-rest, pen, pen-at-rest, station, point-sums, line, elapsed-time, chart-mean; write it as scenarios/README.md shows (reading stopped here: check again afterwards)");
    insta::assert_snapshot!(one(r#"(step: Drill("pen"), untill: (times: 2))"#), @"6:22: there is no field `untill` here; write `until` (reading stopped here: check again afterwards)");
    insta::assert_snapshot!(one(r#"(step: Drill("pen"), until: (times: 2.5))"#), @"6:38: a whole number is expected, not 2.5; write it without decimals, such as 2 (reading stopped here: check again afterwards)");
    insta::assert_snapshot!(one(r#"(step: Drill("pen")"#), @"7:5: a comma is expected here; put a comma between the two entries, or close the quotation mark before this place (reading stopped here: check again afterwards)");
    insta::assert_snapshot!(said("(title: \"No format\")").join("; "), @"1:1: the lesson plan does not state its format; begin with `(format: 1,`");
    insta::assert_snapshot!(said("(format: 7, title: \"x\")").join("; "), @"1:2: format 7 is unknown; write `format: 1`, or use the program that wrote this lesson plan");
    insta::assert_snapshot!(said("").join("; "), @"1:1: the text is empty; start from the lesson plan that comes with the program");
}

#[test]
fn what_can_be_read_is_held_against_the_rules() {
    insta::assert_snapshot!(one(""), @r#"5:5: the plan has no step; write at least one, such as `(step: Drill("leg"))`"#);
    insta::assert_snapshot!(one(r#"(step: Drill("pen"), until: (marks: 80))"#), @"6:30: a drill has no marks; leave it out: a drill goes on until it is good enough by its own standard");
    insta::assert_snapshot!(one(r#"(step: Drill("pen"), until: (unaided: true))"#), @"6:30: there is no help to ask for in a drill; leave it out: a drill goes on until it is good enough by its own standard");
    insta::assert_snapshot!(one(r#"(step: Drill("pen"), until: (times: 0))"#), @"6:30: a step cannot be done 0 times; write 1 to 20");
    insta::assert_snapshot!(one(r#"(step: Drill("pen")), (step: Drill("pen"))"#), @"6:24: this is step 1 again; name each thing once; to have it done several times, write `until: (times: 2)`");
    insta::assert_snapshot!(one(r#"(step: Drawn(9))"#), @"6:2: there is no level 9; write 1 to 3");
    insta::assert_snapshot!(one(r#"(step: Job("01_frist.ron"))"#), @"6:2: there is no scenario `01_frist.ron`; write `01_first.ron`");
    insta::assert_snapshot!(one(r#"(step: Job("nothing like it.ron"))"#), @"6:2: there is no scenario `nothing like it.ron`; put it into the folder of scenarios, or correct its name");
    insta::assert_snapshot!(one(r#"(step: Job("09_bad.ron"))"#), @"6:2: the scenario `09_bad.ron` has problems; check that file, and correct it first");
    insta::assert_snapshot!(one(r#"(step: Sitting("01_first.ron"))"#), @"6:2: `01_first.ron` has no time limit, or allows help, so it is no sitting; write `Job(…)`, or name a scenario with `time_limit_min` and `help: false`");
    insta::assert_snapshot!(one(r#"(step: Job("01_first.ron"), until: (marks: inf))"#), @"6:37: inf marks cannot be reached; write 0 to 100");
}

#[test]
fn a_file_is_a_name_and_no_way_out_of_the_folder() {
    for file in [
        "../x.ron",
        "/etc/x.ron",
        "a/../x.ron",
        "a//x.ron",
        "c:x.ron",
        "a\\\\x.ron",
        "x.txt",
        ".ron",
        "a\\u{1b}.ron",
    ] {
        let said = one(&format!("(step: Job(\"{file}\"))"));
        assert!(said.contains("write its name as it stands in the folder"), "{file}: {said}");
    }
    let long = format!("{}.ron", "x".repeat(200));
    assert!(one(&format!("(step: Job(\"{long}\"))")).contains("too long"));
}

#[test]
fn hostile_texts_are_refused_and_nothing_else_happens() {
    let deep = format!("(format: 1, steps: {}", "[".repeat(100_000));
    assert!(said(&deep)[0].contains("nested more than 64 deep"), "{:?}", said(&deep));
    let many = plan(&r#"(step: Drill("pen")),"#.repeat(5_000));
    assert!(said(&many).iter().any(|one| one.contains("the plan has 5000 steps")));
    let large = format!("(format: 1, title: \"{}\"", "x".repeat(5 * 1024 * 1024));
    assert!(said(&large)[0].contains("larger than 4 MiB"));
    assert!(said("(format: 1,\u{1b}[2J")[0].contains("control character"));
    let title = plan(r#"(step: Drill("pen"))"#).replace("A plan", "A\\u{202e}plan");
    assert!(said(&title)[0].contains("not printed"));
    for text in ["[", "(((", "\"", "(format:1,steps:[(step:Drill(\"leg\"", "\u{feff}"] {
        assert!(!said(text).is_empty());
    }
}

#[test]
fn a_plan_is_told_from_a_scenario() {
    let first = include_str!("../../scenarios/01_first_calibration.ron");
    assert!(is_plan(&plan("")) && !is_plan(first) && !is_plan("") && !is_plan("(((["));
}
