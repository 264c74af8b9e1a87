//! A question as it was drawn: what can be seen, and apart from it the truth.

use super::seen::{Asked, DrillLook, DrillSheet};
use super::slip::DrillSlip;
use crate::rig::manometer::Manometer;
use crate::rig::parts::Leg;
use crate::scenario::setup::Certificate;
use crate::session::Session;

/// A question as it was drawn.
#[derive(Debug)]
pub(super) struct Drawn {
    /// What is asked.
    pub(super) asked: Asked,
    /// The bench, for the papers.
    pub(super) bench: Session,
    /// The certificates in the box, if they are not those of the bench.
    pub(super) certificates: Option<Vec<Certificate>>,
    /// What can be seen, look by look.
    pub(super) looks: Vec<DrillLook>,
    /// Numbers on paper.
    pub(super) sheet: Option<DrillSheet>,
    /// What can be done to see better.
    pub(super) gauge: Gauge,
    /// The truth.
    pub(super) truth: Truth,
}

impl Drawn {
    /// A question about what can be seen.
    pub(super) const fn of(
        bench: Session,
        asked: Asked,
        looks: Vec<DrillLook>,
        truth: Truth,
    ) -> Self {
        Self { asked, bench, certificates: None, looks, sheet: None, gauge: Gauge::Still, truth }
    }
}

/// An instrument that looks otherwise from elsewhere or with another setting.
#[derive(Debug)]
pub(super) enum Gauge {
    /// Nothing can be done.
    Still,
    /// A manometer, and the height of the eye at each look, mm.
    Legs(Box<Manometer>, Vec<(Leg, f64)>),
    /// A barometer: what it shows set to the station and set to sea level, mmHg.
    Barometer([f64; 2]),
}

/// What is true.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Truth {
    /// A number, with the slips that lead to others.
    Number {
        value: f64,
        /// How an error is counted.
        counted: Counted,
        slips: Vec<(DrillSlip, f64)>,
    },
    /// One of several choices, and the slip of each wrong one.
    Choice { right: usize, choices: Vec<(String, DrillSlip)> },
}

/// How an error is counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Counted {
    /// In the unit of the answer.
    Plainly,
    /// In percent of the right value.
    InPercent,
}

impl Counted {
    /// By how much a number is off.
    pub(super) fn error(self, number: f64, value: f64) -> f64 {
        match self {
            Self::Plainly => number - value,
            Self::InPercent => 100.0 * (number / value - 1.0),
        }
    }
}
