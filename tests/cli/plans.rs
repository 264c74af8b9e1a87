//! Lesson plans on the command line: checked, followed, and tried on simulated learners.

use std::path::Path;

use bench_tests::program::{run, run_on};
use serde_json::Value;

use super::desk::{desk, object, refused};

const PLAN: &str = r#"(
    format: 1,
    title: "A small plan",
    for_whom: "Whoever tries it.",
    steps: [
        (step: Drill("difference")),
        (step: Job("first.ron"), until: (marks: 80)),
    ],
)"#;

fn with_plan(folder: &Path, text: &str) {
    std::fs::create_dir_all(folder.join("plans")).unwrap();
    std::fs::write(folder.join("plans/plan.ron"), text).unwrap();
}

fn shipped() -> String {
    let plan = bench_tests::repository().join("scenarios/plans/first_look_to_sitting.ron");
    plan.to_string_lossy().into_owned()
}

#[test]
fn a_sound_plan_is_printed_with_its_times() {
    let desk = desk();
    with_plan(desk.path(), PLAN);
    let said = run(desk.path(), &["check", "plans/plan.ron"]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    for words in [
        "A small plan. Whoever tries it.",
        "First calibration",
        "passed with 80 marks at least",
        "in all 0 h 59 min",
        "1 lesson plan checked, no problem found",
    ] {
        assert!(said.out.contains(words), "{words}\n{}", said.out);
    }
}

#[test]
fn the_shipped_plan_is_sound_and_takes_about_six_hours() {
    let said = run(Path::new("."), &["check", &shipped()]);
    assert_eq!(said.status, 0, "{}{}", said.out, said.error);
    let total = said.out.split("in all ").nth(1).expect("a total");
    let hours: f64 = total.split(" h").next().unwrap().parse().unwrap();
    assert!((5.0..=6.9).contains(&hours), "{total}");
}

#[test]
fn what_is_wrong_with_a_plan_is_told_with_its_place() {
    let desk = desk();
    with_plan(desk.path(), &PLAN.replace("first.ron", "frist.ron"));
    let said = run(desk.path(), &["check", "plans/plan.ron"]);
    assert_eq!(said.status, 1);
    assert!(
        said.out.contains("plan.ron:7:10: there is no scenario `frist.ron`; write `first.ron`"),
        "{}",
        said.out
    );
    let message = refused(desk.path(), &["progress", "first.ron", "--plan", "plans/plan.ron"]);
    assert!(message.contains("there is no scenario `frist.ron`"), "{message}");
    let message = refused(desk.path(), &["trial", "--learner", "plans/plan.ron"]);
    assert!(message.contains("there is no scenario `frist.ron`"), "{message}");
    let message = refused(desk.path(), &["trial", "--learner", "plans/none.ron"]);
    assert!(message.contains("there is no such file"), "{message}");
}

#[test]
fn progress_follows_the_plan_and_names_one_next_step() {
    let desk = desk();
    with_plan(desk.path(), PLAN);
    let rehearsed = run(desk.path(), &["rehearse", "first.ron", "--out", "out"]);
    assert_eq!(rehearsed.status, 0, "{}", rehearsed.error);
    let line =
        ["progress", "out", "--plan", "plans/plan.ron", "--scenarios", ".", "--on", "2026-12-01"];
    let said = run(desk.path(), &line);
    assert_eq!(said.status, 0, "{}", said.error);
    let next = "Next step: Drill: Both legs of the manometer\n";
    assert!(said.out.starts_with(next), "{}", said.out);
    assert!(
        said.out.contains("To do it: steady-draw drill difference --journal difference-1.drill"),
        "{}",
        said.out
    );
    assert!(said.out.contains("1 of 2 steps are done."), "{}", said.out);
    let json = run(desk.path(), &[line.as_slice(), &["--json"]].concat());
    let json = object(&json);
    assert_eq!(
        json["next_step"]["command"],
        "steady-draw drill difference --journal difference-1.drill"
    );
    assert_eq!(json["plan"]["steps"][1]["state"], "done");
    assert_eq!(json["plan"]["steps"][0]["state"], "open");
    let folder = run(desk.path(), &[line.as_slice(), &["--out", "page"]].concat());
    assert_eq!(folder.status, 0, "{}", folder.error);
    let page = std::fs::read_to_string(desk.path().join("page/progress.html")).unwrap();
    assert!(page.contains("Lesson plan: A small plan") && page.contains("Leitner"));
    let wrong = run(desk.path(), &["progress", "out", "--on", "2026-02-31"]);
    assert_eq!((wrong.status, wrong.out.as_str()), (2, ""));
    assert!(wrong.error.contains("`2026-02-31` is not a date"), "{}", wrong.error);
}

/// Runs with the folders of a person's machine in this folder.
fn at_home(folder: &Path, arguments: &[&str], input: &str) -> (Option<i32>, String, String) {
    use std::io::Write as _;
    let mut child = std::process::Command::new(bench_tests::program::path())
        .args(arguments)
        .current_dir(folder)
        .env("HOME", folder)
        .env("XDG_DATA_HOME", folder.join("data"))
        .stdin(std::process::Stdio::piped())
        .stdout(std::process::Stdio::piped())
        .stderr(std::process::Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input.as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    let text = |bytes| String::from_utf8(bytes).unwrap();
    (output.status.code(), text(output.stdout), text(output.stderr))
}

#[cfg(target_os = "linux")]
#[test]
fn people_who_share_a_machine_are_kept_apart_by_their_names() {
    let desk = desk();
    let (_, _, error) =
        at_home(desk.path(), &["drive", "first.ron", "--name", "Ann B"], "\"sign\"\n");
    assert_eq!(error, "");
    let (status, out, _) = at_home(desk.path(), &["progress", "--name", "ann b", "--json"], "");
    let progress: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((status, progress["name"].as_str()), (Some(0), Some("ann b")));
    assert_eq!(progress["sessions"].as_array().unwrap().len(), 1);
    assert!(progress["sessions"][0]["begun_unix_s"].is_u64(), "the journal is dated");
    let (status, _, error) = at_home(desk.path(), &["progress", "--name", "Bob"], "");
    assert_eq!(status, Some(2));
    assert!(error.contains("no journals of Bob are kept on this machine yet"), "{error}");
    for name in ["../ann", "a/b", ".", ""] {
        let (status, _, error) = at_home(desk.path(), &["drive", "first.ron", "--name", name], "");
        assert_eq!(status, Some(2), "{name}");
        assert!(error.contains("a name"), "{name}: {error}");
    }
    let people = desk.path().join("data/steady-draw/people");
    let folders: Vec<_> =
        std::fs::read_dir(people).unwrap().map(|one| one.unwrap().file_name()).collect();
    assert_eq!(folders, ["person-ann_b"]);
}

#[test]
fn learners_get_better_with_the_shipped_plan_and_not_without_it() {
    let said =
        run(Path::new("."), &["trial", "--learner", &shipped(), "--learners", "12", "--json"]);
    let figures = object(&said);
    assert_eq!(said.status, 0, "{figures}");
    let arm = |used: &str| {
        let arms = figures["learners"].as_array().unwrap();
        arms.iter().find(|arm| arm["used"] == used).unwrap().clone()
    };
    let marks = |value: &Value| value["marks"].as_f64().unwrap();
    let (whole, alone, once) = (arm("whole"), arm("jobs_alone"), arm("without_spacing"));
    assert!(marks(&whole["after"]) > marks(&whole["before"]) + 10.0, "{whole}");
    assert!(marks(&whole["after"]) > marks(&alone["after"]) + 10.0, "{alone}");
    assert!(marks(&alone["after"]) < marks(&alone["before"]) + 10.0, "{alone}");
    assert!(marks(&whole["later"]) > marks(&once["later"]), "what is due again keeps it: {once}");
    // What no drill and no lesson of the plan reaches.
    let addressed = figures["habits_addressed"].as_array().unwrap();
    let missing: Vec<&str> = sim_core::operator::NAMES
        .iter()
        .map(|(name, _)| *name)
        .filter(|name| *name != "careful" && !addressed.iter().any(|one| one == name))
        .collect();
    assert_eq!(missing, ["checks-as-calibrated"]);
    assert!(figures["about"].as_str().unwrap().contains("nothing about people"));
}

#[test]
fn a_journal_of_drills_counts() {
    let desk = desk();
    with_plan(desk.path(), PLAN);
    std::fs::create_dir(desk.path().join("mine")).unwrap();
    std::fs::write(desk.path().join("mine/bad.drill"), "no journal\n").unwrap();
    let said = run_on(desk.path(), &["progress", "mine", "--plan", "plans/plan.ron"], b"");
    assert_eq!(said.status, 1);
    assert!(said.out.contains("Left out: mine/bad.drill"), "{}", said.out);
}
