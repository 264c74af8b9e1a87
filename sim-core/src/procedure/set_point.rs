//! Phase H, the set point: the ordered flow, and the chart reading for it.

use super::evidence::{At, Evidence, TraineeDecision};
use super::outcome::{Outcome, beyond};
use super::own_sums::own_chart_for;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::{AirConditions, HIGHEST_FLOW_M3_MIN, LOWEST_FLOW_M3_MIN};
use crate::field_book::Field;
use crate::units::{M3_PER_FT3, for_text};

/// The range of flows of a sampler in the air that it draws, m3/min.
pub(crate) const RANGE_ACTUAL_M3_MIN: core::ops::RangeInclusive<f64> =
    LOWEST_FLOW_M3_MIN..=HIGHEST_FLOW_M3_MIN;
/// How far the target may be from the ordered flow, m3/min.
const TARGET_OFF_M3_MIN: f64 = 0.0051;
/// How far the target may be from the design flow at standard conditions, as a fraction (CHOSEN).
const DESIGN_OFF: f64 = 0.02;
/// How far the set point may be from what the trainee's line gives, divisions.
const SET_POINT_OFF: f64 = 0.3;

/// The target flow is inside 1.1 to 1.7 m3/min (39 to 60 ft3/min) of actual volume, in the air expected
/// for the run.
///
/// Where the method means volume at standard conditions, it writes "std"; here it does not, and at
/// altitude the difference decides. Broken by 1.05 at 742 mmHg and 17 °C, which is 1.05 m3/min there as
/// well; kept by 1.05 at 604 mmHg, which is 1.29.
pub static TARGET_IN_RANGE: ProcedureRule = ProcedureRule {
    id: "target-in-range",
    title: "Target flow inside 1.1 to 1.7 m³/min in the air of the run",
    why: "Outside this range the inlet collects a different fraction of the dust.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 7.2 and 8.8"),
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        // A size-selective inlet has a design flow instead of the range.
        if evidence.setup.work_order.target_flow_actual_m3_min.is_some() {
            return Outcome::NotReached;
        }
        about(evidence, Field::TargetFlow, |target| {
            // A number in other units breaks the other rule.
            let actual =
                actual_m3_min(evidence, target).filter(|_| !is_cubic_feet(evidence, target))?;
            let text = format!(
                "the target of {target} m³/min is {:.2} m³/min in the air of the run, outside 1.1 to \
                 1.7 m³/min",
                for_text(actual, 2)
            );
            (!RANGE_ACTUAL_M3_MIN.contains(&actual)).then_some(text)
        })
    },
};

/// The target flow is the one that the work order asks for.
///
/// Broken by 1.20 where 1.13 is ordered, or by 40 in ft3/min; kept by 1.13.
pub static TARGET_AS_ORDERED: ProcedureRule = ProcedureRule {
    id: "target-as-ordered",
    title: "Target flow as ordered",
    why: "Stations can be compared only at the same flow.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        if evidence.setup.work_order.target_flow_actual_m3_min.is_some() {
            return Outcome::NotReached;
        }
        let ordered = evidence.setup.work_order.target_flow_std_m3_min;
        about(evidence, Field::TargetFlow, |target| {
            let unit = if is_cubic_feet(evidence, target) { " (which is in ft³/min)" } else { "" };
            let text = format!("wrote a target of {target}{unit}, but {ordered} m³/min is ordered");
            beyond((target - ordered).abs(), TARGET_OFF_M3_MIN).then_some(text)
        })
    },
};

/// With a size-selective inlet the target is the design flow, converted to standard conditions.
///
/// Qstd = Qa P/760 298/T with the pressure P and temperature T expected for the run, within 2 percent.
/// Broken by writing the design flow itself in cold air; kept by converting it.
pub static DESIGN_FLOW: ProcedureRule = ProcedureRule {
    id: "design-flow",
    title: "Convert the inlet's design flow to standard conditions",
    why: "The inlet separates at its rated size only at its design flow, in the actual air.",
    severity: Severity::Data,
    decides: Decides::Always,
    source: RuleSource::memory("40 CFR Part 50, App. J"),
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        let order = &evidence.setup.work_order;
        let Some(design) = order.target_flow_actual_m3_min else { return Outcome::NotReached };
        let wanted = order.target_flow_std_m3_min;
        about(evidence, Field::TargetFlow, |target| {
            let itself = (target - design).abs() <= TARGET_OFF_M3_MIN;
            let unit = if itself { " (the design flow in the air of the run)" } else { "" };
            let text = format!(
                "wrote a target of {target}{unit}, but at 298 K and 760 mmHg the design flow is \
                 {wanted:.3} m³/min"
            );
            beyond((target / wanted - 1.0).abs(), DESIGN_OFF).then_some(text)
        })
    },
};

/// The outcome of a rule about a number that an accepted calibration ends with. If it is blank,
/// nothing can be judged; with a refusal it is not asked for.
fn about(evidence: &Evidence<'_>, field: Field, wrong: impl Fn(f64) -> Option<String>) -> Outcome {
    let written: Option<(At<'_>, f64)> = evidence.written(field).zip(evidence.book.number(field));
    match (evidence.verdict(), written) {
        (TraineeDecision::Refused, _) | (TraineeDecision::Missing, None) => Outcome::NotReached,
        (TraineeDecision::Accepted, None) => Outcome::without(evidence, field),
        (_, Some((at, number))) => Outcome::at(at.tick(), wrong(number)),
    }
}

/// A flow at standard conditions as an actual flow in the air expected for the run, m3/min.
fn actual_m3_min(evidence: &Evidence<'_>, flow_std_m3_min: f64) -> Option<f64> {
    let order = &evidence.setup.work_order;
    let air = AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c).ok()?;
    Some(flow_std_m3_min / air.to_standard())
}

/// Whether a target is the ordered one in cubic feet per minute.
fn is_cubic_feet(evidence: &Evidence<'_>, target: f64) -> bool {
    (target * M3_PER_FT3 - evidence.setup.work_order.target_flow_std_m3_min).abs() < 0.02
}

/// The set point follows from the trainee's line and the conditions expected for the run.
///
/// I = (M Q + B)/sqrt(Pa/760 298/Ta) with the slope M and intercept B of the trainee, the target flow
/// Q, and the pressure Pa in mmHg and temperature Ta in kelvins of the run; within 0.3 division. Broken
/// by the conditions on the day of the calibration; kept by those of the work order.
pub static SET_POINT: ProcedureRule = ProcedureRule {
    id: "set-point",
    title: "Take the set point from your line at the conditions of the run",
    why: "The same chart reading is another flow on another day: 1 percent for 20 mmHg or 6 K.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::memory("40 CFR Part 50, App. B, 9.3 and 8.8"),
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        let wanted = own_set_point(evidence);
        let accepted = evidence.verdict() == TraineeDecision::Accepted;
        if accepted && wanted.is_none() {
            return Outcome::without_one_of(evidence, &[Field::Slope, Field::Intercept]);
        }
        about(evidence, Field::SetPoint, |written| {
            let wanted = wanted?;
            let own = for_text(wanted, 1);
            let text =
                format!("wrote a set point of {written}, but your line gives {own:.1} for the run");
            beyond((written - wanted).abs(), SET_POINT_OFF).then_some(text)
        })
    },
};

/// The chart reading that the trainee's line gives for the trainee's target at the conditions of the
/// run.
pub(crate) fn own_set_point(evidence: &Evidence<'_>) -> Option<f64> {
    let order = &evidence.setup.work_order;
    let air = AirConditions::as_read(order.run_pressure_mmhg, order.run_temperature_c);
    let target = evidence.book.number(Field::TargetFlow).unwrap_or(order.target_flow_std_m3_min);
    own_chart_for(evidence, target, air)
}

/// An accepted calibration ends with a target flow and a set point.
///
/// Broken by accepting and stopping there; kept by both numbers, or by leaving before a thunderstorm.
pub static SET_POINT_WRITTEN: ProcedureRule = ProcedureRule {
    id: "set-point-written",
    title: "Write target flow and set point",
    why: "The set point is what the calibration is for.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::PRACTICE,
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        if evidence.verdict() != TraineeDecision::Accepted || evidence.fled_from_thunder() {
            return Outcome::NotReached;
        }
        let wanted = [(Field::TargetFlow, "target flow"), (Field::SetPoint, "set point")];
        Outcome::over(wanted, |(field, name)| {
            let text = format!("accepted, but the {name} is missing");
            evidence.book.number(field).is_none().then(|| Slip::at(evidence.end_tick, text))
        })
    },
};
