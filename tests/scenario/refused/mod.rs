//! What is refused, and with which words.

mod certificates;
mod faults;
mod history;
mod instruments;
mod lessons;
mod numbers;
mod unreadable;

use sim_core::scenario::check::{LARGEST_TEXT, READABLE};
use sim_core::scenario::rules::RULES;

use super::{BASE, KNOWN, checked, edited, listed};

/// A name, and what is replaced in the base.
type Case = (&'static str, &'static [(&'static str, &'static str)]);

/// Every case with what is said about it.
fn report(cases: &[Case]) -> String {
    let lines = cases.iter().map(|(name, edits)| {
        let problems = checked(&edited(edits)).expect_err(name);
        format!("{name}\n    {}", listed(&problems).replace('\n', "\n    "))
    });
    lines.collect::<Vec<_>>().join("\n")
}

#[test]
fn every_rule_refuses_something() {
    let mut refusing: Vec<&str> = Vec::new();
    let some = [unreadable::CASES, numbers::CASES, certificates::CASES, faults::CASES];
    for cases in some.into_iter().chain([history::CASES, instruments::CASES, lessons::CASES]) {
        for (name, edits) in cases {
            let problems = checked(&edited(edits)).expect_err(name);
            refusing.extend(problems.iter().map(|problem| problem.rule));
        }
    }
    let idle: Vec<&str> =
        RULES.iter().map(|rule| rule.id).filter(|id| !refusing.contains(id)).collect();
    assert!(idle.is_empty(), "these rules refuse nothing in the tests: {idle:?}");
    assert!(refusing.contains(&READABLE));
}

#[test]
fn every_problem_is_reported_in_the_order_of_the_text() {
    let text = edited(&[
        ("\"Base\"", "\"\""),
        ("run_pressure_mmhg: 760", "run_pressure_mmhg: 101325"),
        ("points: 7", "points: 3"),
        ("2025-11-04", "2027-11-04"),
        ("ratio: 0.2", "ratio: 0"),
        ("record: 10", "record: 9"),
        ("pass_mark: 75", "pass_mark: -1"),
    ]);
    insta::assert_snapshot!(listed(&checked(&text).expect_err("seven problems")), @r"
3:5: `title` is empty; write what the trainee is to read
17:9: run_pressure_mmhg 101325 is outside 400 to 820; it looks like pascals: divide by 133.322
19:9: points 3 is outside 5 to 12; write a value in this range
32:28: the certificate is dated 2027-11-04, 569 days after the session on 2026-04-14; date it on or before the day of the session
35:29: ratio 0 of TubeCracked is outside 0.02 to 1; write a size in this range
40:9: the weights add up to 99, not 100; add 1; a weight that is left out has its default
41:9: pass_mark -1 is outside 0 to 100; write a value in this range
");
}

#[test]
fn what_is_no_text_of_a_scenario_is_refused_before_it_is_read() {
    let say = |text: &str| listed(&checked(text).expect_err("refused"));
    let deep = BASE.replace("[\"tube-clear\"]", &"[".repeat(100_000));
    let long = format!("{BASE}{}", " ".repeat(LARGEST_TEXT));
    let said = [
        ("empty", say("")),
        ("blank", say(" \n\n ")),
        ("a zero byte", say("(\n  format\0: 1)")),
        ("another file", say("# A heading\n\nSome words.\n")),
        ("deep", say(&deep)),
        ("long", say(&long)),
    ];
    let said = said.map(|(name, said)| format!("{name}\n    {said}")).join("\n");
    insta::assert_snapshot!(said, @r"
empty
    1:1: the text is empty; start from one of the scenarios that come with the program
blank
    1:1: the text is empty; start from one of the scenarios that come with the program
a zero byte
    2:9: there is a control character here; give the right file, or remove the character: a scenario is plain text
another file
    1:1: the scenario does not state its format; begin with `(format: 1,`
deep
    39:82: brackets are nested more than 64 deep here; look for a bracket that was never closed; a scenario needs only six levels
long
    1:1: the text is larger than 4 MiB; give the right file: a scenario is a few kilobytes long
");
}

#[test]
fn a_problem_never_sends_control_characters_to_the_terminal() {
    let text = edited(&[("\"2026-04-14\"", "\"\\u{1b}[2J\\u{202e}\"")]);
    let said = listed(&checked(&text).expect_err("no date"));
    assert!(!said.contains('\u{1b}') && !said.contains('\u{202e}'), "{said:?}");
    assert!(said.contains("\\u{1b}[2J"), "{said}");
}

#[test]
fn without_a_list_of_rules_any_id_may_be_switched_off() {
    let text = edited(&[("tube-clear", "some-other-rule")]);
    assert!(checked(&text).is_err());
    assert!(sim_core::scenario::check(&text, sim_core::scenario::KnownRules::Any).is_ok());
    assert!(sim_core::scenario::check(BASE, KNOWN).is_ok());
}

#[test]
fn endless_lists_are_refused_at_once() {
    let entry = "(fault: TubeKinked), ".repeat(150_000);
    let text = edited(&[("(fault: TubeCracked(ratio: 0.2), onset: AfterMinutes(10)),", &entry)]);
    let said = listed(&checked(&text).expect_err("too many"));
    assert_eq!(said, "34:5: 150000 faults are listed; list 0 to 12");
}
