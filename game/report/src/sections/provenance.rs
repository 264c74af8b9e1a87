//! What it takes to have the session again, and to know that it is this one.

use crate::document::{Block, Stands, Table};
use crate::session::SessionReport;

/// The section.
pub fn provenance(report: &SessionReport<'_>) -> Vec<Block> {
    let signed = &report.ended.signed;
    let mut table = Table::new([("", Stands::Left), ("", Stands::Anyhow)]);
    let mut row = |name: &str, value: String| table.row([name.to_owned(), value]);
    row("Program version", sim_core::VERSION.to_owned());
    row("Scenario, SHA-256", signed.source.sha256.clone());
    row("Seed", signed.source.seed.to_string());
    row("Journal, head of its chain", report.ended.head.clone());
    vec![
        Block::Heading("Provenance".to_owned()),
        Block::Table(table),
        Block::Note(
            "Whoever holds the journal has this session again, to the last bit, with the same version: steady-draw \
             replay. A journal whose head differs is another one."
                .to_owned(),
        ),
    ]
}
