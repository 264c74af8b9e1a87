//! A whole calibration in plain sentences, as a script and as a talk.

use bench_tests::program::{run, run_on};

use super::desk::desk;

const SENTENCES: &str = include_str!("data/first_calibration.words");

#[test]
fn a_calibration_in_sentences_passes_as_a_script_and_as_a_talk() {
    let desk = desk();
    // The numbers in the sentences were worked out by a certificate without a bias.
    let scenario = desk.path().join("first.ron");
    let text = std::fs::read_to_string(&scenario).unwrap();
    let unbiased = text.replace("\", date: ", "\", laboratory_bias_pct: Fixed(0), date: ");
    std::fs::write(&scenario, unbiased).unwrap();
    std::fs::write(desk.path().join("words.txt"), SENTENCES).unwrap();
    let said = run(
        desk.path(),
        &["rehearse", "first.ron", "--script", "words.txt", "--out", "out", "--json"],
    );
    assert_eq!((said.status, said.error.as_str()), (0, ""), "{}", said.out);
    let object: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert_eq!(object["operator"], "script");
    assert_eq!(object["marks"]["passed"], true);
    assert!(object["marks"]["total"].as_f64().unwrap() > 90.0, "{}", object["marks"]["total"]);

    let typed: String = SENTENCES
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| format!("{line}\n"))
        .collect();
    let talk = ["drive", "first.ron", "--words", "--journal", "talk.journal"];
    let said = run_on(desk.path(), &talk, typed.as_bytes());
    assert_eq!((said.status, said.error.as_str()), (0, ""), "{}", said.out);
    for words in ["Work order WO-26-0114", "The blower runs up", "Passed:", "Head of the journal"] {
        assert!(said.out.contains(words), "{words}\n{}", said.out);
    }
    for wrong in ["not understood", "cannot be done", "Did you mean"] {
        assert!(!said.out.contains(wrong), "{}", said.out);
    }
    // The same sentences write the same journal but for the clock on the wall, which a talk notes, and for
    // the chain that covers it.
    let read = |name: &str| {
        let journal = std::fs::read_to_string(desk.path().join(name)).unwrap();
        let deeds = journal.lines().filter_map(|line| line.split_once(' ')).map(|(_, deed)| deed);
        let deeds = deeds.filter(|deed| !deed.starts_with("Clock("));
        deeds.map(str::to_owned).collect::<Vec<_>>()
    };
    assert_eq!(read("talk.journal"), read("out/session.journal"));
}

#[test]
fn a_talk_forgives_what_it_does_not_understand_and_can_be_gone_on_with() {
    let desk = desk();
    let words = "sing\nturn knob to 40 %\n\nopen the lid\nquit\nopen the door\n";
    let talk = ["drive", "first.ron", "--words", "--journal", "talk.journal"];
    let said = run_on(desk.path(), &talk, words.as_bytes());
    // Left unsigned, the answer is not yet.
    assert_eq!((said.status, said.error.as_str()), (1, ""));
    assert!(said.out.contains("`sing` is not understood here"), "{}", said.out);
    assert!(said.out.contains("the calibrator is in its case: take it out first"), "{}", said.out);
    assert!(
        said.out.contains("To continue it: steady-draw drive --words --resume talk.journal"),
        "{}",
        said.out
    );
    let again = ["drive", "--resume", "talk.journal", "--words"];
    let said = run_on(desk.path(), &again, b"look at the holder\nopen the lid\nsign\nsign\n");
    assert_eq!((said.status, said.error.as_str()), (1, ""), "{}", said.out);
    assert!(said.out.contains("the lid is already open"), "{}", said.out);
    assert!(said.out.contains("Not passed"), "{}", said.out);
}
