//! The scenarios that a path on the command line stands for.

use std::path::{Path, PathBuf};

use sessions::FrontEndError;

/// The file itself, or every scenario in the folder, sorted by name.
///
/// # Errors
///
/// When the folder cannot be read, or holds no scenario.
pub fn files_at(path: &Path) -> Result<Vec<PathBuf>, FrontEndError> {
    if !path.is_dir() {
        return Ok(vec![path.to_owned()]);
    }
    let wrong = |error: &std::io::Error| FrontEndError::file("read", path, error);
    let mut files = Vec::new();
    for entry in std::fs::read_dir(path).map_err(|error| wrong(&error))? {
        let file = entry.map_err(|error| wrong(&error))?.path();
        if file.extension().is_some_and(|ending| ending == "ron") && !file.is_dir() {
            files.push(file);
        }
    }
    if files.is_empty() {
        return Err(FrontEndError::File {
            doing: "read",
            path: path.to_owned(),
            reason: "the folder has no *.ron file: give a scenario or a folder of scenarios"
                .to_owned(),
        });
    }
    files.sort();
    Ok(files)
}
