//! Replacing files, all of them or none: where the disk is full, the earlier files stay as they were.

use std::fs::File;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use crate::error::FrontEndError;
use crate::storage::Publisher;

/// What is added to the name of a file while it is written.
const UNFINISHED: &str = "unfinished";

/// Writes files beside those that they replace, and puts all of them in place once all are whole.
///
/// # Errors
///
/// When a file cannot be written or put in place. What was written beside is then removed.
pub fn replace_files(files: &[(PathBuf, Vec<u8>)]) -> Result<(), FrontEndError> {
    let result = write_and_rename(files);
    if result.is_err() {
        for (path, _) in files {
            // Some of them were never made.
            let _ = std::fs::remove_file(beside(path));
        }
    }
    result
}

/// A file in which other programs find the latest of something.
#[derive(Debug, Clone)]
pub struct PublishedFile(pub PathBuf);

impl Publisher for PublishedFile {
    fn publish(&self, content: &[u8]) -> Result<(), FrontEndError> {
        let Self(path) = self;
        // Nothing is lost with it when the power goes: it need not reach the disk.
        let done = std::fs::write(beside(path), content)
            .and_then(|()| std::fs::rename(beside(path), path));
        done.map_err(|error| FrontEndError::file("write", path, &error))
    }
}

fn write_and_rename(files: &[(PathBuf, Vec<u8>)]) -> Result<(), FrontEndError> {
    for (path, bytes) in files {
        write_whole(&beside(path), bytes)
            .map_err(|error| FrontEndError::file("write", path, &error))?;
    }
    for (path, _) in files {
        std::fs::rename(beside(path), path)
            .map_err(|error| FrontEndError::file("replace", path, &error))?;
    }
    Ok(())
}

/// Writes a file through to the disk: some systems report a full disk only then.
fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create(path)?;
    file.write_all(bytes)?;
    file.sync_all()
}

/// Where a file is written before it is put in place.
fn beside(path: &Path) -> PathBuf {
    let mut name = path.as_os_str().to_owned();
    name.push(".");
    name.push(UNFINISHED);
    PathBuf::from(name)
}

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test may panic")]
mod tests {
    use super::*;

    #[test]
    fn when_one_file_cannot_be_written_all_stay_as_they_were() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name);
        std::fs::write(path("page"), "old").unwrap();
        // A folder is in the way of the second file.
        std::fs::create_dir(path("paper.unfinished")).unwrap();
        let files = [(path("page"), b"new".to_vec()), (path("paper"), b"new".to_vec())];
        assert!(replace_files(&files).is_err());
        assert_eq!(std::fs::read_to_string(path("page")).unwrap(), "old");
        assert!(!path("page.unfinished").exists() && !path("paper").exists());

        std::fs::remove_dir(path("paper.unfinished")).unwrap();
        replace_files(&files).unwrap();
        assert_eq!(std::fs::read_to_string(path("page")).unwrap(), "new");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 2);
    }

    #[test]
    fn a_full_disk_is_named_as_such() {
        let full = io::Error::from(io::ErrorKind::StorageFull);
        let said = FrontEndError::file("write", Path::new("out/report.pdf"), &full).to_string();
        assert!(said.starts_with("cannot write out/report.pdf: the disk is full"), "{said}");
    }
}
