//! Outputs that close early, and outputs that are full: exit statuses and messages.

use std::io::Read;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use bench_tests::program;
use tempfile::TempDir;

use super::desk::{desk, first, rehearsed};

/// What the answer to a command line is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Answer {
    Yes,
    No,
    /// A session is left unsigned when the output closes.
    Unsigned,
}

/// Command lines for the folder of [`prepared`], with their answers.
const LINES: [(&[&str], Answer); 15] = [
    (&["--help"], Answer::Yes),
    (&["--version"], Answer::Yes),
    (&["trial", "--help"], Answer::Yes),
    (&["drive", "first.ron"], Answer::Unsigned),
    (&["drive", "first.ron", "--words"], Answer::Unsigned),
    (&["rehearse", "first.ron"], Answer::Yes),
    (&["rehearse", "first.ron", "--json"], Answer::Yes),
    (&["rehearse", "first.ron", "--operator", "one-leg"], Answer::No),
    (&["rehearse", "first.ron", "--operator", "one-leg", "--json"], Answer::No),
    (&["replay", "out/session.journal"], Answer::Yes),
    (&["replay", "cut.journal"], Answer::No),
    (&["check", "first.ron"], Answer::Yes),
    (&["check", "broken.ron"], Answer::No),
    (&["progress", "broken.ron"], Answer::No),
    (&["operating-point"], Answer::Yes),
];

/// A folder with a sound scenario, a broken one, a journal, and one that was cut.
fn prepared() -> TempDir {
    let desk = desk();
    let journal = rehearsed(&desk);
    let write = |name: &str, text: &str| std::fs::write(desk.path().join(name), text).unwrap();
    write("broken.ron", &first().replace("pass_mark: 75", "pass_mark: 750"));
    write("cut.journal", &journal.split_inclusive('\n').take(100).collect::<String>());
    desk
}

fn command(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(program::path());
    command.args(arguments).current_dir(folder).stdin(Stdio::null()).stderr(Stdio::piped());
    command
}

/// The exit status, and what stood on the standard error.
fn ended(output: &Output) -> (Option<i32>, String) {
    (output.status.code(), String::from_utf8(output.stderr.clone()).unwrap())
}

#[test]
fn an_answer_that_nobody_heard_is_no_success() {
    let desk = prepared();
    for (arguments, answer) in LINES {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let output = command(desk.path(), arguments).stdout(writer).output().unwrap();
        let expected = if answer == Answer::No { 1 } else { 2 };
        // Whoever closes the output wants to hear no more.
        assert_eq!(ended(&output), (Some(expected), String::new()), "{arguments:?}");
    }
}

#[test]
fn an_output_that_closes_early_is_no_trouble() {
    let desk = prepared();
    for (arguments, answer) in LINES {
        let mut child = command(desk.path(), arguments).stdout(Stdio::piped()).spawn().unwrap();
        let mut out = child.stdout.take().unwrap();
        out.read_exact(&mut [0]).unwrap();
        drop(out);
        let (status, error) = ended(&child.wait_with_output().unwrap());
        // The rest may have been on its way before the output was closed.
        let expected: &[i32] = match answer {
            Answer::Yes => &[0, 2],
            Answer::No => &[1],
            Answer::Unsigned => &[1, 2],
        };
        assert!(expected.contains(&status.unwrap()), "{arguments:?}: {status:?}");
        assert_eq!(error, "", "{arguments:?}");
    }
}

#[test]
fn an_error_is_an_error_although_the_output_is_closed() {
    let desk = desk();
    for arguments in [&["rehearse", "missing.ron"][..], &["rehearse", "missing.ron", "--json"]] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let (status, error) =
            ended(&command(desk.path(), arguments).stdout(writer).output().unwrap());
        assert_eq!(status, Some(2));
        assert!(error.starts_with("steady-draw: cannot read missing.ron: "), "{error}");
    }
}

#[cfg(target_os = "linux")]
#[test]
fn an_output_that_is_full_is_an_error() {
    let desk = prepared();
    let words = "steady-draw: cannot write the output: the disk is full: free some space, or choose \
                 another place\n";
    for (arguments, _) in LINES {
        let full = std::fs::File::options().write(true).open("/dev/full").unwrap();
        let output = command(desk.path(), arguments).stdout(full).output().unwrap();
        assert_eq!(ended(&output), (Some(2), words.to_owned()), "{arguments:?}");
    }
}
