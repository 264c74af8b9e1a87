//! The instruments that are read, what each showed to a perfect reader, and what it would have shown
//! without faults.

use serde::Serialize;

use super::evidence::{At, Evidence};
use crate::field_book::{Field, PointNumber};
use crate::session::action::Sight;
use crate::session::ground_truth::{EventRecord, GroundTruth};

/// Longest time between a look and the entry of what was seen, s.
const LOOK_LASTS_S: f64 = 180.0;

/// An instrument that is read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Instrument {
    /// The leg that went up.
    LegUp,
    /// The leg that went down.
    LegDown,
    /// The pen.
    Pen,
    /// The barometer.
    Barometer,
    /// The thermometer.
    Thermometer,
}

impl Instrument {
    /// One division of its scale, in its unit.
    pub const fn division(self) -> f64 {
        match self {
            Self::LegUp | Self::LegDown => 0.1,
            Self::Pen | Self::Barometer | Self::Thermometer => 1.0,
        }
    }

    /// The unit of its scale.
    pub const fn unit(self) -> &'static str {
        match self {
            Self::LegUp | Self::LegDown => "in",
            Self::Pen => "divisions",
            Self::Barometer => "mmHg",
            Self::Thermometer => "°C",
        }
    }

    /// The field for its reading at a point; `None` for instruments that are not read at points.
    pub const fn field(self, number: PointNumber) -> Option<Field> {
        match self {
            Self::LegUp => Some(Field::Up(number)),
            Self::LegDown => Some(Field::Down(number)),
            Self::Pen => Some(Field::Chart(number)),
            Self::Barometer | Self::Thermometer => None,
        }
    }

    /// The sights that show it.
    pub(crate) const fn sights(self) -> &'static [Sight] {
        match self {
            Self::LegUp => &[Sight::LeftLeg],
            Self::LegDown => &[Sight::RightLeg],
            Self::Pen => &[Sight::Pen],
            Self::Barometer => &[Sight::Barometer],
            Self::Thermometer => &[Sight::Thermometer],
        }
    }

    /// What a perfect reader sees. Legs are read from zero, both as positive numbers.
    pub(crate) const fn seen(self, facts: &GroundTruth) -> f64 {
        match self {
            Self::LegUp => facts.menisci_in[0].abs(),
            Self::LegDown => facts.menisci_in[1].abs(),
            Self::Pen => facts.pen,
            Self::Barometer => facts.barometer_mmhg,
            Self::Thermometer => facts.thermometer_c,
        }
    }

    /// What it would show without faults.
    pub(crate) const fn undisturbed(self, facts: &GroundTruth) -> f64 {
        match self {
            Self::LegUp => facts.undisturbed_menisci_in[0].abs(),
            Self::LegDown => facts.undisturbed_menisci_in[1].abs(),
            Self::Pen => facts.undisturbed_pen,
            Self::Barometer => facts.pressure_mmhg,
            Self::Thermometer => facts.temperature_c,
        }
    }

    /// A written value for comparison: the sign of a leg is a matter of habit.
    pub(crate) const fn as_compared(self, written: f64) -> f64 {
        match self {
            Self::LegUp | Self::LegDown => written.abs(),
            _ => written,
        }
    }
}

/// The nearest to a written value of all values that were visible, and its distance.
///
/// Visible were the value at the moment of writing, and all values since the last look at the
/// instrument, if that look was within three minutes: values are often written one after another.
pub fn nearest_seen(
    evidence: &Evidence<'_>,
    instrument: Instrument,
    at: At<'_>,
    written: f64,
) -> (f64, f64) {
    let seen = nearest_sight(evidence, instrument, at, written).seen;
    (seen, (seen - instrument.as_compared(written)).abs())
}

/// When a value was visible, and what it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SeenAt {
    /// Index of the moment.
    pub index: usize,
    /// Before or after its effect.
    pub side: Side,
    /// What a perfect reader saw.
    pub seen: f64,
}

/// Before or after the effect of an action.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Side {
    /// Just before it.
    Before,
    /// Just after it, in the same tick.
    After,
}

impl Side {
    /// What was true on this side of a moment.
    pub(crate) const fn of(self, moment: &EventRecord) -> &GroundTruth {
        match self {
            Self::Before => &moment.before,
            Self::After => &moment.after,
        }
    }
}

/// What [`nearest_seen`] found, and when.
pub(crate) fn nearest_sight(
    evidence: &Evidence<'_>,
    instrument: Instrument,
    at: At<'_>,
    written: f64,
) -> SeenAt {
    let written = instrument.as_compared(written);
    let look = evidence
        .last_look(instrument.sights(), at.index)
        .filter(|look| at.tick().seconds_since(look.tick()) <= LOOK_LASTS_S);
    let from = look.map_or(at.index, |look| look.index);
    let between = evidence.moments.get(from..at.index).unwrap_or_default();
    let since = between.iter().enumerate().map(|(offset, moment)| SeenAt {
        index: from + offset,
        side: Side::After,
        seen: instrument.seen(&moment.after),
    });
    let now = SeenAt { index: at.index, side: Side::Before, seen: instrument.seen(at.facts()) };
    let off = |seen: &SeenAt| (seen.seen - written).abs();
    since.chain([now]).min_by(|one, other| off(one).total_cmp(&off(other))).unwrap_or(now)
}
