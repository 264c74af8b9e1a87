//! Phase C with an electronic manometer: in calibration, zeroed, and read with a sound battery.

use super::evidence::Evidence;
use super::manometer::zero_of_sum_in;
use super::occasions::{manometer_reads, measured};
use super::outcome::Outcome;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::scenario::setup::LONGEST_AGE_DAYS;
use crate::session::action::{FaultPlace, Response};
use crate::session::ground_truth::{DisplayTruth, GroundTruth};
use crate::units::for_text;

/// Largest zero at a reading, inches of water: as much as of a manometer with water (CHOSEN: it moves the
/// flow at the smallest difference by one percent).
const ZERO_IN: f64 = 0.05;

/// The electronic manometer is at zero, within 0.05 in, whenever a point is read.
///
/// Its zero can only be seen with the port open to the air; pressing the zero key under pressure takes
/// that pressure off every reading. Broken by reading with a zero of 0.12 in; kept by zeroing it with the
/// tube off, and again where it drifts.
pub static DISPLAY_ZEROED: ProcedureRule = ProcedureRule {
    id: "display-zeroed",
    title: "Zero the electronic manometer with its port open to the air",
    why: "Its zero drifts with temperature and time, and an error of the zero is in every reading.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::ZeroManometer,
    test: |evidence| {
        over_displays(evidence, |facts, _| {
            let zero_in = zero_of_sum_in(facts);
            (zero_in.abs() > ZERO_IN).then(|| {
                let text = format!(
                    "the electronic manometer was read with its zero at {:+.2} in",
                    for_text(zero_in, 2)
                );
                (text, zero_in.abs() <= 2.0 * ZERO_IN)
            })
        })
    },
};

/// Nothing is read while the low-battery sign is on.
///
/// Broken by going on with the sign on; kept by a fresh battery, and the zero set again.
pub static DISPLAY_BATTERY: ProcedureRule = ProcedureRule {
    id: "display-battery",
    title: "Change the battery before you read on",
    why: "As the battery runs down, the readings sink with it long before the display goes dark.",
    severity: Severity::Data,
    decides: Decides::AsHabit,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Manometer,
    repair: Repair::FreshBattery,
    test: |evidence| {
        over_displays(evidence, |_, display| {
            let text = "the electronic manometer was read with the low-battery sign on".to_owned();
            display.battery_low.then_some((text, false))
        })
    },
};

/// The electronic manometer was calibrated within a year of the day.
///
/// Broken by reading it with a label of 400 days ago; kept by one of 366 days, or by reporting it as not
/// used and refusing the calibration.
pub static DISPLAY_CURRENT: ProcedureRule = ProcedureRule {
    id: "display-current",
    title: "Use an electronic manometer that was calibrated in the last twelve months",
    why: "The span of its sensor wanders, and only a calibration shows by how much.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::Arrive,
    repair: Repair::None,
    test: |evidence| {
        let Some(display) = evidence.end.display.filter(|_| measured(evidence)) else {
            return Outcome::NotReached;
        };
        let rejected = evidence.remarks().any(|(_, remark)| {
            remark.place == FaultPlace::Manometer && remark.response == Response::Rejected
        });
        if display.label_days <= LONGEST_AGE_DAYS as f64 || rejected {
            return Outcome::Kept;
        }
        let at = evidence.first_reading().map_or(evidence.end_tick, |at| at.tick());
        let text = format!(
            "the label of the electronic manometer says that it was calibrated {:.0} days ago, but at \
             most {LONGEST_AGE_DAYS} days are allowed",
            display.label_days
        );
        Outcome::broken(Slip::at(at, text))
    },
};

/// The outcome over each point at which a display was read: what is wrong there, and whether it is mild.
fn over_displays(
    evidence: &Evidence<'_>,
    wrong: impl Fn(&GroundTruth, &DisplayTruth) -> Option<(String, bool)>,
) -> Outcome {
    let points = evidence.points().into_iter();
    let read = points.filter_map(|point| Some((point.number, manometer_reads(&point).last()?)));
    let shown = read.filter_map(|(number, at)| Some((number, at, at.facts().display?)));
    Outcome::over(shown, |(number, at, display)| {
        let (text, mild) = wrong(at.facts(), &display)?;
        let slip = Slip::at_point(at.tick(), number.number(), text);
        Some(if mild { slip.mild() } else { slip })
    })
}
