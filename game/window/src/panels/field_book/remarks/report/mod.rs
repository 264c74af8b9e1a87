//! A report of what was found wrong.

mod draft;
mod part;

pub use draft::{Draft, Suspected};
pub use part::{ReportPlugin, ReportRequest, spawn};
