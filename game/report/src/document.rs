//! The document of a report with the plots that this package draws.

use super::plots::Plot;

/// A whole report.
pub type Document = content::document::Document<Plot>;

/// One thing in a report.
pub type Block = content::document::Block<Plot>;
