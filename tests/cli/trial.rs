//! `trial`: what it writes, that it goes on where it stopped, and how wrong use is refused.

use std::path::Path;

use clap::Parser;
use serde_json::Value;
use sessions::Outcome;
use steady_draw::CommandLine;

/// What the command came to.
struct Said {
    status: u8,
    out: String,
    error: String,
}

/// Runs `trial` in this process.
fn trial(arguments: &[&str]) -> Said {
    let line = ["steady-draw", "trial"].into_iter().chain(arguments.iter().copied());
    let parsed = match CommandLine::try_parse_from(line) {
        Ok(parsed) => parsed,
        Err(error) => return Said { status: 2, out: String::new(), error: error.to_string() },
    };
    let mut out = Vec::new();
    let result = parsed.command.unwrap().run(&mut out);
    let (status, error) = match result {
        Ok(Outcome::Done) => (0, String::new()),
        Ok(Outcome::Negative) => (1, String::new()),
        Err(error) => (2, error.to_string()),
    };
    Said { status, out: String::from_utf8(out).unwrap(), error }
}

fn scenario(name: &str) -> String {
    bench_tests::repository().join("scenarios").join(name).to_str().unwrap().to_owned()
}

fn read(folder: &Path, name: &str) -> String {
    std::fs::read_to_string(folder.join(name)).unwrap()
}

const RESULTS: [&str; 3] = ["trial.json", "trial.csv", "trial.html"];

fn results(folder: &Path) -> [String; 3] {
    RESULTS.map(|name| read(folder, name))
}

/// Runs over a folder with two blocks of sessions for each of two operators.
fn into(folder: &Path, jobs: &str, more: &[&str]) -> Said {
    let (file, folder) = (scenario("02_two_lines_and_an_audit.ron"), folder.to_str().unwrap());
    let mut arguments = vec![file.as_str(), "--out", folder, "--jobs", jobs];
    arguments.extend(["--runs", "52", "--operators", "careful,skips-hold-test+accepts-any-line"]);
    arguments.extend(more);
    trial(&arguments)
}

#[test]
fn the_result_is_the_same_for_any_number_of_jobs_and_after_an_interruption() {
    let (one, three) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let said = into(one.path(), "1", &[]);
    assert_eq!((said.status, said.error.as_str()), (0, ""), "{}", said.out);
    assert!(said.out.contains("PROVEN") && said.out.contains("104 sessions in"), "{}", said.out);
    assert_eq!(into(three.path(), "3", &[]).status, 0);
    let expected = results(one.path());
    assert_eq!(expected, results(three.path()));

    // Killed in the middle of the third line: two blocks are known, the rest is done again.
    let blocks = read(one.path(), "blocks.jsonl");
    let lines: Vec<&str> = blocks.lines().collect();
    assert_eq!(lines.len(), 4);
    let cut = format!("{}\n{}\n{}", lines[0], lines[1], &lines[2][..lines[2].len() / 2]);
    std::fs::write(one.path().join("blocks.jsonl"), &cut).unwrap();
    for name in RESULTS {
        std::fs::remove_file(one.path().join(name)).unwrap();
    }
    let said = into(one.path(), "2", &[]);
    assert!(said.out.contains("52 were already known"), "{}", said.out);
    assert_eq!(results(one.path()), expected);
    let blocks = read(one.path(), "blocks.jsonl");
    assert!(blocks.starts_with(&format!("{cut}\n")), "the file is only added to");

    // Once more: nothing is left to do, and nothing is added.
    let said = into(one.path(), "2", &[]);
    assert!(said.out.contains("0 sessions in") && said.out.contains("104 were already known"));
    assert_eq!(read(one.path(), "blocks.jsonl"), blocks);
    assert_eq!(results(one.path()), expected);
}

#[test]
fn what_is_known_is_used_only_when_it_fits() {
    let folder = tempfile::tempdir().unwrap();
    assert_eq!(into(folder.path(), "2", &[]).status, 0);
    let path = folder.path().join("blocks.jsonl");
    let blocks = read(folder.path(), "blocks.jsonl");
    let known_after = |text: String| {
        std::fs::write(&path, text).unwrap();
        let json: Value = serde_json::from_str(&into(folder.path(), "2", &["--json"]).out).unwrap();
        let habit = json["scenarios"][0]["operators"][1]["passed"].as_u64().unwrap();
        (habit, std::fs::read_to_string(&path).unwrap().lines().count())
    };
    assert_eq!(known_after(blocks.clone()), (0, 4));
    // A count that can be is believed: nothing is had again but the first session of each block.
    let told = blocks.replace("\"passed\":0,", "\"passed\":2,");
    assert_ne!(told, blocks);
    assert_eq!(known_after(told), (4, 4));
    // One that cannot be is not.
    assert_eq!(known_after(blocks.replace("\"passed\":0,", "\"passed\":51,")), (0, 6));
    // Another program, or one of the same name that comes to other sessions.
    let program = format!("\"program\":\"{}\"", sim_core::VERSION);
    assert_eq!(known_after(blocks.replace(&program, "\"program\":\"0.0.0\"")), (0, 8));
    assert_eq!(known_after(blocks.replace("\"witness\":\"", "\"witness\":\"x")), (0, 8));
    // Something else altogether.
    assert_eq!(known_after("no block\n{}\n".to_owned()), (0, 6));
}

#[test]
fn json_and_table_tell_the_same() {
    let folder = tempfile::tempdir().unwrap();
    let (out, file) = (folder.path().to_str().unwrap(), scenario("01_first_calibration.ron"));
    let said = trial(&[
        &file,
        "--runs",
        "3",
        "--operators",
        "one-leg,careful,one-leg",
        "--out",
        out,
        "--json",
    ]);
    let json: Value = serde_json::from_str(&said.out).unwrap();
    let scenario = &json["scenarios"][0];
    assert_eq!((said.status, scenario["verdict"].as_str()), (1, Some("open")));
    assert!(scenario["reasons"][0].as_str().unwrap().contains("did not take part"));
    let names: Vec<_> = scenario["operators"].as_array().unwrap().iter().collect();
    assert_eq!(names.len(), 2, "a name given twice counts once");
    let table = read(folder.path(), "trial.csv");
    let mut reader = csv::Reader::from_reader(table.as_bytes());
    let header = reader.headers().unwrap().clone();
    let rows: Vec<_> = reader.records().map(Result::unwrap).collect();
    let cell = |row: usize, name: &str| {
        let column = header.iter().position(|known| known == name).unwrap();
        rows[row][column].to_owned()
    };
    assert_eq!((cell(0, "operator"), cell(1, "operator")), ("one-leg".into(), "careful".into()));
    assert_eq!((cell(0, "passed"), cell(1, "passed")), ("0".into(), "3".into()));
    assert_eq!(cell(0, "decided_by"), "points-spread");
    for row in 0..2 {
        let low: f64 = cell(row, "pass_low").parse().unwrap();
        let in_json = scenario["operators"][row]["pass_rate"]["low"].as_f64().unwrap();
        assert!((low - in_json).abs() < 1e-6);
    }
    let rules = scenario["rules"].as_array().unwrap();
    let rule = rules.iter().find(|rule| rule["rule"] == "both-legs").unwrap();
    assert_eq!((rule["kept"].as_u64(), rule["of"].as_u64()), (Some(3), Some(6)));
    assert!(rule["discrimination"].as_f64().unwrap() > 0.9, "{rule}");
    let page = read(folder.path(), "trial.html");
    assert_eq!(page.matches("<svg").count(), 3);
    assert!(!page.contains("<script") && !page.contains("src="), "the page needs nothing else");
    let caution = json["caution"].as_str().unwrap();
    assert!(caution.starts_with("Fewer than 100 seeds prove little"), "{caution}");
    assert!(page.contains(caution));
}

#[test]
fn few_seeds_are_told_in_words_and_in_the_help() {
    let file = scenario("01_first_calibration.ron");
    let said = trial(&[&file, "--runs", "1", "--operators", "careful"]);
    assert!(
        said.out.contains("all of 1 seed may in truth pass anything from 20.7"),
        "{}",
        said.out
    );
    let help = trial(&["--help"]).error;
    assert!(help.contains("Fewer than 100 seeds prove little, whatever the verdict"), "{help}");
    assert!(help.contains("passes at most 5 %, and careful notices each fault in at least\n90 %"));
}

#[test]
fn wrong_use_is_refused_with_what_to_do() {
    let file = scenario("01_first_calibration.ron");
    let refused = |arguments: &[&str]| {
        let said = trial(arguments);
        assert_eq!((said.status, said.out.as_str()), (2, ""), "{arguments:?}");
        said.error
    };
    let error = refused(&[&file, "--operators", "careful,tidy,one-leg+tidy"]);
    assert!(
        error.starts_with(
            "there is no operator `tidy`, `one-leg+tidy`: choose all or any of careful"
        ),
        "{error}"
    );
    let error = refused(&[&file, "--operators", "careful+one-leg+one-leg"]);
    assert_eq!(error, "the habit `one-leg` is named more than once: name each habit once");
    let endless = vec!["one-leg"; 9000].join("+");
    let error = refused(&[&file, "--operators", &endless]);
    assert!(error.starts_with("the name of an operator is too long (71999 bytes"), "{error}");
    assert!(refused(&[]).contains("required"));
    assert!(refused(&[&file, "--runs", "0"]).contains("1..=100000"));
    assert!(refused(&[&file, "--jobs", "0"]).contains("1..=1024"));
    assert!(refused(&["no/such.ron"]).starts_with("cannot read no/such.ron"));
    assert!(refused(&[&file, &file]).contains("given twice"));
    let folder = tempfile::tempdir().unwrap();
    let broken = folder.path().join("broken.ron");
    let text = std::fs::read_to_string(&file).unwrap().replace("points: 7", "points: 3");
    std::fs::write(&broken, text).unwrap();
    assert!(refused(&[broken.to_str().unwrap()]).contains("points 3 is outside 5 to 12"));
    let error = refused(&[&file, "--out", broken.to_str().unwrap()]);
    assert!(error.starts_with("cannot create"), "{error}");
}

#[test]
fn a_name_of_any_length_is_run_or_refused() {
    let name = ["one-leg"; 9_000].join("+");
    let said = trial(&[&scenario("01_first_calibration.ron"), "--runs", "1", "--operators", &name]);
    let names_it = said.out.contains(&name) && said.status == 1;
    assert!(names_it || (said.status == 2 && !said.error.is_empty()), "{}", said.error);
}

#[test]
fn an_unfair_scenario_is_told_with_what_to_change_in_words_json_and_page() {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(scenario("01_first_calibration.ron")).unwrap();
    let path = folder.path().join("hasty.ron");
    std::fs::write(&path, text.replace("pass_mark: 75", "time_limit_min: 20")).unwrap();
    let (file, out) = (path.to_str().unwrap(), folder.path().join("out"));
    let arguments = [file, "--runs", "2", "--operators", "careful", "--out", out.to_str().unwrap()];
    let said = trial(&arguments);
    assert_eq!((said.status, said.error.as_str()), (1, ""), "{}", said.out);
    let lines: Vec<&str> = said.out.lines().map(str::trim).collect();
    let at = lines
        .iter()
        .position(|line| line.starts_with("`careful` with seed 1, at 08:50:00"))
        .unwrap();
    assert!(lines[at].contains("time limit: the time ran out after 20 min"), "{}", said.out);
    assert!(lines[at + 1].starts_with("It saw: "), "{}", said.out);
    let change = "To change: terms.time_limit_min from 20 min to ";
    assert!(lines[at + 2].starts_with(change), "{}", said.out);
    let json: Value = serde_json::from_str(&read(&out, "trial.json")).unwrap();
    let details = json["scenarios"][0]["details"].as_array().unwrap();
    let reasons = json["scenarios"][0]["reasons"].as_array().unwrap();
    assert!(details.iter().all(|one| reasons.contains(&one["reason"])), "{details:?}");
    let one = &details[0];
    assert_eq!((one["seed"].as_u64(), one["time"].as_str()), (Some(1), Some("08:50:00")));
    assert_eq!(one["change"]["parameter"], "terms.time_limit_min");
    let page = read(&out, "trial.html");
    assert!(page.contains(change) && page.contains("class=\"detail\""), "{page}");
}
