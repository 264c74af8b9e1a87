//! A reading as it was taken.

use crate::field_book::{Field, PointNumber};
use crate::procedure::instrument::Instrument;

/// A value in the field book, and how it was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reading {
    /// Its field.
    pub field: Field,
    /// The instrument that was read.
    pub instrument: Instrument,
    /// What was written, if it is a number.
    pub value: Option<f64>,
    /// Index of the moment at which it was written.
    pub written: usize,
    /// Index of the look to which it belongs; none if the instrument was not looked at.
    pub look: Option<usize>,
    /// Index of the moment just before whose effect it was read. Without a look, it is the moment at
    /// which it was written, or one at which the same point was read.
    pub read: usize,
    /// What a perfect reader saw then.
    pub seen: f64,
    /// Index of the last moment at which the instrument could be seen before the value was written: so
    /// long a careful reader would have waited.
    pub last: usize,
}

impl Reading {
    /// How far the written value is from what was visible, divisions.
    pub fn off(&self) -> Option<f64> {
        let off = self.instrument.as_compared(self.value?) - self.seen;
        Some(off.abs() / self.instrument.division())
    }
}

/// The sum of both legs of a point at which no leg was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct SumRead {
    /// The point.
    pub number: PointNumber,
    /// Index of the moment at which it was written.
    pub written: usize,
    /// Index of the moment at which the legs were last looked at for it.
    pub read: usize,
}
