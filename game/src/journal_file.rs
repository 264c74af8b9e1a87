//! The journal on disk: each line is written and flushed to the device before the session goes on.

use std::fs::{File, OpenOptions};
use std::io::{Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use sim_core::session::journal::{Ink, InkError};

use crate::commands::CommandError;

/// When lines reach the device.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Durability {
    /// Each line before the session goes on: for people.
    EachLine,
    /// When the system sees fit: for scripted operators, whose work can be had again.
    AtClose,
}

/// A journal file.
#[derive(Debug)]
pub struct JournalFile {
    file: File,
    path: PathBuf,
    durability: Durability,
    /// Length of the whole lines, bytes.
    whole_bytes: u64,
}

impl JournalFile {
    /// A new journal. An existing file is never written over.
    ///
    /// # Errors
    ///
    /// When the file exists or cannot be made.
    pub fn create(path: &Path, durability: Durability) -> Result<Self, CommandError> {
        let file = OpenOptions::new().write(true).create_new(true).open(path).map_err(|error| {
            if error.kind() == std::io::ErrorKind::AlreadyExists {
                CommandError::File {
                    doing: "create",
                    path: path.to_owned(),
                    reason: "it exists already: name another file, or resume it with --resume"
                        .to_owned(),
                }
            } else {
                CommandError::file("create", path, &error)
            }
        })?;
        Ok(Self { file, path: path.to_owned(), durability, whole_bytes: 0 })
    }

    /// Goes on with a journal of which the first `whole_bytes` hold; a broken last line is cut off.
    ///
    /// # Errors
    ///
    /// When the file cannot be opened for writing.
    pub fn resume(path: &Path, whole_bytes: usize) -> Result<Self, CommandError> {
        let whole_bytes = whole_bytes as u64;
        let wrong = |error: std::io::Error| CommandError::file("write", path, &error);
        let mut file = OpenOptions::new().write(true).open(path).map_err(wrong)?;
        file.set_len(whole_bytes).map_err(wrong)?;
        file.seek(SeekFrom::End(0)).map_err(wrong)?;
        Ok(Self { file, path: path.to_owned(), durability: Durability::EachLine, whole_bytes })
    }
}

impl Ink for JournalFile {
    fn write_line(&mut self, line: &str) -> Result<(), InkError> {
        let whole = format!("{line}\n");
        let written = self.file.write_all(whole.as_bytes()).and_then(|()| match self.durability {
            Durability::EachLine => self.file.sync_data(),
            Durability::AtClose => Ok(()),
        });
        if let Err(error) = written {
            // Half a line must not stand before the next one. When even this fails, the last line
            // is broken, and whoever resumes the journal leaves it out.
            let _ = self.file.set_len(self.whole_bytes);
            let _ = self.file.seek(SeekFrom::End(0));
            return Err(InkError(format!("{}: {error}", self.path.display())));
        }
        self.whole_bytes += whole.len() as u64;
        Ok(())
    }
}
