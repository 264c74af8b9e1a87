//! The test of the flow controller with added filters: as written, as it follows from the readings, and as
//! it really was.

use serde::Serialize;

use crate::field_book::Field;
use crate::procedure::Evidence;
use crate::procedure::added_filters::{own_change_pct, readings, truly_held};

/// A test with added filters.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AddedCompared {
    /// The change of the flow with each added filter.
    pub changes: Vec<ChangeCompared>,
    /// The number of filters with which the flow is held, as written.
    pub held: Option<f64>,
    /// The most with which it is held by a pen without friction.
    pub true_held: Option<u8>,
    /// The change that counts as none, percent.
    pub within_pct: f64,
}

/// The change of the flow with one more filter, percent of the flow with one.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ChangeCompared {
    /// How many filters lay on the first.
    pub sheets: u8,
    /// As written.
    pub written_pct: Option<f64>,
    /// As it follows from the trainee's readings.
    pub redone_pct: Option<f64>,
    /// The true change of the flow. The pen stands a little higher where the motor works harder.
    pub true_pct: Option<f64>,
}

/// The test of a session, if one was ordered and a run was made.
pub(super) fn added_filters(evidence: &Evidence<'_>) -> Option<AddedCompared> {
    let order = evidence.setup.work_order.added_filters().filter(|_| evidence.run_was_made())?;
    let start = evidence.read(Field::StartChart).map(|at| at.facts().flow_std_m3_min);
    let changes = readings(evidence, order).into_iter().map(|reading| {
        let flow = reading.at.map(|at| at.facts().flow_std_m3_min);
        let change = |(flow, start): (f64, f64)| 100.0 * (flow / start - 1.0);
        ChangeCompared {
            sheets: reading.sheets,
            written_pct: evidence.book.number(reading.change),
            redone_pct: own_change_pct(evidence, reading.chart),
            true_pct: flow.zip(start).map(change).filter(|percent| percent.is_finite()),
        }
    });
    Some(AddedCompared {
        changes: changes.collect(),
        held: evidence.book.number(Field::FiltersHeld),
        true_held: truly_held(evidence, order).map(|[_, most]| most),
        within_pct: order.within_pct,
    })
}
