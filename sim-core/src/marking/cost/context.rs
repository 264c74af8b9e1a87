//! A session as its costs need it: when each reading was seen, how far it was off, and where an action
//! would have to be inserted.

use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::{Evidence, PointTaken, place};
use crate::procedure::instrument::Instrument;
use crate::procedure::{ProcedureFinding, Reading, Repair};
use crate::rig::parts::{PartPlace, RigPart};

/// A session with its readings.
pub(super) struct CostContext<'a> {
    /// Its evidence.
    pub evidence: &'a Evidence<'a>,
    /// What was found.
    pub findings: &'a [ProcedureFinding],
    /// Its points.
    pub points: Vec<PointTaken<'a>>,
    /// Its readings.
    pub readings: Vec<CostedReading>,
}

/// A reading as it was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct CostedReading {
    /// Where it was written.
    pub field: Field,
    /// The instrument that was read.
    pub instrument: Instrument,
    /// Index of the moment at which it was written.
    pub write: usize,
    /// Index of the look to which it belongs.
    pub look: Option<usize>,
    /// Index of the moment just before whose effect it was read.
    pub read: usize,
    /// What a perfect reader saw then.
    pub seen: f64,
    /// Index of the last moment at which the instrument could be seen.
    pub last: usize,
    /// What was written, legs as positive numbers.
    pub written: f64,
    /// How far parallax shifted the written value.
    pub parallax: f64,
}

impl<'a> CostContext<'a> {
    /// The story of a session that has ended.
    pub fn of(evidence: &'a Evidence<'a>, findings: &'a [ProcedureFinding]) -> Self {
        let points = evidence.points();
        let readings = evidence.readings().all().iter();
        let readings = readings.filter(|reading| of_line(reading.field));
        let readings = readings.filter_map(|reading| costed(evidence, reading)).collect();
        Self { evidence, findings, points, readings }
    }

    /// The reading in a field.
    pub fn reading(&self, field: Field) -> Option<&CostedReading> {
        self.readings.iter().find(|reading| reading.field == field)
    }

    /// The points at which slips of this repair were found.
    pub fn points_of(&self, repair: Repair) -> Vec<PointNumber> {
        let slips = self.findings.iter().filter(|finding| finding.repair == repair);
        slips.filter_map(|finding| PointNumber::try_from(finding.point?).ok()).collect()
    }

    /// The point that was read first.
    pub fn first_point(&self) -> Option<&PointTaken<'a>> {
        self.points.iter().min_by_key(|point| point.first.index)
    }

    /// Index of the last moment that a reading needs.
    pub fn last_index(&self) -> Option<usize> {
        let points = self.points.iter().map(|point| point.written.max(point.last.index));
        let written = self.readings.iter().map(|reading| reading.write);
        points.chain(written).max()
    }

    /// Index of the moment at which the flow was last changed by hand before a point was read.
    pub fn flow_set(&self, point: &PointTaken<'_>) -> Option<usize> {
        let before = self.evidence.indexed_events().take(point.first.index);
        before.rev().find(|at| at.event.after.steady_s <= 0.0).map(|at| at.index)
    }

    /// Indices of the moments at which the manometer was hung on its hook.
    pub fn hangings(&self) -> impl Iterator<Item = usize> + use<'a> {
        self.evidence
            .indexed_events()
            .filter(|at| {
                place(at.facts(), RigPart::Manometer) != PartPlace::Hook
                    && place(&at.event.after, RigPart::Manometer) == PartPlace::Hook
            })
            .map(|at| at.index)
    }
}

/// Whether a field contains a reading on which the line depends.
const fn of_line(field: Field) -> bool {
    matches!(
        field,
        Field::Temperature
            | Field::Pressure
            | Field::Up(_)
            | Field::Down(_)
            | Field::DeltaH(_)
            | Field::Chart(_)
    )
}

fn costed(evidence: &Evidence<'_>, reading: &Reading) -> Option<CostedReading> {
    let Reading { field, instrument, written: write, look, read, seen, last, .. } = *reading;
    let written = instrument.as_compared(reading.value?);
    let eye_mm = match evidence.look(field) {
        Some(look) => look.event.after.eye_mm,
        None => evidence.read(field)?.facts().eye_mm,
    };
    let parallax = instrument.parallax(eye_mm);
    Some(CostedReading { field, instrument, write, look, read, seen, last, written, parallax })
}
