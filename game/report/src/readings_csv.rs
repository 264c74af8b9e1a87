//! Every reading with its truth as a table of comma-separated values (RFC 4180).

use super::figures::{READING_COLUMNS, reading, reading_name};
use super::session::SessionReport;

/// The table: a head, then a line for each reading.
pub fn table(report: &SessionReport<'_>) -> String {
    let mut text = String::new();
    line(&mut text, READING_COLUMNS.map(str::to_owned));
    for one in &report.ended.marks.readings {
        let time = report.start().after(one.tick).to_string();
        let [written, seen, undisturbed, off] = reading(one);
        let unit = one.unit.to_owned();
        line(&mut text, [time, reading_name(one.field), unit, written, seen, undisturbed, off]);
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
