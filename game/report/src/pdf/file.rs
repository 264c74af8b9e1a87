//! A document as a PDF file: first laid out on pages, which tells how many there are, then written.

use super::super::document::Document;
use super::super::paper::PaperSize;
use super::blocks::laid_out;
use super::page::PageSize;
use super::writer::written;

/// The bytes of the file. The same document on the same paper gives the same bytes.
///
/// # Errors
///
/// When a plot cannot be drawn, or the file cannot be made.
pub fn file(document: &Document, paper: PaperSize) -> Result<Vec<u8>, String> {
    let size = PageSize::of(paper);
    let (pages, tags) = laid_out(document, size);
    written(document, (&pages, tags), size)
}
