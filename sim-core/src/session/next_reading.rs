//! The reading that would be taken next when a lesson ends before the points.
//!
//! Most rules look at the state of the rig when something is read. In a lesson that ends with the
//! manometer hung, nothing is read, so they look at what a perfect reader would read at that moment.
//! That reading is not part of the session: the trainee never sees it, and it is not marked.

use super::action::{Action, Sight};
use super::ground_truth::{EventRecord, GroundTruth};
use crate::field_book::{Field, FieldBook, PointNumber};
use crate::time::Tick;

/// Actions and field book, with the next reading added to both.
#[derive(Debug, Clone)]
pub struct NextReading {
    /// The actions of the session, and those of the reading.
    pub events: Vec<EventRecord>,
    /// The field book with the reading.
    pub book: FieldBook,
}

impl NextReading {
    /// The reading after these actions: of a flow check if that is the whole job, or else of a point.
    pub(super) fn after(
        events: &[EventRecord],
        book: &FieldBook,
        (tick, facts): (Tick, &GroundTruth),
        check_alone: bool,
    ) -> Option<Self> {
        let first = PointNumber::all().next()?;
        let [up_in, down_in] = facts.menisci_in.map(f64::abs);
        let legs = match (facts.display, check_alone) {
            (Some(_), _) => vec![(Sight::Display, Field::DeltaH(first), up_in + down_in)],
            (None, true) => vec![
                (Sight::LeftLeg, Field::CheckUp(first), up_in),
                (Sight::RightLeg, Field::CheckDown(first), down_in),
            ],
            (None, false) => vec![
                (Sight::LeftLeg, Field::Up(first), up_in),
                (Sight::RightLeg, Field::Down(first), down_in),
            ],
        };
        let chart = if check_alone { Field::CheckChart(first) } else { Field::Chart(first) };
        let read: Vec<(Sight, Field, f64)> =
            legs.into_iter().chain([(Sight::Pen, chart, facts.pen)]).collect();
        let looks = read.iter().map(|&(at, _, _)| Action::Look { at, eye_mm: 0.0 });
        let writes = read.iter().map(|&(_, field, seen)| {
            let text = format!("{seen:.2}");
            Action::Write { field, text }
        });
        let mut all = events.to_vec();
        all.extend(looks.chain(writes).map(|action| EventRecord {
            tick,
            action,
            before: facts.clone(),
            after: facts.clone(),
        }));
        let mut book = book.clone();
        for (_, field, seen) in read {
            book.write(tick, field, &format!("{seen:.2}"));
        }
        Some(Self { events: all, book })
    }
}
