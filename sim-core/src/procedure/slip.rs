//! One occasion on which a rule was broken.

use crate::time::Tick;

/// How much a single slip weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SlipWeight {
    /// As the rule says.
    Full,
    /// A near miss: it costs marks, but never decides.
    Mild,
}

/// One occasion on which a rule was broken.
#[derive(Debug, Clone, PartialEq)]
pub struct Slip {
    /// When.
    pub tick: Tick,
    /// The number of the point, if it was at one.
    pub point: Option<u8>,
    /// What shows it, with numbers and units.
    pub evidence: String,
    /// How much it weighs.
    pub weight: SlipWeight,
}

impl Slip {
    /// A slip that does not belong to a point.
    pub fn at(tick: Tick, evidence: impl Into<String>) -> Self {
        Self { tick, point: None, evidence: evidence.into(), weight: SlipWeight::Full }
    }

    /// A slip at a point.
    pub fn at_point(tick: Tick, point: u8, evidence: impl Into<String>) -> Self {
        Self { point: Some(point), ..Self::at(tick, evidence) }
    }

    /// The same slip as a near miss.
    #[must_use]
    pub fn mild(self) -> Self {
        Self { weight: SlipWeight::Mild, ..self }
    }
}
