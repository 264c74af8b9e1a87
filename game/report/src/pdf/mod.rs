//! A document as a PDF on A4: text that can be searched and selected, plots as vectors,
//! and what each piece is for those who have it read aloud.
//!
//! The document is first laid out on sheets, which says how many there are, and then written.

mod flow;
mod ink;
mod sheet;
mod structure;
mod tables;
mod written;

use super::document::Document;

/// The bytes of the file. The same document gives the same bytes.
///
/// # Errors
///
/// When a plot cannot be drawn, or the file not be made.
pub fn file(document: &Document) -> Result<Vec<u8>, String> {
    let (papers, structure) = flow::laid_out(document);
    written::written(document, &papers, structure)
}
