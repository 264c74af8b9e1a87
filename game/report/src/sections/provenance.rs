//! What it takes to replay the session, and to know that it is this one.

use content::document::{CellAlign, Table};

use super::super::document::Block;
use super::super::session::SessionReport;

/// The section.
pub fn provenance(report: &SessionReport<'_>) -> Vec<Block> {
    let session = &report.ended.session;
    let mut table = Table::new([("", CellAlign::Left), ("", CellAlign::BreakAnywhere)]);
    let mut row = |name: &str, value: String| table.row([name.to_owned(), value]);
    row("Program version", sim_core::VERSION.to_owned());
    row("Scenario, SHA-256", session.source.sha256.clone());
    row("Seed", session.source.seed.to_string());
    row("Journal, head of its chain", report.ended.head.clone());
    vec![
        Block::Heading("Provenance".to_owned()),
        Block::Table(table),
        Block::Note(
            "Anyone who has the journal can replay this session exactly, with the same program version: steady-draw \
             replay. A journal with another head is a different session."
                .to_owned(),
        ),
    ]
}
