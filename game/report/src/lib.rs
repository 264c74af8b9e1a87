//! What is said and shown about a session after it has ended: in words, as an HTML page, as a PDF,
//! as a table of readings; and over many sessions of one person.
//!
//! ```text
//! MarkedSession -> SessionReport (figures, time line, track) -> Document -> html, pdf
//!                                                     `-> words, readings_csv, JSON
//! ```

pub mod cost_words;
pub mod document;
pub mod figures;
pub mod files;
pub mod html;
pub mod lettering;
pub mod moment;
pub mod pdf;
pub mod plots;
pub mod progress;
pub mod readings_csv;
pub mod scrub;
pub mod sections;
pub mod session;
pub mod text;
pub mod time_line;
pub mod trial;
