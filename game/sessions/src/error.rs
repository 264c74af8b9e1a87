//! Why a front end could not do its work.

use std::io;
use std::path::{Path, PathBuf};

use crate::printable::{printable_lines, printable_path};

/// Why a command could not do its work: exit status 2. The message says what to do. It may hold names
/// and words from outside, and is safe to print.
#[derive(Debug, thiserror::Error)]
pub enum FrontEndError {
    /// A file or folder could not be read or written.
    #[error(
        "cannot {doing} {name}: {why}",
        name = printable_path(.path),
        why = printable_lines(.reason)
    )]
    File {
        /// `read`, `write`, `create`.
        doing: &'static str,
        /// Which.
        path: PathBuf,
        /// What the system said, and what to do.
        reason: String,
    },
    /// What was asked for or read is wrong.
    #[error("{}", printable_lines(.0))]
    Wrong(String),
    /// The reader of the output went away. There is nobody to say it to.
    #[error("the output was closed before everything was written")]
    Closed,
}

impl FrontEndError {
    /// A file error: what to do where that is clear, and else the words of the system.
    pub fn file(doing: &'static str, path: &Path, error: &io::Error) -> Self {
        Self::File { doing, path: path.to_owned(), reason: what_to_do(error) }
    }
}

/// An error of the output.
impl From<io::Error> for FrontEndError {
    fn from(error: io::Error) -> Self {
        if error.kind() == io::ErrorKind::BrokenPipe {
            Self::Closed
        } else {
            Self::Wrong(format!("cannot write the output: {}", what_to_do(&error)))
        }
    }
}

/// What the system met, and what to do about it where that is clear.
fn what_to_do(error: &io::Error) -> String {
    use io::ErrorKind as Kind;
    match error.kind() {
        Kind::NotFound => "there is no such file or folder: check the name",
        Kind::PermissionDenied => "you do not have permission: ask for it, or choose another place",
        Kind::AlreadyExists | Kind::NotADirectory => {
            "there is a file where a folder is needed: choose another place"
        }
        Kind::IsADirectory => "there is a folder of that name: move it, or choose another place",
        Kind::StorageFull => "the disk is full: free some space, or choose another place",
        _ => return error.to_string(),
    }
    .to_owned()
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::FrontEndError;

    #[test]
    fn a_name_cannot_act_on_the_terminal_nor_begin_a_line() {
        let path = PathBuf::from("a\u{1b}[2J\nb\u{202e}.ron");
        let error = FrontEndError::File { doing: "read", path, reason: "no\u{9b}".to_owned() };
        assert_eq!(error.to_string(), r"cannot read a\u{1b}[2J\u{a}b\u{202e}.ron: no\u{9b}");
    }

    #[test]
    fn a_list_of_problems_keeps_its_lines() {
        let error = FrontEndError::Wrong("a.ron:1:2: one\u{2028}\nb.ron:3:4: two\r".to_owned());
        assert_eq!(error.to_string(), "a.ron:1:2: one\\u{2028}\nb.ron:3:4: two\\u{d}");
    }
}
