//! The readings: each written value against what a perfect reader would have seen, and against what
//! a fault-free instrument would have shown.

use serde::Serialize;

use super::part_score::PartScore;
use crate::calibration;
use crate::field_book::{Field, PointNumber};
use crate::procedure::Reading;
use crate::procedure::evidence::{Evidence, TraineeDecision};
use crate::scenario::lesson::LessonPhase;
use crate::time::Tick;
use crate::units::for_text;

pub use crate::procedure::instrument::Instrument;

/// Fraction of the mark for a reading that depends on what was visible; the rest depends on the
/// fault-free value.
const SHARE_SEEN: f64 = 0.75;
/// Difference from what was visible that costs nothing, divisions.
pub const FREE_SEEN: f64 = 0.5;
/// Difference beyond the free one at which a reading is worth nothing, divisions.
const LOST_SEEN: f64 = 2.0;
/// Difference from the fault-free value that costs nothing, divisions.
const FREE_UNDISTURBED: f64 = 1.0;
/// Difference beyond the free one at which that fraction is lost, divisions.
const LOST_UNDISTURBED: f64 = 4.0;

/// A reading and what it is worth.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ReadingJudged {
    /// Its field in the field book.
    pub field: Field,
    /// When it was read.
    pub tick: Tick,
    /// The instrument that was read.
    pub instrument: Instrument,
    /// Its unit.
    pub unit: &'static str,
    /// What was written.
    pub written: f64,
    /// What a perfect reader saw at the look to which it belongs.
    pub seen: f64,
    /// What would have been visible without any fault.
    pub undisturbed: f64,
    /// Distance from what was visible, divisions.
    pub off_divisions: f64,
    /// Distance from the fault-free value, divisions.
    pub undisturbed_off_divisions: f64,
    /// What it is worth, 0 to 1.
    pub score: f64,
}

/// Every reading in the field book, judged: conditions, points, checks and run.
pub fn judge(evidence: &Evidence<'_>) -> Vec<ReadingJudged> {
    let all = evidence.readings().all().iter().filter_map(|reading| judged(evidence, reading));
    all.filter(|one| {
        evidence.assesses(LessonPhase::of_field(one.field)) && evidence.is_trainees(one.tick)
    })
    .collect()
}

/// One reading, if its field contains a number.
fn judged(evidence: &Evidence<'_>, reading: &Reading) -> Option<ReadingJudged> {
    let Reading { field, instrument, seen, .. } = *reading;
    let (written, at) = (reading.value?, evidence.read(field)?);
    let off_divisions = reading.off()?;
    let undisturbed = instrument.undisturbed(at.facts());
    let undisturbed_off = (instrument.as_compared(written) - undisturbed).abs();
    let undisturbed_off_divisions = undisturbed_off / instrument.division();
    let moving = instrument.moves(at.facts()) / instrument.division();
    let by_sight = remaining_share(off_divisions - FREE_SEEN - moving, LOST_SEEN);
    // If the calibration was refused, the effect of a fault on the reading costs nothing.
    let by_truth = match evidence.verdict() {
        TraineeDecision::Refused => 1.0,
        _ => remaining_share(undisturbed_off_divisions - FREE_UNDISTURBED, LOST_UNDISTURBED),
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

/// What is left of 1 when it is lost in proportion to `over` and gone at `lost`. A negative `over`
/// costs nothing.
pub(super) fn remaining_share(over: f64, lost: f64) -> f64 {
    if over.is_nan() { 0.0 } else { (1.0 - over / lost).clamp(0.0, 1.0) }
}

/// How many readings there should be in the phases that are assessed: three, or two with an electronic manometer, for each point and each reading of a check, two conditions
/// at least, and pen and elapsed-time meter before and after a run that was made.
fn wanted(evidence: &Evidence<'_>) -> usize {
    let order = &evidence.setup.work_order;
    let of_line = match !order.is_check_alone() && evidence.assesses(LessonPhase::Points) {
        false => 0,
        true => evidence.points().len().max(calibration::FEWEST_POINTS),
    };
    let assessed = |field: &Field| evidence.assesses(LessonPhase::of_field(*field));
    let there = |fields: &[Field]| {
        fields.iter().filter(|f| evidence.reading(**f).is_some() && assessed(f)).count()
    };
    let refused = evidence.verdict() == TraineeDecision::Refused;
    let checked = !refused && evidence.assesses(LessonPhase::FlowCheck);
    let ordered = order.flow_check.filter(|_| checked).map_or(0, |check| check.readings.into());
    let checks = PointNumber::all().filter(|&number| {
        there(&[Field::CheckUp(number), Field::CheckDown(number), Field::CheckChart(number)]) > 0
    });
    let of_check = checks.count().max(ordered);
    let conditions =
        [Field::Temperature, Field::Pressure, Field::CheckTemperature, Field::CheckPressure];
    let of_run = [Field::StartChart, Field::MeterBefore, Field::EndChart, Field::MeterAfter];
    let added = [Field::SecondFilterChart, Field::ThirdFilterChart];
    let added_ordered = order.added_filters().map_or(0, |order| usize::from(order.sheets));
    let added_ordered = if evidence.assesses(LessonPhase::SettingUp) { added_ordered } else { 0 };
    let run = match evidence.run_was_made() {
        true => {
            let of_run = of_run.iter().filter(|field| assessed(field)).count();
            of_run + there(&added).max(added_ordered)
        }
        false => there(&of_run) + there(&added),
    };
    // A display shows at once what two legs show together.
    let of_row = if evidence.is_electronic() { 2 } else { 3 };
    let least = if evidence.assesses(LessonPhase::Power) { 2 } else { 0 };
    of_row * (of_line + of_check) + there(&conditions).max(least) + run
}

/// The part: the mean over all readings. A missing reading is worth nothing.
pub(super) fn part(evidence: &Evidence<'_>, readings: &[ReadingJudged]) -> PartScore {
    let wanted = wanted(evidence).max(readings.len());
    if wanted == 0 {
        return PartScore::outside_lesson();
    }
    let missing = wanted.saturating_sub(readings.len());
    let sum: f64 = readings.iter().map(|reading| reading.score).sum();
    let mut reasons: Vec<String> = readings
        .iter()
        .filter(|reading| reading.score < 0.995)
        .map(|reading| {
            format!(
                "{}: wrote {} {unit}; visible {:.2} {unit}, fault-free {:.2} {unit}",
                reading.field.label(),
                reading.written,
                for_text(reading.seen, 2),
                for_text(reading.undisturbed, 2),
                unit = reading.unit,
            )
        })
        .collect();
    if missing > 0 {
        reasons.push(format!("missing readings: {missing} of {wanted}"));
    }
    PartScore::earned(sum / wanted as f64, reasons)
}
