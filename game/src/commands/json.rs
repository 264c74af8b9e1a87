//! What other programs read: one object on the standard output.

use std::io::Write;

use serde::Serialize;
use serde_json::json;
use sessions::{FrontEndError, printable_json};

/// Prints an object on one line.
///
/// # Errors
///
/// When it cannot be written as JSON, or the output fails.
pub fn print_object(out: &mut dyn Write, object: &impl Serialize) -> Result<(), FrontEndError> {
    let text = serde_json::to_string(object).map_err(|error| not_json(&error))?;
    writeln!(out, "{}", printable_json(&text))?;
    Ok(())
}

/// Prints why a command could not do its work, for programs: the message as it stands on the standard
/// error, and the file it is about, `null` if it is about none.
///
/// # Errors
///
/// When the output fails.
pub fn print_error(out: &mut dyn Write, error: &FrontEndError) -> Result<(), FrontEndError> {
    let path = match error {
        FrontEndError::File { path, .. } => Some(path.to_string_lossy()),
        FrontEndError::Wrong(_) => None,
        // Nobody is left to read it.
        FrontEndError::Closed => return Ok(()),
    };
    print_object(out, &json!({ "error": { "message": error.to_string(), "path": path } }))
}

/// A result that cannot be written as JSON.
pub fn not_json(error: &serde_json::Error) -> FrontEndError {
    FrontEndError::Wrong(format!("the result cannot be written as JSON: {error}"))
}
