//! Every reading with its true value.

use content::document::{CellAlign, Table};

use super::super::document::Block;
use super::super::reading_columns::{READING_COLUMNS, reading_name, reading_numbers};
use super::super::session::SessionReport;

/// The section.
pub fn readings(report: &SessionReport<'_>) -> Vec<Block> {
    let readings = &report.ended.marks.readings;
    let mut blocks = vec![Block::Heading("Readings".to_owned())];
    if readings.is_empty() {
        blocks.push(Block::Paragraph("No reading was written.".into()));
        return blocks;
    }
    let [time, name, unit, written, visible, fault_free, error] = READING_COLUMNS;
    let mut table = Table::new([
        (time, CellAlign::Right),
        (name, CellAlign::Left),
        (written, CellAlign::Right),
        (visible, CellAlign::Right),
        (fault_free, CellAlign::Right),
        (unit, CellAlign::Left),
        (error, CellAlign::Right),
    ]);
    for reading in readings {
        let time = report.start().after(reading.tick).to_string();
        let [written, visible, fault_free, error] = reading_numbers(reading);
        let unit = reading.unit.to_owned();
        table.row([time, reading_name(reading.field), written, visible, fault_free, unit, error]);
    }
    blocks.push(Block::Table(table));
    blocks.push(Block::Note(
        "Visible: of the values that were in view, the nearest to what you wrote. Fault-free: what the instrument would \
         have shown without any fault. Error: written against visible; plus means that you wrote too much."
            .to_owned(),
    ));
    blocks
}
