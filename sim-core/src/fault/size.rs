//! The size of a fault and the range in which it must lie.

use std::ops::RangeInclusive;

/// The size of a fault and the range in which it must lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// The field that holds it.
    pub field: &'static str,
    /// The size.
    pub value: f64,
    /// The smallest size, without regard to sign where both signs are allowed.
    pub smallest: f64,
    /// The largest size, without regard to sign where both signs are allowed.
    pub largest: f64,
    /// Which signs are allowed.
    pub signs: Signs,
    /// Its unit.
    pub unit: &'static str,
}

/// Which signs a size may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signs {
    /// Positive only.
    Positive,
    /// Either sign: below zero it reads low, above zero it reads high.
    Either,
}

impl Size {
    /// A size above zero.
    pub(super) fn positive(
        field: &'static str,
        value: f64,
        range: RangeInclusive<f64>,
        unit: &'static str,
    ) -> Option<Self> {
        let (smallest, largest) = range.into_inner();
        Some(Self { field, value, smallest, largest, signs: Signs::Positive, unit })
    }

    /// A size of either sign, with the range of its amount.
    pub(super) fn either_sign(
        field: &'static str,
        value: f64,
        range: RangeInclusive<f64>,
        unit: &'static str,
    ) -> Option<Self> {
        let (smallest, largest) = range.into_inner();
        Some(Self { field, value, smallest, largest, signs: Signs::Either, unit })
    }

    /// Whether the size lies in its range. What is not finite never does.
    pub fn in_range(&self) -> bool {
        let value = match self.signs {
            Signs::Positive => self.value,
            Signs::Either => self.value.abs(),
        };
        (self.smallest..=self.largest).contains(&value)
    }
}
