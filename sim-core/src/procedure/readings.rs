//! The one record of the readings of a session: the points, the flow checks, the conditions and the
//! run.
//!
//! A reading belongs to the look at which it was taken, not to the stroke of the pen: it is judged by
//! what was visible and true then, whenever it was written. Values may be written in any order, and
//! after the flow was changed again. A value that is written again is a correction if it fits what the
//! old one was read from, and a new reading if it fits a newer look. What was struck out is no reading.
//!
//! The readings of a point belong together: they are looked for at the flow at which most of them fit,
//! so that a slip of the pen is not taken for a reading at another flow.

mod entries;
mod looks;
mod reader;
mod taken;

use crate::field_book::{Field, FieldBook, PointNumber};
use crate::rig::manometer::electronic::ManometerKind;
use crate::session::ground_truth::EventRecord;

use entries::{Entry, entries, groups};
use reader::Reader;
pub use taken::Reading;
pub(crate) use taken::SumRead;

/// Every reading that stands in the field book.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ReadingRecord {
    /// The conditions, the points, the checks and the run, in this order.
    readings: Vec<Reading>,
    /// The sums that stand for the legs of their points.
    sums: Vec<SumRead>,
}

impl ReadingRecord {
    /// The readings of a session.
    pub fn of(events: &[EventRecord], book: &FieldBook) -> Self {
        let electronic = events.first().is_some_and(|first| first.before.display.is_some());
        let manometer =
            if electronic { ManometerKind::Electronic } else { ManometerKind::WaterColumn };
        let reader = Reader::of(events, manometer);
        let entries = entries(events, book, manometer);
        let mut record = Self::default();
        let mut taken = Vec::new();
        for fields in groups() {
            // A display shows the whole difference: there it is a reading and no sum.
            let is_sum = |field: Field| !electronic && matches!(field, Field::DeltaH(_));
            let mut group: Vec<Entry> = Vec::new();
            for &field in fields.iter().filter(|field| !is_sum(**field)) {
                group.extend(entries.iter().find(|entry| entry.field == field));
            }
            let flow = reader.flow_of(&group);
            record.readings.extend(reader.read(&group, flow, &mut taken));
            let sum = fields.iter().find(|field| is_sum(**field));
            let sum = sum.and_then(|sum| entries.iter().find(|entry| entry.field == *sum));
            let leg = |entry: &Entry| matches!(entry.field, Field::Up(_) | Field::Down(_));
            if let Some(sum) = sum.filter(|_| !group.iter().any(leg)) {
                record.sums.extend(reader.sum(sum, flow.filter(|_| !group.is_empty())));
            }
        }
        record
    }

    /// All of them.
    pub fn all(&self) -> &[Reading] {
        &self.readings
    }

    /// The reading in a field.
    pub fn in_field(&self, field: Field) -> Option<&Reading> {
        self.readings.iter().find(|reading| reading.field == field)
    }

    /// The sum of a point at which no leg was written.
    pub(crate) fn sum(&self, number: PointNumber) -> Option<&SumRead> {
        self.sums.iter().find(|sum| sum.number == number)
    }
}
