//! The readings: each value written against what a perfect reader would have seen, and against
//! what an undisturbed instrument would have shown.

use serde::Serialize;

use super::PartScore;
use crate::field_book::{Field, PointNumber};
use crate::procedure::evidence::{At, Evidence, Verdict};
use crate::session::action::Sight;
use crate::session::facts::{Facts, Moment};
use crate::time::Tick;

/// Share of a reading's mark that stands on what could be seen; the rest on the undisturbed value.
const SHARE_SEEN: f64 = 0.75;
/// Free difference against what could be seen, divisions.
const FREE_SEEN: f64 = 0.5;
/// Difference beyond the free one at which a reading is worth nothing, divisions.
const LOST_SEEN: f64 = 2.0;
/// Free difference against the undisturbed value, divisions.
const FREE_UNDISTURBED: f64 = 1.0;
/// Difference beyond the free one at which nothing is left of that share, divisions.
const LOST_UNDISTURBED: f64 = 4.0;
/// Longest time between a look and the writing of what was seen, s.
const LOOK_LASTS_S: f64 = 180.0;
/// Points below which readings count as missing.
const FEWEST_POINTS: usize = 5;

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

    /// Where its readings at a point are written; `None` for those that belong to no point.
    pub const fn field(self, number: PointNumber) -> Option<Field> {
        match self {
            Self::LegUp => Some(Field::Up(number)),
            Self::LegDown => Some(Field::Down(number)),
            Self::Pen => Some(Field::Chart(number)),
            Self::Barometer | Self::Thermometer => None,
        }
    }

    /// What shows it to the eye.
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
    pub(crate) const fn seen(self, facts: &Facts) -> f64 {
        match self {
            Self::LegUp => facts.menisci_in[0].abs(),
            Self::LegDown => facts.menisci_in[1].abs(),
            Self::Pen => facts.pen,
            Self::Barometer => facts.barometer_mmhg,
            Self::Thermometer => facts.thermometer_c,
        }
    }

    /// What it would show undisturbed, without faults.
    pub(crate) const fn undisturbed(self, facts: &Facts) -> f64 {
        match self {
            Self::LegUp => facts.undisturbed_menisci_in[0].abs(),
            Self::LegDown => facts.undisturbed_menisci_in[1].abs(),
            Self::Pen => facts.undisturbed_pen,
            Self::Barometer => facts.pressure_mmhg,
            Self::Thermometer => facts.temperature_c,
        }
    }

    /// A written value as it compares: the sign of a leg is a matter of habit.
    pub(crate) const fn as_compared(self, written: f64) -> f64 {
        match self {
            Self::LegUp | Self::LegDown => written.abs(),
            _ => written,
        }
    }
}

/// A reading and what it is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingJudged {
    /// Where it stands in the book.
    pub field: Field,
    /// When it was written.
    pub tick: Tick,
    /// On what it was read.
    pub instrument: Instrument,
    /// Its unit.
    pub unit: &'static str,
    /// What was written.
    pub written: f64,
    /// What a perfect reader would have seen: of all that was before the eyes, the nearest.
    pub seen: f64,
    /// What would have been seen undisturbed, without faults.
    pub undisturbed: f64,
    /// Distance from what was to be seen, divisions.
    pub off_divisions: f64,
    /// Distance from the undisturbed value, divisions.
    pub undisturbed_off_divisions: f64,
    /// What it is worth, 0 to 1.
    pub score: f64,
}

/// Of all that the eyes had before them when a value was written, the nearest to it, and how far
/// the value is from it.
///
/// That is the moment of writing, and everything since the last look at the instrument when that
/// look is not older than three minutes: values are often written one after another.
pub fn nearest_seen(
    evidence: &Evidence<'_>,
    instrument: Instrument,
    at: At<'_>,
    written: f64,
) -> (f64, f64) {
    let seen = nearest_sight(evidence, instrument, at, written).seen;
    (seen, (seen - instrument.as_compared(written)).abs())
}

/// When the eyes had a value before them, and what it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct SeenAt {
    /// Place of the moment in the time line.
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
    pub(crate) const fn of(self, moment: &Moment) -> &Facts {
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

/// Every reading in the book, judged.
pub fn judge(evidence: &Evidence<'_>) -> Vec<ReadingJudged> {
    let conditions =
        [(Field::Temperature, Instrument::Thermometer), (Field::Pressure, Instrument::Barometer)]
            .map(|(field, instrument)| {
                judged(evidence, field, instrument, evidence.written(field))
            });
    let points = evidence.points().into_iter().flat_map(|point| {
        let number = point.number;
        [
            judged(evidence, Field::Up(number), Instrument::LegUp, point.up),
            judged(evidence, Field::Down(number), Instrument::LegDown, point.down),
            judged(evidence, Field::Chart(number), Instrument::Pen, point.chart),
        ]
    });
    conditions.into_iter().chain(points).flatten().collect()
}

/// One reading, if a number stands in its field.
fn judged(
    evidence: &Evidence<'_>,
    field: Field,
    instrument: Instrument,
    at: Option<At<'_>>,
) -> Option<ReadingJudged> {
    let at = at?;
    let written = evidence.book.number(field)?;
    let (seen, off) = nearest_seen(evidence, instrument, at, written);
    let undisturbed = instrument.undisturbed(at.facts());
    let undisturbed_off = (instrument.as_compared(written) - undisturbed).abs();
    let off_divisions = off / instrument.division();
    let undisturbed_off_divisions = undisturbed_off / instrument.division();
    // While the water moves, nobody can say more than where it was within a second.
    let moving = match instrument {
        Instrument::LegUp | Instrument::LegDown => {
            at.facts().water_speed_in_s.abs() / instrument.division()
        }
        _ => 0.0,
    };
    let by_sight = left_of(off_divisions - FREE_SEEN - moving, LOST_SEEN);
    // Where the calibration was refused, what a fault did to the reading is no loss.
    let by_truth = match evidence.verdict() {
        Verdict::Refused => 1.0,
        _ => left_of(undisturbed_off_divisions - FREE_UNDISTURBED, LOST_UNDISTURBED),
    };
    Some(ReadingJudged {
        field,
        tick: at.tick(),
        instrument,
        unit: instrument.unit(),
        written,
        seen,
        undisturbed,
        off_divisions,
        undisturbed_off_divisions,
        score: SHARE_SEEN * by_sight + (1.0 - SHARE_SEEN) * by_truth,
    })
}

/// What is left of 1 when it is lost in proportion and gone at `lost`; less than nothing is free.
pub(super) fn left_of(over: f64, lost: f64) -> f64 {
    if over.is_nan() { 0.0 } else { (1.0 - over / lost).clamp(0.0, 1.0) }
}

/// The part: the mean over three readings a point and two conditions; a missing one is worth nothing.
pub(super) fn part(evidence: &Evidence<'_>, readings: &[ReadingJudged]) -> PartScore {
    let points = evidence.points().len();
    let wanted = 3 * points.max(FEWEST_POINTS) + 2;
    let missing = wanted.saturating_sub(readings.len());
    let sum: f64 = readings.iter().map(|reading| reading.score).sum();
    let mut reasons: Vec<String> = readings
        .iter()
        .filter(|reading| reading.score < 0.995)
        .map(|reading| {
            format!(
                "{}: wrote {} {unit}, to be seen {:.2}, undisturbed {:.2} {unit}",
                super::field_words(reading.field),
                reading.written,
                reading.seen,
                reading.undisturbed,
                unit = reading.unit,
            )
        })
        .collect();
    if missing > 0 {
        reasons.push(format!("{missing} readings of {wanted} are missing"));
    }
    PartScore { share: sum / wanted as f64, reasons }
}
