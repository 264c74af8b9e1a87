//! What came of all the drills of a person, read from their journals.

use std::path::{Path, PathBuf};

use sim_core::drill::journal::{DrillJournal, read};
use sim_core::drill::{DrillKind, DrillResult, Standing};

use crate::error::FrontEndError;
use crate::printable::printable_path;
use crate::text_file::read_bytes_up_to;

/// How the name of a drill's journal ends where a folder is searched.
pub const DRILL_EXTENSION: &str = "drill";
/// Largest journal that is read, bytes: a million answers.
const LARGEST: u64 = 256 * 1024 * 1024;
/// Levels of subfolders that are searched.
const DEEPEST: u8 = 4;

/// What came of all drills.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct DrillRecords {
    /// Every attempt, the oldest first.
    pub results: Vec<DrillResult>,
    /// Journals that could not be used, and why.
    pub left_out: Vec<(PathBuf, String)>,
}

impl DrillRecords {
    /// The attempts of one kind, the oldest first.
    pub fn of(&self, kind: DrillKind) -> impl Iterator<Item = &DrillResult> {
        self.results.iter().filter(move |result| result.kind == kind)
    }

    /// How the attempts of one kind compare with its standard.
    pub fn standing(&self, kind: DrillKind) -> Standing {
        kind.standard().standing(self.of(kind))
    }
}

/// Reads the journal of a drill. Its chain is verified; its answers are not judged again.
///
/// # Errors
///
/// When it cannot be read, or a line of it is wrong: the message names the line.
pub fn read_drill_journal(path: &Path) -> Result<DrillJournal, FrontEndError> {
    let bytes = read_bytes_up_to(path, LARGEST)?;
    read(&bytes).map_err(|error| FrontEndError::Wrong(format!("{}: {error}", printable_path(path))))
}

/// Reads what came of the drills at these paths: journals, or folders with journals whose names end in
/// `.drill`. One that cannot be used is named, and the others are read all the same.
///
/// # Errors
///
/// When a path that was named is not there or cannot be searched.
pub fn drill_records(paths: &[PathBuf]) -> Result<DrillRecords, FrontEndError> {
    let mut files = Vec::new();
    for path in paths {
        collect(path, DEEPEST, &mut files)?;
    }
    files.sort();
    files.dedup();
    let mut records = DrillRecords::default();
    for file in files {
        match read_drill_journal(&file) {
            Ok(journal) => records.results.extend(journal.results().cloned()),
            Err(error) => records.left_out.push((file, error.to_string())),
        }
    }
    // Stable: attempts of the same second stay in the order of their series.
    records.results.sort_by_key(|result| result.unix_s);
    Ok(records)
}

/// Every journal of a drill at a path.
fn collect(path: &Path, deeper: u8, files: &mut Vec<PathBuf>) -> Result<(), FrontEndError> {
    let wrong = |error: &std::io::Error| FrontEndError::file("read", path, error);
    let about = std::fs::metadata(path).map_err(|error| wrong(&error))?;
    if !about.is_dir() {
        files.push(path.to_owned());
        return Ok(());
    }
    for entry in std::fs::read_dir(path).map_err(|error| wrong(&error))? {
        let inside = entry.map_err(|error| wrong(&error))?.path();
        // A link could lead back to a folder above it.
        let is_folder = inside.is_dir() && !inside.is_symlink();
        let is_drill = inside.extension().is_some_and(|kind| kind == DRILL_EXTENSION);
        if is_folder && deeper > 0 {
            collect(&inside, deeper - 1, files)?;
        } else if inside.is_file() && is_drill {
            files.push(inside);
        }
    }
    Ok(())
}
