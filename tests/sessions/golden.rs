//! Recorded journals, replayed with every checksum: the same bits in debug and release, on every
//! machine, and in every later build of the same version.
//!
//! They were written by the release build. Here they are replayed in debug; `.ci/run` also replays
//! them with the program that is given to others (`.ci/release`).
//!
//! When the version is raised, or the physics or a checksum is changed on purpose, record them
//! again with the command in [`HOW`], look at what changed, and commit them with that change.

use std::path::PathBuf;

use bench_tests::program;
use sim_core::session::ending::Ending;
use sim_core::session::journal::NullSink;
use sim_core::session::replay;

/// How the journals are recorded again.
const HOW: &str =
    "STEADY_DRAW_RECORD=1 cargo test -p bench-tests --no-default-features --test all golden";

/// A journal's name, its scenario, operator and seed.
const GOLDEN: [(&str, &str, &str, &str); 4] = [
    ("clean", "01_first_calibration.ron", "careful", "1"),
    ("leak", "03_a_new_blower.ron", "careful", "2"),
    ("neglected_recorder", "06_october_at_the_substation.ron", "hurried+one-leg+slant-reader", "3"),
    ("on_controller", "05_moved_from_the_coast.ron", "on-controller+trusts-barometer", "4"),
];

fn folder() -> PathBuf {
    bench_tests::tests_folder().join("sessions/golden")
}

/// Writes the journals anew with the release build of the program.
fn record() {
    let program = program::built("release");
    for (name, scenario, operator, seed) in GOLDEN {
        let out = tempfile::tempdir().unwrap();
        let status = std::process::Command::new(&program)
            .current_dir(bench_tests::repository().join("scenarios"))
            .args(["rehearse", scenario, "--operator", operator, "--seed", seed, "--json", "--out"])
            .arg(out.path())
            .stdout(std::process::Stdio::null())
            .status()
            .unwrap();
        assert!(matches!(status.code(), Some(0 | 1)), "{name}: {status}");
        let journal = folder().join(format!("{name}.journal"));
        std::fs::copy(out.path().join("session.journal"), journal).unwrap();
    }
}

#[test]
fn golden_journals_replay_bit_for_bit() {
    if std::env::var_os("STEADY_DRAW_RECORD").is_some() {
        record();
    }
    for (name, ..) in GOLDEN {
        let path = folder().join(format!("{name}.journal"));
        let text = std::fs::read_to_string(&path).unwrap();
        let replayed = replay::replay(&text, Box::new(NullSink)).unwrap_or_else(|error| {
            panic!(
                "{}: {error}\n\nIf the version was raised, or the physics was changed on purpose, \
                 record the journals again:\n  {HOW}\n",
                path.display()
            )
        });
        assert!(replayed.checks >= 15 && !replayed.cut_short, "{name}: {}", replayed.checks);
        assert_eq!(replayed.session.ended(), Some(Ending::Signed), "{name}");
    }
    let mut found: Vec<String> = std::fs::read_dir(folder())
        .unwrap()
        .filter_map(|entry| {
            Some(entry.unwrap().file_name().to_str()?.strip_suffix(".journal")?.to_owned())
        })
        .collect();
    found.sort();
    assert_eq!(found, GOLDEN.map(|(name, ..)| name), "every recorded journal is replayed");
}
