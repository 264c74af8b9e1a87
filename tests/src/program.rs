//! The program itself, for tests that run it as people do.
//!
//! Cargo hands the path of a binary only to tests of its own package, so it is looked for where
//! cargo puts it: beside the folder of the test program, `target/<profile>/steady-draw`. `cargo test`
//! of the whole workspace has made it, because its package has a test (`tests/program.rs`). When it is
//! missing all the same, or older than a source file, `cargo build` makes it, once, with the profile
//! and the features of the tests.

use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::OnceLock;
use std::time::SystemTime;

use crate::repository;

/// What the program said and came to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// Its exit status.
    pub status: i32,
    /// Its standard output.
    pub out: String,
    /// Its standard error.
    pub error: String,
}

/// Runs the program in a folder, with an empty input.
///
/// # Panics
///
/// When it cannot be run, is killed, or prints no text.
pub fn run(folder: &Path, arguments: &[&str]) -> Said {
    run_on(folder, arguments, b"")
}

/// Runs the program in a folder on an input.
///
/// # Panics
///
/// As [`run`].
pub fn run_on(folder: &Path, arguments: &[&str], input: &[u8]) -> Said {
    let mut child = Command::new(path())
        .args(arguments)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    let mut stdin = child.stdin.take().expect("an input");
    let output = std::thread::scope(|scope| {
        // The program may end, or refuse to go on, before it has read everything.
        scope.spawn(move || {
            let _ = stdin.write_all(input);
        });
        child.wait_with_output().expect("the program ends")
    });
    Said {
        status: output.status.code().expect("the program was not killed"),
        out: String::from_utf8(output.stdout).expect("text"),
        error: String::from_utf8(output.stderr).expect("text"),
    }
}

/// The program, built if need be.
///
/// # Panics
///
/// When it cannot be built.
pub fn path() -> &'static Path {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    BUILT.get_or_init(|| built_in(&profile_folder()))
}

/// The program of another profile, such as `release`, built if need be.
///
/// # Panics
///
/// When it cannot be built.
pub fn built(profile: &str) -> PathBuf {
    built_in(&profile_folder().with_file_name(profile))
}

fn built_in(profile: &Path) -> PathBuf {
    let program = profile.join(format!("steady-draw{}", std::env::consts::EXE_SUFFIX));
    if modified(&program).is_none_or(|built| built < newest_source()) {
        build(profile);
    }
    assert!(program.is_file(), "there is no {}: build it first", program.display());
    program
}

/// The folder of the profile: the test program lies in its `deps`.
fn profile_folder() -> PathBuf {
    let this = std::env::current_exe().expect("the path of this program");
    let deps = this.parent().expect("a folder");
    deps.parent().expect("a folder of the profile").to_owned()
}

fn build(profile: &Path) {
    let name = match profile.file_name().and_then(|name| name.to_str()) {
        Some("debug") | None => "dev",
        Some(name) => name,
    };
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command
        .args(["build", "--package", "steady-draw", "--bin", "steady-draw", "--profile", name])
        .current_dir(repository());
    if let Some(target) = profile.parent() {
        command.arg("--target-dir").arg(target);
    }
    if cfg!(not(feature = "window")) {
        command.arg("--no-default-features");
    }
    let status = command.stdin(Stdio::null()).status().expect("cargo runs");
    assert!(status.success(), "`cargo build --package steady-draw` failed: see above");
}

/// When the newest file changed that the program is made of.
fn newest_source() -> SystemTime {
    let repository = repository();
    let mut newest = SystemTime::UNIX_EPOCH;
    let mut places: Vec<PathBuf> =
        ["sim-core", "game", "Cargo.toml", "Cargo.lock"].map(|name| repository.join(name)).into();
    while let Some(place) = places.pop() {
        match std::fs::read_dir(&place) {
            Ok(entries) => places.extend(entries.flatten().map(|entry| entry.path())),
            Err(_) => newest = newest.max(modified(&place).unwrap_or(newest)),
        }
    }
    newest
}

fn modified(file: &Path) -> Option<SystemTime> {
    std::fs::metadata(file).and_then(|about| about.modified()).ok()
}
