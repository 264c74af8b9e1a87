//! Folders with reports of sessions that differ as much as sessions can.

use std::path::{Path, PathBuf};
use std::process::Command;

use bench_tests::program::run;
use serde_json::Value;
use tempfile::TempDir;

/// Who has every habit that shows in the marks at once.
pub const CARELESS: &str = "hurried+one-leg+slant-reader+never-zeroes+skips-warm-up+trusts-certificates+skips-leak-check+sees-faults";

/// Sessions: nothing wrong at all, much wrong with faults, a day's run, one that was rightly stopped,
/// and a flow check without a calibration.
pub const SESSIONS: [(&str, &str); 5] = [
    ("01_first_calibration", "careful"),
    ("24_the_hall_in_the_mill_town", CARELESS),
    ("27_from_set_point_to_volume", "hurried"),
    ("11_before_the_fire_season", "careful"),
    ("28_between_two_calibrations", "never-zeroes"),
];

/// A folder with the report of a session, written by `replay --out`.
pub struct Desk {
    /// The folder, which goes when this goes.
    folder: TempDir,
    /// The one object that `replay --json` printed.
    pub object: Value,
}

impl Desk {
    /// Has a session and its report.
    #[track_caller]
    pub fn of(scenario: &str, operator: &str) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let path = bench_tests::repository().join(format!("scenarios/{scenario}.ron"));
        let path = path.to_str().unwrap();
        let said = run(
            folder.path(),
            &[
                "rehearse",
                path,
                "--seed",
                "3",
                "--operator",
                operator,
                "--out",
                "session",
                "--json",
            ],
        );
        assert!(said.status < 2, "{}", said.error);
        let said = run(
            folder.path(),
            &[
                "replay",
                "session/session.journal",
                "--out",
                "report",
                "--operator",
                "B. Aalto",
                "--json",
            ],
        );
        assert!(said.status < 2, "{}", said.error);
        let object = serde_json::from_str(&said.out).unwrap();
        Self { folder, object }
    }

    /// The path of a file of the report.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join("report").join(name)
    }

    /// A file of the report as text.
    #[track_caller]
    pub fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// The PDF as `pdftotext` sets it.
    #[track_caller]
    pub fn paper(&self) -> String {
        paper_text(&self.path("report.pdf"))
    }
}

/// A PDF as text, as it lies on the sheets.
#[track_caller]
pub fn paper_text(path: &Path) -> String {
    tool("pdftotext", &["-layout", path.to_str().unwrap(), "-"])
}

/// Left and right of every word of a PDF, pt.
#[track_caller]
pub fn word_sides(path: &Path) -> Vec<(f64, f64)> {
    let boxes = tool("pdftotext", &["-bbox", path.to_str().unwrap(), "-"]);
    let number = |word: &str, name: &str| -> f64 {
        let (_, rest) = word.split_once(&format!("{name}=\"")).unwrap();
        rest.split_once('"').unwrap().0.parse().unwrap()
    };
    let words = boxes.split("<word ").skip(1);
    words.map(|word| (number(word, "xMin"), number(word, "xMax"))).collect()
}

/// What a tool prints. `.ci/setup` installs those that are used here.
#[track_caller]
pub fn tool(name: &str, arguments: &[&str]) -> String {
    let output = Command::new(name)
        .args(arguments)
        .output()
        .unwrap_or_else(|error| panic!("{name} does not start ({error}): run .ci/setup"));
    assert!(
        output.status.success(),
        "{name} {arguments:?}: {}",
        String::from_utf8_lossy(&output.stderr)
    );
    String::from_utf8_lossy(&output.stdout).into_owned()
}
