//! The entries that stand in the field book, and which of them are read together.

use std::collections::BTreeMap;

use crate::field_book::{Field, FieldBook, PointNumber};
use crate::procedure::instrument::Instrument;
use crate::rig::manometer::electronic::ManometerKind;
use crate::session::action::Action;
use crate::session::ground_truth::EventRecord;

/// The entry that stands in a field.
#[derive(Debug, Clone, Copy)]
pub(super) struct Entry {
    /// The field.
    pub field: Field,
    /// Index of the moment at which it was written.
    pub index: usize,
    /// What was written, if it is a number.
    pub value: Option<f64>,
}

/// The fields whose readings belong together, in the order of the record: conditions and readings of
/// the run stand alone.
pub(super) fn groups() -> Vec<Vec<Field>> {
    let conditions =
        [Field::Temperature, Field::Pressure, Field::CheckTemperature, Field::CheckPressure];
    let run = [
        Field::MeterBefore,
        Field::StartChart,
        Field::SecondFilterChart,
        Field::ThirdFilterChart,
        Field::EndChart,
        Field::MeterAfter,
    ];
    let points = PointNumber::all()
        .map(|n| vec![Field::Up(n), Field::Down(n), Field::Chart(n), Field::DeltaH(n)]);
    let checks = PointNumber::all()
        .map(|n| vec![Field::CheckUp(n), Field::CheckDown(n), Field::CheckChart(n)]);
    let alone = |field| vec![field];
    conditions.map(alone).into_iter().chain(points).chain(checks).chain(run.map(alone)).collect()
}

/// The entries that stand in the fields of readings.
pub(super) fn entries(
    events: &[EventRecord],
    book: &FieldBook,
    manometer: ManometerKind,
) -> Vec<Entry> {
    let mut indices: BTreeMap<Field, usize> = BTreeMap::new();
    for (index, moment) in events.iter().enumerate() {
        match &moment.action {
            Action::Write { field, text } if !text.trim().is_empty() => {
                indices.insert(*field, index);
            }
            Action::Write { field, .. } => {
                indices.remove(field);
            }
            Action::Strike { what } => {
                for field in what.fields() {
                    indices.remove(&field);
                }
            }
            _ => {}
        }
    }
    let is_read =
        |field| Instrument::with(manometer, field).is_some() || matches!(field, Field::DeltaH(_));
    let standing = indices.into_iter().filter(|&(field, _)| is_read(field));
    standing.map(|(field, index)| Entry { field, index, value: book.number(field) }).collect()
}
