//! Lessons on the command line: in sentences, as JSON, rehearsed, replayed and reported.

use std::path::Path;

use bench_tests::program::{run, run_on};
use serde_json::Value;

use super::lesson;

/// A folder with a lesson in it.
fn desk(name: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("lesson.ron"), lesson(name)).unwrap();
    folder
}

fn text(folder: &Path, name: &str) -> String {
    std::fs::read_to_string(folder.join(name)).unwrap()
}

#[test]
fn a_lesson_is_rehearsed_replayed_and_reported_as_one() {
    let desk = desk("5_seven_flows.ron");
    let said = run(desk.path(), &["rehearse", "lesson.ron", "--out", "out"]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    assert!(said.out.contains("Lesson: points; the next step is told on request."), "{}", said.out);
    assert!(said.out.contains("Not assessed, because it does not belong to the lesson"));
    let out = desk.path().join("out");
    let page = text(&out, "report.html");
    assert!(page.contains("Lesson") && page.contains("points; the next step is told on request"));
    let marks: Value = serde_json::from_str(&text(&out, "marks.json")).unwrap();
    assert_eq!(
        (&marks["lesson"]["from"], &marks["lesson"]["to"]),
        (&"Points".into(), &"Points".into())
    );
    assert!(marks["lesson"]["began_bench_seconds"].as_f64().unwrap() > 300.0);
    let said = run(desk.path(), &["replay", "out/session.journal", "--json"]);
    assert_eq!(said.status, 0);
    let again: Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!((&again["marks"], &again["lesson"]), (&marks["marks"], &marks["lesson"]));
    let hurried = run(desk.path(), &["rehearse", "lesson.ron", "--operator", "hurried"]);
    assert_eq!(hurried.status, 1);
    let trial = run(desk.path(), &["trial", "lesson.ron", "--runs", "3"]);
    assert_eq!(trial.status, 0, "{}{}", trial.out, trial.error);
}

#[test]
fn in_sentences_a_lesson_says_what_it_is_and_shows_the_next_step_until_it_is_done() {
    let desk = desk("3_hung_and_zeroed.ron");
    let arguments = ["drive", "lesson.ron", "--words", "--journal", "a.journal"];
    let said = run_on(desk.path(), &arguments, b"look at manometer\nundone\nquit\n");
    assert_eq!(said.status, 1);
    assert!(
        said.out.contains("This is a lesson: manometer. Everything before it has been done"),
        "{}",
        said.out
    );
    assert!(said.out.contains("Next: "), "{}", said.out);
    assert!(!said.out.contains("You are back"), "{}", said.out);
    let resumed =
        run_on(desk.path(), &["drive", "--resume", "a.journal", "--words"], b"sign\nsign\n");
    assert!(resumed.out.contains("You are back"), "{}", resumed.out);
    assert!(resumed.out.contains("Lesson: manometer"), "{}", resumed.out);
    assert_eq!(resumed.status, 1);
}

#[test]
fn help_fades_from_shown_to_asked_to_silent() {
    for (name, next, answered) in [
        ("4_warm_and_tight.ron", false, true),
        ("7_away_until_morning.ron", false, false),
        ("2_calibrator_on.ron", true, true),
    ] {
        let desk = desk(name);
        let said = run_on(desk.path(), &["drive", "lesson.ron", "--words"], b"what now\nquit\n");
        assert_eq!(said.out.contains("Next: "), next, "{name}: {}", said.out);
        assert_eq!(said.out.contains("Your request is logged"), answered, "{name}: {}", said.out);
        let json = run_on(desk.path(), &["drive", "lesson.ron"], b"");
        let seen: Value = serde_json::from_str(json.out.lines().next().unwrap()).unwrap();
        assert_eq!(seen["lesson"]["next"].is_string(), next, "{name}");
        assert!(seen["lesson"]["began"].is_number(), "{name}");
    }
}
