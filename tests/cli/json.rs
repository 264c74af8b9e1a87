//! `--json`: one object and nothing else, even when the command cannot do its work.

use bench_tests::program::run;
use serde_json::Value;

use super::desk::{desk, first, refused, refused_as_json};

#[test]
fn an_error_is_one_object_with_the_message() {
    let desk = desk();
    let write = |name: &str, text: &str| std::fs::write(desk.path().join(name), text).unwrap();
    write("broken.ron", &first().replace("pass_mark: 75", "pass_mark: 750"));
    write("readings.ron", "(masses: (before_g: 4.2, after_g: 4.3))");
    write("script.txt", "open the lidd\n");
    for arguments in [
        &["rehearse", "missing.ron"][..],
        &["rehearse", "broken.ron"],
        &["rehearse", "first.ron", "--operator", "tidy"],
        &["rehearse", "first.ron", "--script", "script.txt"],
        &["replay", "missing.journal"],
        &["replay", "first.ron"],
        &["progress", "missing"],
        &["progress", "broken.ron", "--scenarios", "missing"],
        &["trial", "missing.ron"],
        &["trial", "broken.ron"],
        &["sums", "missing.ron"],
        &["sums", "readings.ron"],
        &["operating-point", "--opening", "2"],
        &["operating-point", "--plate", "12"],
    ] {
        assert_eq!(refused_as_json(desk.path(), arguments), refused(desk.path(), arguments));
    }
}

#[test]
fn an_error_of_a_file_names_the_file() {
    let desk = desk();
    let path = |arguments: &[&str]| {
        let said = run(desk.path(), arguments);
        serde_json::from_str::<Value>(&said.out).unwrap()["error"]["path"].clone()
    };
    assert_eq!(path(&["replay", "missing.journal", "--json"]), "missing.journal");
    assert_eq!(path(&["operating-point", "--opening", "2", "--json"]), Value::Null);
}

#[test]
fn a_plate_is_an_opening_as_wide_as_its_holes() {
    let desk = desk();
    let flow = |arguments: &[&str]| {
        let said = run(desk.path(), &[&["operating-point", "--json"], arguments].concat());
        serde_json::from_str::<Value>(&said.out).unwrap()["flow_std_m3_min"].as_f64().unwrap()
    };
    assert!((flow(&["--plate", "18"]) - flow(&["--opening", "1"])).abs() < 1e-12);
    let (seven, five) = (flow(&["--plate", "7"]), flow(&["--plate", "5"]));
    assert!((1.05..1.15).contains(&five) && seven > five + 0.15, "{seven} {five}");
}

#[test]
fn a_command_line_that_is_wrong_is_one_object_too() {
    let desk = desk();
    for (arguments, expected) in [
        (&["rehearse", "--json"][..], "required arguments were not provided"),
        (&["rehearse", "first.ron", "--seed", "many", "--json"], "'many'"),
        (&["sums", "--json", "--fly", "x.ron"], "'--fly'"),
        (&["check", "--json"], "'--json'"),
    ] {
        let said = run(desk.path(), arguments);
        assert_eq!(said.status, 2, "{arguments:?}");
        let printed: Value = serde_json::from_str(&said.out).unwrap();
        let message = printed["error"]["message"].as_str().unwrap();
        assert!(message.contains(expected), "{message}");
        assert!(said.error.contains(message), "{}", said.error);
    }
    // Behind `--` it is the name of a file.
    let said = run(desk.path(), &["rehearse", "--seed", "many", "--", "--json"]);
    assert_eq!((said.status, said.out.as_str()), (2, ""));
}
