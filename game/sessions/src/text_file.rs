//! Reading files that people name: only whole regular files of a bounded size.

use std::io::Read;
use std::path::Path;

use crate::error::FrontEndError;

/// The largest text file that is read, bytes: scenarios and readings are a few kilobytes.
pub const LARGEST_TEXT: u64 = 4 * 1024 * 1024;

/// Reads a text file that a person wrote.
///
/// # Errors
///
/// When it is missing, unreadable, a folder, larger than [`LARGEST_TEXT`], or not UTF-8 text.
pub fn read_text(path: &Path) -> Result<String, FrontEndError> {
    read_text_up_to(path, LARGEST_TEXT)
}

/// Reads a text file of at most so many bytes.
///
/// # Errors
///
/// As [`read_text`].
pub fn read_text_up_to(path: &Path, largest: u64) -> Result<String, FrontEndError> {
    let bytes = read_bytes_up_to(path, largest)?;
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        let reason = format!("it is not UTF-8 text (at byte {at}): save it as plain text in UTF-8");
        FrontEndError::File { doing: "read", path: path.to_owned(), reason }
    })
}

/// Reads a file of at most so many bytes.
///
/// # Errors
///
/// When it is missing, unreadable, not a regular file, or larger.
pub fn read_bytes_up_to(path: &Path, largest: u64) -> Result<Vec<u8>, FrontEndError> {
    only_a_file(path)?;
    let file =
        std::fs::File::open(path).map_err(|error| FrontEndError::file("read", path, &error))?;
    read_bytes_from(file, path, largest)
}

/// Refuses a folder, a pipe and a device: opening a pipe waits until somebody writes into it, for ever
/// if nobody does.
///
/// # Errors
///
/// When it is not a regular file, or is missing.
pub fn only_a_file(path: &Path) -> Result<(), FrontEndError> {
    let about =
        std::fs::metadata(path).map_err(|error| FrontEndError::file("read", path, &error))?;
    let reason = if about.is_dir() {
        "it is a folder: give the name of a file"
    } else if about.is_file() {
        return Ok(());
    } else {
        "it is a pipe or a device, not a file: save its output to a file, and give the name of that file"
    };
    Err(FrontEndError::File { doing: "read", path: path.to_owned(), reason: reason.to_owned() })
}

/// Reads an open file of at most so many bytes; `path` names it in messages.
///
/// # Errors
///
/// When it cannot be read or is larger.
pub fn read_bytes_from(
    file: impl Read,
    path: &Path,
    largest: u64,
) -> Result<Vec<u8>, FrontEndError> {
    // A file may grow while it is read: one byte beyond the limit is enough to know.
    let mut bytes = Vec::new();
    file.take(largest + 1)
        .read_to_end(&mut bytes)
        .map_err(|error| FrontEndError::file("read", path, &error))?;
    if bytes.len() as u64 > largest {
        let most = largest / (1024 * 1024);
        let reason = format!(
            "it is larger than {most} MiB, which no file of this kind needs: check that it is the right file"
        );
        return Err(FrontEndError::File { doing: "read", path: path.to_owned(), reason });
    }
    Ok(bytes)
}
