//! A folder to run the program in, and what is asked of everything that it says.

use std::path::Path;

use bench_tests::program::{Said, run};
use tempfile::TempDir;

/// A folder with a sound scenario.
pub fn desk() -> TempDir {
    let desk = tempfile::tempdir().unwrap();
    std::fs::write(desk.path().join("first.ron"), first()).unwrap();
    desk
}

/// The first scenario of the repository.
pub fn first() -> String {
    let scenarios = bench_tests::repository().join("scenarios");
    std::fs::read_to_string(scenarios.join("01_first_calibration.ron")).unwrap()
}

/// What the program says on its standard error when it could not do its work: exit status 2,
/// nothing on the standard output, no panic, one message.
#[track_caller]
pub fn refused(folder: &Path, arguments: &[&str]) -> String {
    let said = run(folder, arguments);
    assert_eq!((said.status, said.out.as_str()), (2, ""), "{arguments:?}: {}", said.error);
    message(&said)
}

/// The same with `--json`: the standard output has one object, with the same message.
#[track_caller]
pub fn refused_as_json(folder: &Path, arguments: &[&str]) -> String {
    let arguments = [arguments, &["--json"]].concat();
    let said = run(folder, &arguments);
    assert_eq!(said.status, 2, "{arguments:?}: {}", said.out);
    let message = message(&said);
    let printed: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    let error = printed["error"].as_object().unwrap();
    assert_eq!(error["message"], message.as_str(), "{arguments:?}");
    assert_eq!((printed.as_object().unwrap().len(), error.len()), (1, 2), "{printed}");
    message
}

/// The message on the standard error.
#[track_caller]
pub fn message(said: &Said) -> String {
    let message = said.error.strip_prefix("steady-draw: ").unwrap_or_else(|| panic!("{said:?}"));
    assert!(!message.contains("panicked"), "{message}");
    message.trim_end().to_owned()
}

/// The one object that was printed, and nothing else.
#[track_caller]
pub fn object(said: &Said) -> serde_json::Value {
    assert_eq!(said.error, "");
    let object: serde_json::Value = serde_json::from_str(&said.out).unwrap();
    assert!(object.is_object(), "{object}");
    object
}

/// Makes a whole session by an operator in the folder `out`.
#[track_caller]
pub fn rehearsed(desk: &TempDir) -> String {
    let said = run(desk.path(), &["rehearse", "first.ron", "--replace", "--out", "out", "--json"]);
    assert_eq!(said.status, 0, "{}", said.error);
    std::fs::read_to_string(desk.path().join("out/session.journal")).unwrap()
}
