//! A document as a PDF on US Letter or A4: text that can be searched and selected, plots as vectors,
//! and tags for screen readers.

mod blocks;
mod file;
mod page;
mod page_flow;
mod plot_backend;
mod tables;
mod tags;
mod writer;

pub use file::file;
