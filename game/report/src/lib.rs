//! What is said and shown about a session after it has ended: in words, as an HTML page, as a PDF,
//! as a table of readings; and over many sessions of one person.
//!
//! ```text
//! MarkedSession -> SessionReport (figures, timeline, track) -> Document -> html, pdf
//!                                                    `-> debrief, readings_csv, JSON
//! ```

pub mod bench_time_line;
pub mod cost_words;
pub mod debrief;
pub mod document;
pub mod figures;
pub mod files;
pub mod grouped_findings;
pub mod html;
mod judgement_words;
mod moment_marks;
pub mod names;
pub mod number_format;
pub mod paper;
pub mod pdf;
pub mod people;
pub mod plots;
pub mod progress;
pub mod reading_columns;
pub mod readings_csv;
pub mod rule_outcomes;
pub mod sections;
mod service;
pub mod session;
mod session_document;
pub mod snapshot;
pub mod text_layout;
pub mod trial;

pub use service::PlainReports;
