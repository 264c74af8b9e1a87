//! Rows of readings: what is read together, at a point or for a flow check. The same rules hold for
//! both.

use super::evidence::{At, Evidence};
use super::readings::Reading;
use super::slip::Slip;
use crate::field_book::{Field, PointNumber};
use crate::units::for_text;

/// A row of readings: a point, or a reading of the flow check.
#[derive(Debug, Clone, Copy)]
pub(super) enum Row {
    /// A point.
    Point(PointNumber),
    /// A reading of the flow check.
    Check(PointNumber),
}

impl Row {
    /// The fields of its legs, up and down.
    pub const fn legs(self) -> [Field; 2] {
        match self {
            Self::Point(number) => [Field::Up(number), Field::Down(number)],
            Self::Check(number) => [Field::CheckUp(number), Field::CheckDown(number)],
        }
    }

    /// The field of its pen.
    pub const fn chart(self) -> Field {
        match self {
            Self::Point(number) => Field::Chart(number),
            Self::Check(number) => Field::CheckChart(number),
        }
    }

    /// The readings that it has.
    pub fn readings<'a>(self, evidence: &'a Evidence<'_>) -> impl Iterator<Item = &'a Reading> {
        let [up, down] = self.legs();
        let shown = match self {
            Self::Point(number) => Some(Field::DeltaH(number)),
            Self::Check(_) => None,
        };
        let fields = [up, down, self.chart()].into_iter().chain(shown);
        fields.filter_map(|field| evidence.reading(field))
    }
}

/// Every row of readings in the field book.
pub(super) fn rows(evidence: &Evidence<'_>) -> Vec<Row> {
    let points = evidence.points().into_iter().map(|point| Row::Point(point.number));
    let checks = PointNumber::all().map(Row::Check);
    points.chain(checks.filter(|row| row.readings(evidence).next().is_some())).collect()
}

/// The points alone.
pub(super) fn points_of(evidence: &Evidence<'_>) -> Vec<Row> {
    rows(evidence).into_iter().filter(|row| matches!(row, Row::Point(_))).collect()
}

/// The readings of the flow check alone.
pub(super) fn checks_of(evidence: &Evidence<'_>) -> Vec<Row> {
    rows(evidence).into_iter().filter(|row| matches!(row, Row::Check(_))).collect()
}

/// What was written, and what was visible.
pub(super) fn as_written(evidence: &Evidence<'_>, reading: &Reading) -> String {
    let Some(written) = reading.value else {
        let text = evidence.book.text(reading.field).unwrap_or_default();
        return format!("`{text}` is not a number");
    };
    let (seen, unit) = (for_text(reading.seen, 2), reading.instrument.unit());
    format!("wrote {written} {unit} when {seen:.2} {unit} was visible")
}

/// A slip at a reading.
pub(super) fn slip(field: Field, at: At<'_>, text: &str) -> Slip {
    match field {
        Field::Up(number) | Field::Down(number) | Field::DeltaH(number) | Field::Chart(number) => {
            Slip::at_point(at.tick(), number.number(), text)
        }
        Field::CheckUp(number) | Field::CheckDown(number) | Field::CheckChart(number) => {
            Slip::at_check(at.tick(), number.number(), text)
        }
        _ => Slip::at(at.tick(), text),
    }
}
