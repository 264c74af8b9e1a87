//! The journal on disk: each line is written and flushed to the device before the session goes on.

use std::fs::{File, OpenOptions, TryLockError};
use std::io::{Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use sim_core::session::journal::{JournalSink, SinkError};

use crate::error::FrontEndError;
use crate::printable::printable_path;
use crate::text_file::{only_a_file, read_bytes_from};

/// When lines reach the device.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Durability {
    /// Each line before the session goes on: for people.
    EachLine,
    /// When the system sees fit: for scripted operators, whose work can be repeated.
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
    /// Whether nothing is behind the whole lines, and the next one goes there.
    is_at_end: bool,
}

impl JournalFile {
    /// A new journal. An existing file is never written over.
    ///
    /// # Errors
    ///
    /// When the file exists or cannot be made.
    pub fn create(path: &Path, durability: Durability) -> Result<Self, FrontEndError> {
        let file = OpenOptions::new().write(true).create_new(true).open(path).map_err(|error| {
            if error.kind() == std::io::ErrorKind::AlreadyExists {
                FrontEndError::File {
                    doing: "create",
                    path: path.to_owned(),
                    reason: "it already exists: choose another name, or continue its session with --resume"
                        .to_owned(),
                }
            } else {
                FrontEndError::file("create", path, &error)
            }
        })?;
        lock(&file, path)?;
        Ok(Self { file, path: path.to_owned(), durability, whole_bytes: 0, is_at_end: true })
    }

    /// Opens a journal to continue it; nothing in it is changed yet.
    ///
    /// # Errors
    ///
    /// When the file cannot be opened for writing, or another program is writing it.
    pub fn open(path: &Path) -> Result<Self, FrontEndError> {
        only_a_file(path)?;
        let file = OpenOptions::new().read(true).write(true).open(path).map_err(|error| {
            let missing = error.kind() == std::io::ErrorKind::NotFound;
            FrontEndError::file(if missing { "read" } else { "write" }, path, &error)
        })?;
        lock(&file, path)?;
        let durability = Durability::EachLine;
        Ok(Self { file, path: path.to_owned(), durability, whole_bytes: 0, is_at_end: true })
    }

    /// Its contents, of at most so many bytes.
    ///
    /// # Errors
    ///
    /// When it cannot be read or is larger.
    pub fn bytes(&mut self, largest: u64) -> Result<Vec<u8>, FrontEndError> {
        read_bytes_from(&mut self.file, &self.path, largest)
    }

    /// Has the next line written behind the first `whole_bytes`: a broken last line is cut off then, and
    /// not before.
    pub const fn go_on_behind(&mut self, whole_bytes: usize) {
        self.whole_bytes = whole_bytes as u64;
        self.is_at_end = false;
    }

    /// Cuts off what is behind the whole lines, and goes there.
    fn go_to_end(&mut self) -> std::io::Result<()> {
        if !self.is_at_end {
            self.file.set_len(self.whole_bytes)?;
            self.file.seek(SeekFrom::End(0))?;
            self.is_at_end = true;
        }
        Ok(())
    }
}

/// Keeps every other program from writing to the file while it is open.
fn lock(file: &File, path: &Path) -> Result<(), FrontEndError> {
    match file.try_lock() {
        Ok(()) => Ok(()),
        Err(TryLockError::WouldBlock) => Err(FrontEndError::File {
            doing: "write",
            path: path.to_owned(),
            reason: "another program is writing to this journal: close that program first"
                .to_owned(),
        }),
        // Some network drives have no locks; the journal is written all the same.
        Err(TryLockError::Error(error)) if error.kind() == std::io::ErrorKind::Unsupported => {
            Ok(())
        }
        Err(TryLockError::Error(error)) => Err(FrontEndError::file("lock", path, &error)),
    }
}

impl JournalSink for JournalFile {
    fn write_line(&mut self, line: &str) -> Result<(), SinkError> {
        let whole = format!("{line}\n");
        let written = self
            .go_to_end()
            .and_then(|()| self.file.write_all(whole.as_bytes()))
            .and_then(|()| match self.durability {
                Durability::EachLine => self.file.sync_data(),
                Durability::AtClose => Ok(()),
            });
        if let Err(error) = written {
            // Half a line must not stand before the next one. When even this fails, the last line
            // is broken, and whoever resumes the journal leaves it out.
            self.is_at_end = false;
            let _ = self.go_to_end();
            return Err(SinkError(format!("{}: {error}", printable_path(&self.path))));
        }
        self.whole_bytes += whole.len() as u64;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::{Durability, JournalFile};

    #[test]
    fn one_journal_has_one_writer() {
        let name = format!("steady-draw-lock-{}.journal", std::process::id());
        let path = std::env::temp_dir().join(name);
        let _ = std::fs::remove_file(&path);
        let first = JournalFile::create(&path, Durability::EachLine).expect("it is so");
        let error = JournalFile::open(&path).expect_err("it is locked").to_string();
        assert!(error.contains("another program is writing to this journal"), "{error}");
        drop(first);
        let mut again = JournalFile::open(&path).expect("it is so");
        assert_eq!(again.bytes(1024).expect("it is so"), b"");
        drop(again);
        std::fs::remove_file(&path).expect("it is so");
    }
}
