//! Why a front end could not do its work.

use std::path::{Path, PathBuf};

/// Why a command could not do its work: exit status 2. The message says what to do.
#[derive(Debug, thiserror::Error)]
pub enum FrontEndError {
    /// A file or folder could not be read or written.
    #[error("cannot {doing} {path}: {reason}")]
    File {
        /// `read`, `write`, `create`.
        doing: &'static str,
        /// Which.
        path: PathBuf,
        /// What the system said, and what to do.
        reason: String,
    },
    /// What was asked for or read is wrong.
    #[error("{0}")]
    Wrong(String),
    /// Whoever read the output went away. Nothing is said.
    #[error("the output was closed")]
    Closed,
}

impl FrontEndError {
    /// A file error: what to do where that is clear, and else the words of the system.
    pub fn file(doing: &'static str, path: &Path, error: &std::io::Error) -> Self {
        use std::io::ErrorKind as Kind;
        let reason = match error.kind() {
            Kind::NotFound => "there is no such file or folder: check the name".to_owned(),
            Kind::PermissionDenied => {
                "the system does not allow it: ask for the right, or name another place".to_owned()
            }
            Kind::AlreadyExists | Kind::NotADirectory => {
                "a file stands where a folder is needed: name another place".to_owned()
            }
            Kind::IsADirectory => {
                "a folder of that name is there: move it away, or name another place".to_owned()
            }
            Kind::StorageFull => "the disk is full: make room, or name another place".to_owned(),
            _ => error.to_string(),
        };
        Self::File { doing, path: path.to_owned(), reason }
    }
}

impl From<std::io::Error> for FrontEndError {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            Self::Closed
        } else {
            Self::Wrong(format!("cannot write the output: {error}"))
        }
    }
}
