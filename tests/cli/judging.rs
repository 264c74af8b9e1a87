//! The trainee's own judgement, the briefing and the checklist: in words and in JSON.

use bench_tests::program::{Said, run, run_on};
use serde_json::{Value, json};

use super::desk::desk;

fn objects(said: &Said) -> Vec<Value> {
    assert_eq!(said.error, "");
    said.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// A talk with these sentences, its journal kept.
fn talk(folder: &std::path::Path, sentences: &str) -> Said {
    let line = ["drive", "first.ron", "--words", "--journal", "mine.journal"];
    run_on(folder, &line, sentences.as_bytes())
}

#[test]
fn a_talk_begins_with_what_is_expected_recorded_and_allowed() {
    let desk = desk();
    let said = run_on(desk.path(), &["drive", "first.ron", "--words"], b"quit\n");
    for words in [
        "What is expected\n  You calibrate the sampler and decide whether the line can be accepted.",
        "You pass with 75 of 100 marks",
        "What is recorded\n  Every action, look and entry is recorded with its time",
        "How long it takes\n  An operator who knows the work takes about 36 min at the bench.",
        "There is no time limit.",
        "What help there is\n  You can ask what to do now",
        "A checklist with the 11 phases of this job",
    ] {
        assert!(said.out.contains(words), "{words}\n{}", said.out);
    }
    let sitting = bench_tests::repository().join("scenarios/26_sitting.ron");
    let sitting = sitting.to_string_lossy();
    let said = run_on(desk.path(), &["drive", &sitting, "--words"], b"checklist\ntick points\n");
    assert!(said.out.contains("The time limit is 55 min."), "{}", said.out);
    assert!(said.out.contains("There is no help with the next step."));
    assert!(!said.out.contains("A checklist with"));
    assert_eq!(said.out.matches("does not allow a checklist").count(), 2, "{}", said.out);
}

#[test]
fn the_judgement_is_asked_for_after_the_signature_and_before_the_debrief() {
    let desk = desk();
    let said = talk(desk.path(), "sign anyway\n3\n5\nsure\n80\nfoo\npoints, manometer\n");
    let asked = said.out.find("judge your own work").expect("it is asked");
    let debrief = said.out.find("Debrief:").expect("there is a debrief");
    assert!(asked < debrief, "{}", said.out);
    for words in [
        "Say 2, 5, 10 or `more`.",
        "Say 50, 60, 70, 80, 90 or 100.",
        "This job has no phase `foo`.",
        "Your own judgement\n  You said that your volume is within 5 %, and were 80 % sure. There is no line",
        "You would do again: manometer, points.",
    ] {
        assert!(said.out.contains(words), "{words}\n{}", said.out);
    }
    // It is in the journal, behind the seal, and replays; the marks are those without it.
    let journal = std::fs::read_to_string(desk.path().join("mine.journal")).unwrap();
    let sealed = journal.find(" Sealed(").expect("a seal");
    assert!(journal.find(" Judgement(").is_some_and(|at| at > sealed), "{journal}");
    let replayed = run(desk.path(), &["replay", "mine.journal", "--json"]);
    let replayed: Value = serde_json::from_str(&replayed.out).unwrap();
    assert_eq!(replayed["own_judgement"]["volume"]["sure_pct"], 80);
    let without = desk.path().join("without");
    std::fs::create_dir(&without).unwrap();
    std::fs::copy(desk.path().join("first.ron"), without.join("first.ron")).unwrap();
    talk(&without, "sign anyway\n");
    let plain = run(&without, &["replay", "mine.journal", "--json"]);
    let plain: Value = serde_json::from_str(&plain.out).unwrap();
    assert_eq!(plain["own_judgement"], Value::Null);
    assert_eq!(plain["marks"], replayed["marks"]);
    assert_ne!(plain["journal_head"], replayed["journal_head"]);
}

#[test]
fn a_judgement_that_was_changed_breaks_the_chain() {
    let desk = desk();
    talk(desk.path(), "sign anyway\n5\n80\nnothing\n");
    let path = desk.path().join("mine.journal");
    let journal = std::fs::read_to_string(&path).unwrap();
    assert!(journal.contains("sure_pct:80"), "{journal}");
    std::fs::write(&path, journal.replace("sure_pct:80", "sure_pct:90")).unwrap();
    let said = run(desk.path(), &["replay", "mine.journal"]);
    assert_eq!(said.status, 2, "{}", said.out);
    assert!(said.error.contains("does not follow from the lines before it"), "{}", said.error);
}

#[test]
fn who_leaves_every_question_out_has_said_nothing() {
    let desk = desk();
    talk(desk.path(), "sign anyway\n\n\n");
    let journal = std::fs::read_to_string(desk.path().join("mine.journal")).unwrap();
    assert!(!journal.contains("Judgement("));
}

#[test]
fn other_programs_are_asked_only_if_they_want_to_be() {
    let desk = desk();
    let line = ["drive", "first.ron", "--ask-judgement"];
    let input = concat!(
        "\"sign\"\n",
        "{\"volume\":{\"off\":\"within_5\",\"sure_pct\":85}}\n",
        "{\"again\":[\"volume\"]}\n",
        "{\"volume\":{\"off\":\"worse\",\"sure_pct\":90},\"again\":[\"points\"]}\n",
    );
    let answers = objects(&run_on(desk.path(), &line, input.as_bytes()));
    let first = answers.first().unwrap();
    assert!(first["briefing"]["expected"][0].as_str().unwrap().starts_with("You calibrate"));
    let asks = answers.iter().position(|answer| answer["asks"] == "own_judgement").unwrap();
    assert_eq!(answers[asks]["volume"]["sure_pct"], json!([50, 60, 70, 80, 90, 100]));
    assert!(answers[asks + 1]["error"].as_str().unwrap().contains("85 is not one of 50"));
    assert!(answers[asks + 2]["error"].as_str().unwrap().contains("no phase `volume`"));
    let last = answers.last().unwrap();
    assert_eq!(last["own_judgement"]["volume"]["off"], "worse");
    assert_eq!(last["own_judgement"]["again"], json!(["points"]));
    // Without being asked, nothing stands between the signature and the marks.
    let answers = objects(&run_on(desk.path(), &["drive", "first.ron"], b"\"sign\"\n"));
    assert!(answers.iter().all(|answer| answer.get("asks").is_none()));
    assert!(answers.last().unwrap().get("own_judgement").is_none());
    // `null`, and the end of the input, leave it open.
    for input in ["\"sign\"\nnull\n", "\"sign\"\n"] {
        let answers = objects(&run_on(desk.path(), &line, input.as_bytes()));
        assert!(answers.last().unwrap().get("own_judgement").is_none());
    }
}

#[test]
fn the_checklist_is_ticked_in_words_and_in_json() {
    let desk = desk();
    let said = talk(
        desk.path(),
        "tick manometer\nuntick manometer\ntick papers and weather\nchecklist\ntick volume\nquit\n",
    );
    assert!(said.out.contains("[x] papers and weather"), "{}", said.out);
    assert!(said.out.contains("[ ] manometer"), "{}", said.out);
    assert!(said.out.contains("no item `volume`"), "{}", said.out);
    let input = b"{\"mark_checklist\":{\"item\":\"leak_check\",\"to\":\"ticked\"}}\n\"open_lid\"\n";
    let answers = objects(&run_on(desk.path(), &["drive", "first.ron"], input));
    let list = answers[1]["checklist"].as_array().unwrap();
    let ticked: Vec<&str> = list
        .iter()
        .filter(|item| item["ticked"] == true)
        .map(|item| item["item"].as_str().unwrap())
        .collect();
    assert_eq!(ticked, ["leak_check"]);
    assert!(answers[2].get("checklist").is_none());
}
