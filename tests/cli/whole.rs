//! The program as a whole: help, exit statuses, bad files for every command.

use std::process::Command;

use bench_tests::program::{self, run};
use insta::assert_snapshot;

use super::desk::{desk, first, message, refused};

const COMMANDS: [&str; 8] =
    ["check", "rehearse", "drive", "replay", "progress", "trial", "sums", "operating-point"];

#[test]
fn every_command_has_a_help_with_an_example_that_works() {
    let here = bench_tests::repository();
    let overview = run(&here, &["--help"]);
    assert_eq!((overview.status, overview.error.as_str()), (0, ""));
    for command in COMMANDS {
        assert!(overview.out.contains(&format!("\n  {command} ")), "{}", overview.out);
        for flag in ["-h", "--help"] {
            let help = run(&here, &[command, flag]);
            assert_eq!((help.status, help.error.as_str()), (0, ""));
            assert!(help.out.contains("Example"), "{}", help.out);
            assert!(help.out.contains(&format!("Usage: steady-draw {command}")), "{}", help.out);
            assert!(help.out.contains(&format!("steady-draw {command} ")), "{}", help.out);
            // The scenarios that the examples name are there.
            let named = |word: &&str| word.starts_with("scenarios/") && word.ends_with(".ron");
            for word in help.out.split_whitespace().filter(named) {
                assert!(here.join(word).exists(), "{command}: {word}");
            }
        }
    }
    assert_eq!(run(&here, &["--version"]).out, format!("steady-draw {}\n", sim_core::VERSION));
}

#[test]
fn what_is_asked_for_wrongly_is_status_2_on_the_standard_error() {
    let desk = desk();
    for arguments in [&["rehearse"][..], &["check"], &["--fly"], &["replay", "a", "b"]] {
        let said = run(desk.path(), arguments);
        assert_eq!((said.status, said.out.as_str()), (2, ""), "{arguments:?}");
        assert!(said.error.contains("--help"), "{}", said.error);
    }
    let said = run(desk.path(), &["rehearse", "first.ron", "--seed", "many"]);
    assert!(said.status == 2 && said.error.contains("'many'"), "{}", said.error);
}

#[test]
fn an_object_is_all_that_json_prints() {
    let desk = desk();
    std::fs::copy(
        bench_tests::repository().join("game/src/commands/sums/example.ron"),
        desk.path().join("sums.ron"),
    )
    .unwrap();
    super::desk::rehearsed(&desk);
    for arguments in [
        &["rehearse", "first.ron", "--json"][..],
        &["replay", "out/session.journal", "--json"],
        &["sums", "sums.ron", "--json"],
        &["operating-point", "--json"],
    ] {
        super::desk::object(&run(desk.path(), arguments));
    }
}

/// What `rehearse` says about a scenario; `check` says the same on its standard output with status
/// 1, and `drive` on its standard error.
#[track_caller]
fn problem(text: &str) -> String {
    let desk = desk();
    std::fs::write(desk.path().join("mine.ron"), text).unwrap();
    let said = refused(desk.path(), &["rehearse", "mine.ron"]);
    assert_eq!(refused(desk.path(), &["drive", "mine.ron"]), said);
    let check = run(desk.path(), &["check", "mine.ron"]);
    assert_eq!((check.status, check.error.as_str()), (1, ""));
    assert!(check.out.starts_with(&said), "{}", check.out);
    said
}

#[test]
fn a_scenario_with_a_problem_is_told_with_its_place_and_what_to_do() {
    let with = |from: &str, to: &str| {
        assert!(first().contains(from), "{from}");
        problem(&first().replacen(from, to, 1))
    };
    assert_snapshot!(with("elevation_m", "elevaton_m"), @"mine.ron:10:9: there is no field `elevaton_m` here; write `elevation_m` (reading stopped here: check again afterwards)");
    assert_snapshot!(with("pressure_mmhg: Normal(761, 4)", "pressure_mmhg: Normal(101300, 400)"), @"mine.ron:26:9: pressure_mmhg 101300 is outside 400 to 820; it looks like pascals: divide by 133.322");
    assert_snapshot!(with("pressure_mmhg: Normal", "pressure_hpa: Normal"), @"mine.ron:26:9: there is no field `pressure_hpa` here; write `pressure_mmhg` (reading stopped here: check again afterwards)");
    assert_snapshot!(with("humidity_pct: Uniform(55, 75)", "humidity_pct: Uniform(55, 175)"), @"mine.ron:28:9: humidity_pct 115 is outside 0 to 100; write a value in this range, in %");
    assert_snapshot!(with("2025-11-04", "2026-04-15"), @"mine.ron:31:28: the certificate is dated 2026-04-15, 1 day after the session on 2026-04-14; date it on or before the day of the session");
    assert_snapshot!(with("2025-11-04", "2025-02-30"), @"mine.ron:31:35: `2025-02-30` is not valid here; write a date (year, month, day), such as 2026-03-17 (reading stopped here: check again afterwards)");
    assert_snapshot!(with("points: 7", "points: seven"), @"mine.ron:22:16: a number is expected here; write it in digits, such as 12.5 (reading stopped here: check again afterwards)");
    assert_snapshot!(with("target_flow_std_m3_min: 1.13", "target_flow_std_m3_min: NaN"), @"mine.ron:19:9: target_flow_std_m3_min NaN is outside 0.9 to 1.8; write a value in this range, in m3/min");
    assert_snapshot!(problem(&"[".repeat(10_000)), @"mine.ron:1:65: brackets are nested more than 64 deep here; look for a bracket that was never closed; a scenario needs only six levels");
    assert_snapshot!(problem(&format!("(format: 1, title: {}", "(".repeat(10_000))), @"mine.ron:1:83: brackets are nested more than 64 deep here; look for a bracket that was never closed; a scenario needs only six levels");
    assert_snapshot!(problem(""), @"mine.ron:1:1: the text is empty; start from one of the scenarios that come with the program");
    assert_snapshot!(problem("\0\0\0"), @"mine.ron:1:1: there is a control character here; give the right file, or remove the character: a scenario is plain text");
}

#[test]
fn a_file_that_cannot_be_read_says_what_to_do() {
    let desk = desk();
    std::fs::write(desk.path().join("binary"), [0x7f, b'E', 0xff, 0xfe, 0]).unwrap();
    std::fs::create_dir(desk.path().join("folder")).unwrap();
    // As large as 100 MB, and nothing of it on the disk.
    let large = std::fs::File::create(desk.path().join("large")).unwrap();
    large.set_len(100_000_000).unwrap();
    let said = |name: &str| refused(desk.path(), &["rehearse", name]);
    assert_snapshot!(said("missing"), @"cannot read missing: there is no such file or folder: check the name");
    assert_snapshot!(said("binary"), @"cannot read binary: it is not UTF-8 text (at byte 2): save it as plain text in UTF-8");
    assert_snapshot!(said("folder"), @"cannot read folder: it is a folder: give the name of a file");
    assert_snapshot!(said("large"), @"cannot read large: it is larger than 4 MiB, which no file of this kind needs: check that it is the right file");
    for name in ["missing", "binary", "folder", "large"] {
        for command in ["drive", "sums"] {
            assert_eq!(refused(desk.path(), &[command, name]), said(name), "{command}");
        }
    }
    for name in ["binary", "large", "missing", "folder"] {
        let said = run(desk.path(), &["check", name]);
        assert_eq!(
            (said.status, said.out.as_str()),
            (2, "no scenario checked; 1 path could not be read:\n")
        );
        assert!(message(&said).starts_with(&format!("cannot read {name}: ")), "{}", said.error);
    }
    for name in ["missing", "folder"] {
        assert_eq!(refused(desk.path(), &["replay", name]), said(name));
        assert_eq!(refused(desk.path(), &["drive", "--resume", name]), said(name));
    }
}

#[cfg(unix)]
#[test]
fn a_folder_or_file_that_may_not_be_read_says_so() {
    use std::fs::Permissions;
    use std::os::unix::fs::PermissionsExt as _;
    let desk = desk();
    let (folder, file) = (desk.path().join("locked"), desk.path().join("locked.ron"));
    std::fs::create_dir(&folder).unwrap();
    std::fs::write(&file, first()).unwrap();
    for path in [&folder, &file] {
        std::fs::set_permissions(path, Permissions::from_mode(0o000)).unwrap();
    }
    // Root may read everything; then there is nothing to see here.
    if std::fs::read(&file).is_err() {
        let words = "you do not have permission: ask for it, or choose another place";
        for arguments in [&["rehearse", "locked.ron"], &["sums", "locked.ron"]] {
            let said = refused(desk.path(), arguments);
            assert_eq!(said, format!("cannot read locked.ron: {words}"));
        }
        let said = run(desk.path(), &["check", "locked"]);
        assert_eq!((said.status, message(&said)), (2, format!("cannot read locked: {words}")));
        let said = refused(desk.path(), &["rehearse", "first.ron", "--out", "locked/out"]);
        assert_eq!(said, format!("cannot create locked/out: {words}"));
    }
    std::fs::set_permissions(&folder, Permissions::from_mode(0o700)).unwrap();
}

#[cfg(not(feature = "window"))]
#[test]
fn alone_it_shows_its_help() {
    let desk = desk();
    let said = run(desk.path(), &[]);
    assert_eq!((said.status, said.error.as_str()), (0, ""));
    assert!(said.out.contains("Usage: steady-draw [SCENARIO]"), "{}", said.out);
}

#[test]
fn work_for_which_no_thread_can_be_started_is_status_2_and_no_panic() {
    let here = bench_tests::repository();
    let folder = tempfile::tempdir().unwrap();
    for (arguments, wanted) in [
        (&["progress", folder.path().to_str().unwrap()][..], "a thread for each processor"),
        (&["trial", "scenarios/01_first_calibration.ron"], "a thread for each processor"),
        (&["trial", "scenarios/01_first_calibration.ron", "--jobs", "3"], "3 threads"),
    ] {
        let said = Command::new(program::path())
            .args(arguments)
            .current_dir(&here)
            // No machine has room for a stack of this size.
            .env("RUST_MIN_STACK", (1_u64 << 50).to_string())
            .output()
            .unwrap();
        let error = String::from_utf8(said.stderr).unwrap();
        assert_eq!((said.status.code(), said.stdout.len()), (Some(2), 0), "{error}");
        assert!(error.contains(&format!("cannot start {wanted}: ")), "{arguments:?}: {error}");
        assert_eq!(error.trim_end().lines().count(), 1, "{error}");
    }
}
