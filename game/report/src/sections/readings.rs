//! Every reading with its truth.

use crate::document::{Block, Stands, Table};
use crate::figures::{READING_COLUMNS, reading as written, reading_name};
use crate::session::SessionReport;

/// The section.
pub fn readings(report: &SessionReport<'_>) -> Vec<Block> {
    let readings = &report.ended.marks.readings;
    let mut blocks = vec![Block::Heading("Readings".to_owned())];
    if readings.is_empty() {
        blocks.push(Block::Paragraph("No reading was written.".into()));
        return blocks;
    }
    let [time, name, unit, own, seen, undisturbed, off] = READING_COLUMNS;
    let mut table = Table::new([
        (time, Stands::Right),
        (name, Stands::Left),
        (own, Stands::Right),
        (seen, Stands::Right),
        (undisturbed, Stands::Right),
        (unit, Stands::Left),
        (off, Stands::Right),
    ]);
    for reading in readings {
        let time = report.start().after(reading.tick).to_string();
        let [own, seen, undisturbed, off] = written(reading);
        let unit = reading.unit.to_owned();
        table.row([time, reading_name(reading.field), own, seen, undisturbed, unit, off]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(
        "To be seen: of all that was before the eyes, the nearest to what was written. Undisturbed: what the instrument \
         would have shown without any fault. Off: against what was to be seen; plus when too much was written."
            .to_owned(),
    ));
    blocks
}
