//! `drill`: in words, in JSON, with a journal and with pictures.

use bench_tests::program::{Said, run, run_on};
use serde_json::Value;

use super::desk::{desk, message, object, refused, refused_as_json};

/// The objects that were printed, one a line.
#[track_caller]
fn objects(said: &Said) -> Vec<Value> {
    assert_eq!(said.error, "");
    said.out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

#[test]
fn the_list_says_when_each_skill_is_good_enough() {
    let desk = desk();
    let said = run(desk.path(), &["drill", "--list"]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    for name in ["leg", "difference", "pen-at-rest", "certificate", "station", "line"] {
        assert!(said.out.lines().any(|line| line.starts_with(name)), "{name} is not listed");
    }
    let leg = "Good enough: 9 of the last 10 answers within half a division (0.05 in), each in at most 20 s";
    assert!(said.out.contains(leg), "{}", said.out);
    let listed = object(&run(desk.path(), &["drill", "--list", "--json"]));
    let drills = listed["drills"].as_array().unwrap();
    assert_eq!(drills.len(), 13);
    assert_eq!(drills[0]["standard"]["of_last"], 10);
}

#[test]
fn a_drill_in_words_says_how_far_and_which_way() {
    let desk = desk();
    let input = "what is it\nhelp\neye 200\neye level\n0\n";
    let arguments = ["drill", "leg", "--seed", "4", "--count", "1"];
    let said = run_on(desk.path(), &arguments, input.as_bytes());
    assert_eq!((said.status, said.error.as_str()), (1, ""), "{}", said.out);
    for expected in [
        "One leg of the manometer. Seed 4.",
        "the marks are a tenth of an inch apart",
        "`what is it` is not a number: answer with a number such as 3.15, or say `help`.",
        "`eye level` brings your eye level with what you read",
        "That cannot be done: the eye can be held from 150 mm below to 150 mm above what is read.",
        "Your eye is level with it.",
        "Right is ",
        "1 question was answered.",
        "That cannot be said yet: 0 of the last 1 were right and in time, and 10 answers are needed.",
    ] {
        assert!(
            said.out.to_lowercase().contains(&expected.to_lowercase()),
            "{expected}\n{}",
            said.out
        );
    }
    let told =
        said.out.contains(" in too high. Right is ") || said.out.contains(" in too low. Right is ");
    assert!(told, "{}", said.out);
}

/// Whoever counts the marks that are said has every reading right, and that is good enough.
#[test]
fn counting_the_marks_is_good_enough() {
    let desk = desk();
    for kind in ["leg", "pen", "barometer", "thermometer"] {
        let answers = answers_by_counting(desk.path(), kind);
        let arguments = ["drill", kind, "--seed", "12", "--json"];
        let said = run_on(desk.path(), &arguments, answers.as_bytes());
        let printed = objects(&said);
        let end = printed.last().unwrap();
        assert_eq!(end["standing"]["counting"], 10, "{kind}: {end}");
        assert_eq!((said.status, &end["standing"]["good_enough"]), (0, &Value::Bool(true)));
    }
}

/// The lines that bring the eye level or set the barometer, and answer what the marks say.
fn answers_by_counting(folder: &std::path::Path, kind: &str) -> String {
    let prepare = match kind {
        "leg" => "{\"eye\":{\"eye_mm\":0}}\n",
        "barometer" => "{\"set_barometer\":{\"to\":\"station\"}}\n",
        _ => "",
    };
    let mut input = String::new();
    for _ in 0..10 {
        input.push_str(prepare);
        let arguments = ["drill", kind, "--seed", "12", "--json"];
        let printed = objects(&run_on(folder, &arguments, input.as_bytes()));
        let question = printed.iter().rev().find_map(|one| one.get("question")).unwrap();
        let stands = &question["seen"]["looks"][0]["stands"];
        let number = |name: &str| stands[name].as_f64().unwrap();
        let half = if stands["midway"] == true { 0.5 } else { 0.0 };
        let counted = number("number") + (number("marks_past") + half) * number("mark");
        input.push_str(&format!("{{\"answer\":{counted}}}\n"));
    }
    input
}

#[test]
fn in_json_every_line_is_answered_by_one_object_and_no_question_tells_its_answer() {
    let desk = desk();
    let input =
        "nonsense\n{\"answer\":\"tube\"}\n\n\"read_in_words\"\n{\"answer\":47.5}\n\"quit\"\n";
    let arguments = ["drill", "pen", "--seed", "3", "--json"];
    let said = run_on(desk.path(), &arguments, input.as_bytes());
    assert_eq!(said.status, 1);
    let printed = objects(&said);
    let kinds: Vec<&str> = printed
        .iter()
        .map(|one| {
            let keys = ["question", "error", "refused", "judged", "ended"];
            keys.into_iter().find(|key| one.get(key).is_some()).unwrap()
        })
        .collect();
    assert_eq!(kinds, ["question", "error", "refused", "question", "judged", "question", "ended"]);
    assert_eq!(printed[0]["question"]["read_out"], Value::Null);
    assert!(printed[3]["question"]["read_out"].as_str().unwrap().starts_with("The pen reads "));
    assert_eq!(printed[4]["judged"]["in_words"], true);
    assert!(printed[0].get("truth").is_none() && printed[4]["truth"].is_number());
    let error = printed[1]["error"].as_str().unwrap();
    assert!(
        error.starts_with("this is not an answer (at column 1): expected value; write "),
        "{error}"
    );
}

#[test]
fn every_drill_can_be_asked_and_answered_in_words() {
    let desk = desk();
    for (kind, answer) in [
        ("leg", "1.5"),
        ("difference", "3.2 in"),
        ("pen", "47.5"),
        ("barometer", "750 mmHg"),
        ("thermometer", "minus 3"),
        ("chart-mean", "45"),
        ("elapsed-time", "1440.2 min"),
        ("water-at-rest", "at rest"),
        ("pen-at-rest", "moving"),
        ("certificate", "2"),
        ("station", "the blower's plug"),
        ("point-sums", "1.234"),
        ("line", "point 3"),
    ] {
        let input = format!("{answer}\nagain\nquit\n");
        let arguments = ["drill", kind, "--seed", "8", "--count", "2"];
        let said = run_on(desk.path(), &arguments, input.as_bytes());
        assert_eq!((said.status, said.error.as_str()), (1, ""), "{kind}");
        assert!(said.out.contains("Question 2"), "{kind}: {}", said.out);
        assert!(said.out.contains("1 question was answered."), "{kind}: {}", said.out);
    }
}

#[test]
fn a_journal_is_kept_replayed_and_named_where_it_was_changed() {
    let desk = desk();
    let arguments = ["drill", "leg", "--seed", "4", "--count", "2", "--journal", "a.drill"];
    let said = run_on(desk.path(), &arguments, b"1.5\nin words\n-2.25\n");
    assert_eq!(said.status, 1, "{}", said.error);
    let again = run(desk.path(), &["drill", "--replay", "a.drill"]);
    assert_eq!((again.status, again.error.as_str()), (1, ""));
    assert!(again.out.contains("Every checksum and every result agrees."), "{}", again.out);
    assert!(again.out.contains("1 reading was had in words."), "{}", again.out);
    let end = |text: &str| text.split("answered.").nth(1).unwrap().to_owned();
    assert_eq!(end(&again.out), end(&said.out));
    let printed = object(&run(desk.path(), &["drill", "--replay", "a.drill", "--json"]));
    assert_eq!(printed["results"].as_array().unwrap().len(), 2);
    let exists = "cannot create a.drill: it already exists: choose another name";
    assert_eq!(refused(desk.path(), &arguments), exists);
    let path = desk.path().join("a.drill");
    let text = std::fs::read_to_string(&path).unwrap();
    std::fs::write(&path, text.replacen("number(1.5)", "number(1.6)", 1)).unwrap();
    let changed = refused_as_json(desk.path(), &["drill", "--replay", "a.drill"]);
    assert!(changed.starts_with("a.drill: line 3: this line does not follow"), "{changed}");
    let session = refused(desk.path(), &["drill", "--replay", "first.ron"]);
    assert!(session.contains("line 1: this is not the journal of a drill"), "{session}");
}

#[test]
fn pictures_are_drawn_beside_the_words() {
    let desk = desk();
    for (kind, count) in
        [("leg", 1), ("difference", 2), ("certificate", 4), ("station", 1), ("line", 0)]
    {
        let folder = format!("pictures-{kind}");
        let arguments = ["drill", kind, "--seed", "4", "--count", "1", "--pictures", &folder];
        let said = run_on(desk.path(), &arguments, b"quit\n");
        assert_eq!((said.status, said.error.as_str()), (1, ""));
        assert_eq!(said.out.matches("Picture: ").count(), count, "{kind}: {}", said.out);
        let drawn: Vec<_> =
            std::fs::read_dir(desk.path().join(&folder)).unwrap().flatten().collect();
        assert_eq!(drawn.len(), count, "{kind}");
        for file in drawn {
            let bytes = std::fs::read(file.path()).unwrap();
            assert!(bytes.starts_with(b"\x89PNG") && bytes.len() > 2000, "{:?}", file.path());
        }
    }
}

#[test]
fn what_cannot_be_asked_is_refused() {
    let desk = desk();
    for arguments in [
        &["drill"][..],
        &["drill", "legs"],
        &["drill", "leg", "--count", "0"],
        &["drill", "leg", "--seed", "many"],
        &["drill", "--list", "--seed", "3"],
        &["drill", "leg", "--replay", "a.drill"],
    ] {
        let said = run(desk.path(), arguments);
        assert_eq!((said.status, said.out.as_str()), (2, ""), "{arguments:?}");
        assert!(!said.error.contains("panicked"), "{}", said.error);
    }
    let missing = refused_as_json(desk.path(), &["drill", "--replay", "missing.drill"]);
    assert!(missing.contains("cannot read missing.drill: there is no such file"), "{missing}");
    let said = run(desk.path(), &["drill", "leg", "--journal", "no/folder/a.drill"]);
    assert_eq!(said.status, 2);
    assert!(message(&said).contains("no/folder/a.drill"), "{}", said.error);
}
