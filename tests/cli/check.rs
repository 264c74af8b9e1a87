//! `check`: what it prints, and what it comes to.

use std::path::{Path, PathBuf};

use sessions::{FrontEndError, Outcome};
use steady_draw::commands::check::{CheckArguments, run};

/// A sound scenario that switches a rule off.
fn sound() -> String {
    include_str!("../scenario/base.ron").to_owned()
}

/// Runs the command; gives what it printed, with the folder's name taken out, and what it came to.
fn checked(folder: &Path, names: &[&str]) -> (String, Result<Outcome, String>) {
    let paths: Vec<PathBuf> = names.iter().map(|name| folder.join(name)).collect();
    let mut out = Vec::new();
    let outcome = run(&CheckArguments { paths }, &mut out);
    let here = format!("{}{}", folder.display(), std::path::MAIN_SEPARATOR);
    let printed = String::from_utf8(out).expect("text").replace(&here, "");
    (printed, outcome.map_err(|error| error.to_string().replace(&here, "")))
}

/// A folder with a sound scenario, two broken ones and a file that is none.
fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| {
        std::fs::write(folder.path().join(name), text).expect("a file");
    };
    write("sound.ron", &sound());
    write(
        "b.ron",
        &sound().replace("points: 7", "points: 4").replace("pass_mark: 75", "pass_mark: 175"),
    );
    write("a.ron", "(format: 1, title: ");
    write("notes.txt", "not a scenario");
    std::fs::create_dir(folder.path().join("empty")).expect("a folder");
    std::fs::write(folder.path().join("binary.bin"), [0xff, 0xfe, 0]).expect("a file");
    folder
}

#[test]
fn the_scenarios_that_come_with_the_program_pass() {
    let (printed, outcome) = checked(&bench_tests::repository(), &["scenarios"]);
    assert_eq!(outcome, Ok(Outcome::Done), "{printed}");
    let count: usize = printed.split(' ').next().and_then(|n| n.parse().ok()).unwrap_or(0);
    assert!(count >= 6, "{printed}");
    assert_eq!(printed, format!("{count} scenarios checked, no problem found\n"));
}

#[test]
fn a_sound_scenario_says_so() {
    let folder = folder();
    let (printed, outcome) = checked(folder.path(), &["sound.ron"]);
    let card = "Its card says: Base. A quay in April, with everything on it.";
    assert_eq!(printed, format!("1 scenario checked, no problem found\n{card}\n"));
    assert_eq!(outcome, Ok(Outcome::Done));
}

#[test]
fn a_rule_that_is_not_there_is_told() {
    let folder = folder();
    let text = sound().replace("tube-clear", "tube-cleer");
    std::fs::write(folder.path().join("rule.ron"), text).expect("a file");
    let (printed, outcome) = checked(folder.path(), &["rule.ron"]);
    assert_eq!(outcome, Ok(Outcome::Negative));
    insta::assert_snapshot!(printed, @r##"
    rule.ron:39:21: there is no rule `tube-cleer` to switch off; write `tube-clear`
    1 scenario checked, 1 problem in 1
    "##);
}

#[test]
fn every_problem_of_a_folder_is_told_with_its_place() {
    let folder = folder();
    let (printed, outcome) = checked(folder.path(), &["."]);
    assert_eq!(outcome, Ok(Outcome::Negative));
    insta::assert_snapshot!(printed.replace("./", ""), @r##"
    a.ron:1:19: a text is expected here; put it in quotation marks (reading stopped here: check again afterwards)
    b.ron:19:9: points 4 is outside 5 to 12; write a value in this range
    b.ron:41:9: pass_mark 175 is outside 0 to 100; write a value in this range
    3 scenarios checked, 3 problems in 2
    "##);
}

#[test]
fn a_path_that_cannot_be_read_does_not_keep_the_others_from_being_checked() {
    let folder = folder();
    let (printed, outcome) =
        checked(folder.path(), &["missing.ron", "b.ron", "empty", "binary.bin"]);
    insta::assert_snapshot!(printed, @r##"
    b.ron:19:9: points 4 is outside 5 to 12; write a value in this range
    b.ron:41:9: pass_mark 175 is outside 0 to 100; write a value in this range
    1 scenario checked, 2 problems in 1; 3 paths could not be read:
    "##);
    insta::assert_snapshot!(outcome.expect_err("three paths"), @r##"
    cannot read missing.ron: there is no such file or folder: check the name
    cannot read empty: the folder has no *.ron file: give a scenario or a folder of scenarios
    cannot read binary.bin: it is not UTF-8 text (at byte 0): save it as plain text in UTF-8
    "##);
}

/// Reading a pipe would wait until somebody writes into it.
#[cfg(unix)]
#[test]
fn a_pipe_is_refused_at_once() {
    let folder = folder();
    let pipe = folder.path().join("pipe.ron");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status().expect("mkfifo");
    assert!(made.success());
    let (_, outcome) = checked(folder.path(), &["pipe.ron"]);
    insta::assert_snapshot!(outcome.expect_err("no file"), @"cannot read pipe.ron: it is a pipe or a device, not a file: save its output to a file, and give the name of that file");
}

#[test]
fn one_path_that_cannot_be_read_is_an_error_of_that_file() {
    let mut out = Vec::new();
    let paths = vec![PathBuf::from("no/such/scenario.ron")];
    let error = run(&CheckArguments { paths }, &mut out).expect_err("no such file");
    assert!(matches!(error, FrontEndError::File { doing: "read", .. }), "{error}");
}

#[test]
fn output_that_was_closed_is_told_apart() {
    struct Closed;
    impl std::io::Write for Closed {
        fn write(&mut self, _: &[u8]) -> std::io::Result<usize> {
            Err(std::io::ErrorKind::BrokenPipe.into())
        }
        fn flush(&mut self) -> std::io::Result<()> {
            Ok(())
        }
    }
    let folder = folder();
    let paths = vec![folder.path().join("b.ron")];
    let error = run(&CheckArguments { paths }, &mut Closed).expect_err("closed");
    assert!(matches!(error, FrontEndError::Closed), "{error}");
}
