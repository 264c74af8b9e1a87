//! A session as its costs need it: when each reading was seen, how far it was off, and where an action
//! would have to be inserted.

use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::{At, Evidence, PointTaken, place};
use crate::procedure::instrument::{Instrument, SeenAt, nearest_sight};
use crate::procedure::{ProcedureFinding, Repair};
use crate::rig::manometer::meniscus::parallax_in;
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::Sight;

/// A session with its readings.
pub(super) struct CostContext<'a> {
    /// Its evidence.
    pub evidence: &'a Evidence<'a>,
    /// What was found.
    pub findings: &'a [ProcedureFinding],
    /// Its points.
    pub points: Vec<PointTaken<'a>>,
    /// Its readings.
    pub readings: Vec<Reading>,
}

/// A reading as it was taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Reading {
    /// Where it was written.
    pub field: Field,
    /// The instrument that was read.
    pub instrument: Instrument,
    /// Index of the moment at which it was written.
    pub write: usize,
    /// When it was seen.
    pub at: SeenAt,
    /// What was written, legs as positive numbers.
    pub written: f64,
    /// How far parallax shifted the written value.
    pub parallax: f64,
}

impl<'a> CostContext<'a> {
    /// The story of a session that has ended.
    pub fn of(evidence: &'a Evidence<'a>, findings: &'a [ProcedureFinding]) -> Self {
        let points = evidence.points();
        let mut wanted = vec![
            (Field::Temperature, Instrument::Thermometer, evidence.written(Field::Temperature)),
            (Field::Pressure, Instrument::Barometer, evidence.written(Field::Pressure)),
        ];
        for point in &points {
            let number = point.number;
            wanted.extend([
                (Field::Up(number), Instrument::LegUp, point.up),
                (Field::Down(number), Instrument::LegDown, point.down),
                (Field::Chart(number), Instrument::Pen, point.chart),
            ]);
        }
        let readings = wanted
            .into_iter()
            .filter_map(|(field, instrument, at)| reading(evidence, field, instrument, at?))
            .collect();
        Self { evidence, findings, points, readings }
    }

    /// The reading in a field.
    pub fn reading(&self, field: Field) -> Option<&Reading> {
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
        let points = self.points.iter().map(|point| point.last.index);
        let written = self.readings.iter().map(|reading| reading.write);
        points.chain(written).max()
    }

    /// Index of the moment at which the flow was last changed by hand before a point was read.
    pub fn flow_set(&self, point: &PointTaken<'_>) -> Option<usize> {
        let before = self.evidence.events().take(point.first.index);
        before.rev().find(|at| at.moment.after.steady_s <= 0.0).map(|at| at.index)
    }

    /// Indices of the moments at which the manometer was hung on its hook.
    pub fn hangings(&self) -> impl Iterator<Item = usize> + use<'a> {
        self.evidence
            .events()
            .filter(|at| {
                place(at.facts(), RigPart::Manometer) != PartPlace::Hook
                    && place(&at.moment.after, RigPart::Manometer) == PartPlace::Hook
            })
            .map(|at| at.index)
    }
}

fn reading(
    evidence: &Evidence<'_>,
    field: Field,
    instrument: Instrument,
    at: At<'_>,
) -> Option<Reading> {
    let written = instrument.as_compared(evidence.book.number(field)?);
    let seen = nearest_sight(evidence, instrument, at, written);
    // On the leg that went down, a shift upwards makes the reading smaller.
    let (sight, sign) = match instrument {
        Instrument::LegUp => (Sight::LeftLeg, 1.0),
        Instrument::LegDown => (Sight::RightLeg, -1.0),
        _ => (Sight::Pen, 0.0),
    };
    let look = evidence.last_look(&[sight, Sight::Manometer], at.index);
    let eye_mm = look.map_or(at.facts().eye_mm, |look| look.moment.after.eye_mm);
    let parallax = sign * parallax_in(eye_mm);
    Some(Reading { field, instrument, write: at.index, at: seen, written, parallax })
}
