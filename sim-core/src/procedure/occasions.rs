//! The moments at which the rules of mounting and manometer look: where points and flow check begin,
//! and each reading of a leg.

use super::evidence::{At, Evidence};
use super::outcome::Outcome;
use super::rule::Slip;
use crate::field_book::{Field, PointNumber};
use crate::session::ground_truth::GroundTruth;

/// The first reading of the points or of the flow check: what was mounted and zeroed stands from then
/// on.
#[derive(Debug, Clone, Copy)]
pub(super) struct Beginning<'a> {
    /// The moment.
    pub at: At<'a>,
    /// What begins: "first point" or "flow check".
    pub what: &'static str,
}

/// Where the readings begin: those of the points, and those of the flow check, for which everything
/// is mounted again.
pub(super) fn beginnings<'a>(evidence: &Evidence<'a>) -> Vec<Beginning<'a>> {
    let points = evidence.first_reading().map(|at| Beginning { at, what: "first point" });
    let check = first_check_reading(evidence).map(|at| Beginning { at, what: "flow check" });
    points.into_iter().chain(check).collect()
}

/// Where the legs of the manometer are read first, for the points and for the flow check.
pub(super) fn first_legs<'a>(evidence: &Evidence<'a>) -> Vec<Beginning<'a>> {
    let legs = evidence.points().into_iter().filter_map(|point| manometer_reads(&point).next());
    let points = legs.min_by_key(|at| at.index).map(|at| Beginning { at, what: "first leg" });
    let check =
        first_check_leg(evidence).map(|at| Beginning { at, what: "first leg of the flow check" });
    points.into_iter().chain(check).collect()
}

/// Whether anything was measured: a point, or a reading of the flow check.
pub(super) fn measured(evidence: &Evidence<'_>) -> bool {
    evidence.first_reading().is_some() || first_check_reading(evidence).is_some()
}

/// The moments at which the manometer was read at a point: its legs, or the sum if no leg was written.
pub(super) fn manometer_reads<'a>(
    point: &super::evidence::PointTaken<'a>,
) -> impl Iterator<Item = At<'a>> + use<'a> {
    let none = point.up.is_none() && point.down.is_none();
    let sum = (none && point.chart.is_none_or(|chart| chart.index != point.first.index))
        .then_some(point.first);
    point.up.into_iter().chain(point.down).chain(sum)
}

/// The outcome over each point at which the manometer was read: one slip for each point at which it
/// was in a wrong state.
pub(super) fn at_legs(
    evidence: &Evidence<'_>,
    wrong: impl Fn(At<'_>) -> Option<String>,
) -> Outcome {
    let read = evidence.points().into_iter().filter(|p| manometer_reads(p).next().is_some());
    Outcome::over(read, |point| {
        manometer_reads(&point)
            .find_map(|at| Some(Slip::at_point(at.tick(), point.number.number(), wrong(at)?)))
    })
}

/// The outcome over the moments at which the readings begin.
pub(super) fn at_beginnings(
    evidence: &Evidence<'_>,
    wrong: impl Fn(&GroundTruth, &'static str) -> Option<String>,
) -> Outcome {
    Outcome::over(beginnings(evidence), |start| {
        Some(Slip::at(start.at.tick(), wrong(start.at.facts(), start.what)?))
    })
}

/// Every entry of a leg of the check.
pub(super) fn leg_reads<'a>(evidence: &Evidence<'a>) -> Vec<At<'a>> {
    let fields = PointNumber::all().flat_map(|r| [Field::CheckUp(r), Field::CheckDown(r)]);
    fields.filter_map(|field| evidence.written(field)).collect()
}

/// The first entry of a leg of the check.
fn first_check_leg<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    leg_reads(evidence).into_iter().min_by_key(|at| at.index)
}

/// The first reading of the check, of a leg or the pen.
fn first_check_reading<'a>(evidence: &Evidence<'a>) -> Option<At<'a>> {
    let charts = PointNumber::all().filter_map(|r| evidence.written(Field::CheckChart(r)));
    charts.chain(leg_reads(evidence)).min_by_key(|at| at.index)
}
