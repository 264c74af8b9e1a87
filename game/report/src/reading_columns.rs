//! The columns of the readings, as page, paper and table have them.

use sim_core::field_book::Field;
use sim_core::marking::ReadingJudged;

use super::number_format::NumberFormat;
use words::field_name;

/// The heads of the columns.
pub const READING_COLUMNS: [&str; 7] =
    ["time", "reading", "unit", "written", "visible", "fault-free", "error, divisions"];

/// The numbers of a reading: written, visible, fault-free, and its error in divisions.
pub fn reading_numbers(reading: &ReadingJudged) -> [String; 4] {
    let two = NumberFormat::Plain(2);
    [
        two.write(reading.written),
        two.write(reading.seen),
        two.write(reading.undisturbed),
        reading_error(reading),
    ]
}

/// A field's name without its unit, which has a column of its own.
pub fn reading_name(field: Field) -> String {
    let name = field_name(field);
    name.split(", ").next().unwrap_or(&name).to_owned()
}

/// The error of a reading in divisions: plus when more was written than was visible.
pub fn reading_error(reading: &ReadingJudged) -> String {
    let less = reading.written.abs() < reading.seen.abs();
    let value = if less { -reading.off_divisions } else { reading.off_divisions };
    // Rounded half away from zero, as a person rounds, and not to even.
    NumberFormat::Signed(2).write((100.0 * value).round() / 100.0)
}
