//! `trial --people`: the same people for the same seed, and one result in every form.

use std::path::Path;

use clap::Parser;
use serde_json::Value;
use sessions::Outcome;
use steady_draw::CommandLine;

/// What the command came to: exit status, output, error.
fn trial(arguments: &[&str]) -> (u8, String, String) {
    let line = ["steady-draw", "trial"].into_iter().chain(arguments.iter().copied());
    let parsed = match CommandLine::try_parse_from(line) {
        Ok(parsed) => parsed,
        Err(error) => return (2, String::new(), error.to_string()),
    };
    let mut out = Vec::new();
    let (status, error) = match parsed.command.unwrap().run(&mut out) {
        Ok(Outcome::Done) => (0, String::new()),
        Ok(Outcome::Negative) => (1, String::new()),
        Err(error) => (2, error.to_string()),
    };
    (status, String::from_utf8(out).unwrap(), error)
}

fn scenario(name: &str) -> String {
    bench_tests::repository().join("scenarios").join(name).to_str().unwrap().to_owned()
}

/// Sixty people, half of them careless.
fn sixty(folder: &Path, more: &[&str]) -> (u8, String, String) {
    let (file, folder) = (scenario("01_first_calibration.ron"), folder.to_str().unwrap());
    let mut arguments = vec![file.as_str(), "--people", "60", "--careless", "0.5"];
    arguments.extend(["--out", folder]);
    arguments.extend(more);
    trial(&arguments)
}

const FILES: [&str; 5] =
    ["people.json", "people.csv", "people-rules.csv", "people-curve.csv", "people.html"];

fn files(folder: &Path) -> [String; 5] {
    FILES.map(|name| std::fs::read_to_string(folder.join(name)).unwrap())
}

/// The rows of a table by the names of its columns.
fn rows(table: &str) -> Vec<std::collections::BTreeMap<String, String>> {
    csv::Reader::from_reader(table.as_bytes()).deserialize().map(Result::unwrap).collect()
}

#[test]
fn the_same_seed_gives_the_same_people_on_any_number_of_jobs() {
    let (one, three, other) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let said = sixty(one.path(), &["--jobs", "1"]);
    assert!(said.0 < 2 && said.1.contains("120 sessions in"), "{said:?}");
    sixty(three.path(), &["--jobs", "3"]);
    assert_eq!(files(one.path()), files(three.path()));
    sixty(other.path(), &["--seed", "1000"]);
    let [_, people, ..] = files(one.path());
    let [_, others, ..] = files(other.path());
    assert_ne!(people, others);
    assert!(!one.path().join("people.csv.unfinished").exists());
}

#[test]
fn tables_json_and_page_tell_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let said = sixty(folder.path(), &["--json"]);
    let [json, people, rules, curve, page] = files(folder.path());
    let told: Value = serde_json::from_str(&said.1).unwrap();
    assert_eq!(told, serde_json::from_str::<Value>(&json).unwrap());
    let figures = &told["scenarios"][0];
    let sittings = rows(&people);
    assert_eq!(sittings.len(), 120);
    let first = || sittings.iter().filter(|row| row["sitting"] == "1");
    assert_eq!(first().filter(|row| row["group"] == "careless").count(), 30);
    let passed = first().filter(|row| row["passed"] == "true").count() as u64;
    assert_eq!(figures["marks"]["passed"]["count"].as_u64(), Some(passed));
    let total: f64 = first().map(|row| row["total"].parse::<f64>().unwrap()).sum();
    assert!((figures["marks"]["mean"].as_f64().unwrap() - total / 60.0).abs() < 1e-3);
    let off = |row: &&std::collections::BTreeMap<String, String>| {
        row["volume_error_pct"].parse::<f64>().is_ok_and(|error| error.abs() > 5.0)
    };
    let passed_off = first().filter(|row| row["passed"] == "true").filter(off).count() as u64;
    assert_eq!(figures["volumes"][1]["passed_off"]["count"].as_u64(), Some(passed_off));

    // The curve at the scenario's own pass mark is what the volumes say.
    let marks = rows(&curve);
    assert_eq!(marks.len(), 101);
    let own = marks.iter().find(|row| row["pass_mark"] == "75").unwrap();
    assert_eq!(own["passed"], passed.to_string());
    assert_eq!(own["passed_off_5"], passed_off.to_string());
    let at = |mark: usize| marks[mark]["passed"].parse::<u64>().unwrap();
    assert!((1..=100).all(|mark| at(mark) <= at(mark - 1)), "more marks asked, fewer pass");

    // A rule is kept as often as its letter stands in the first sittings.
    let place = sim_core::procedure::RULES.iter().position(|rule| rule.id == "pen-tapped").unwrap();
    let kept = first().filter(|row| row["rules"].chars().nth(place) == Some('k')).count();
    let rules = rows(&rules);
    let tapped = rules.iter().find(|row| row["rule"] == "pen-tapped").unwrap();
    assert_eq!(tapped["kept"], kept.to_string());
    assert!(kept < 60, "nobody forgot to tap: the people are too good to test anything");

    assert_eq!(page.matches("<svg").count(), 4);
    assert!(!page.contains("<script") && !page.contains("src="), "the page needs nothing else");
    assert!(page.contains("Fewer than 400 people prove little"));
}

#[test]
fn wrong_use_is_refused_with_what_to_do() {
    let file = scenario("01_first_calibration.ron");
    let refused = |arguments: &[&str]| {
        let (status, out, error) = trial(arguments);
        assert_eq!((status, out.as_str()), (2, ""), "{arguments:?}");
        error
    };
    assert!(refused(&[&file, "--people", "1"]).contains("2..=100000"));
    assert!(refused(&[&file, "--people", "10", "--careless", "1.5"]).contains("from 0 to 1"));
    assert!(refused(&[&file, "--people", "10", "--careless", "NaN"]).contains("from 0 to 1"));
    assert!(refused(&[&file, "--people", "10", "--cost-false-pass=-1"]).contains("1000000"));
    assert!(refused(&[&file, "--people", "10", "--runs", "5"]).contains("cannot be used with"));
    assert!(refused(&[&file, "--people", "10", "--operators", "careful"]).contains("cannot be"));
    assert!(refused(&[&file, "--careless", "0.5"]).contains("--people"));
}
