//! Every reading with its true value as a table of comma-separated values (RFC 4180).

use super::reading_columns::{READING_COLUMNS, reading_name, reading_numbers};
use super::session::SessionReport;

/// The table: a line of heads, then a line for each reading.
pub fn table(report: &SessionReport<'_>) -> String {
    let mut text = String::new();
    line(&mut text, READING_COLUMNS.map(str::to_owned));
    for one in &report.ended.marks.readings {
        let time = report.start().after(one.tick).to_string();
        let [written, visible, fault_free, error] = reading_numbers(one);
        let unit = one.unit.to_owned();
        line(&mut text, [time, reading_name(one.field), unit, written, visible, fault_free, error]);
    }
    text
}

fn line<const N: usize>(text: &mut String, cells: [String; N]) {
    let quoted = cells.map(|cell| {
        if cell.contains([',', '"', '\n', '\r']) {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell
        }
    });
    text.push_str(&quoted.join(","));
    text.push('\n');
}
