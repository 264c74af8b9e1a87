//! Phase H, the set point: the ordered flow, and the chart reading for it.

use super::evidence::{Evidence, TraineeDecision};
use super::own_sums::own_chart_for;
use super::points::RANGE_M3_MIN;
use super::rule::{Decides, ProcedureRule, Repair, RuleSource, Severity, Slip, WorkPhase};
use crate::calibration::AirConditions;
use crate::field_book::Field;
use crate::units::{M3_PER_FT3, for_text};

/// How far the target may be from the ordered flow, m3/min.
const TARGET_OFF_M3_MIN: f64 = 0.0051;
/// How far the target may be from the design flow at standard conditions, as a fraction (CHOSEN).
const DESIGN_OFF: f64 = 0.02;
/// How far the set point may be from what the trainee's line gives, divisions.
const SET_POINT_OFF: f64 = 0.3;

/// The target flow is inside 1.1 to 1.7 standard m3/min (39 to 60 ft3/min).
///
/// Broken by 0.9; kept by 1.13.
pub static TARGET_IN_RANGE: ProcedureRule = ProcedureRule {
    id: "target-in-range",
    title: "Target flow inside 1.1 to 1.7 m³/min",
    why: "Outside this range the inlet collects a different fraction of the dust.",
    severity: Severity::Data,
    decides: Decides::Never,
    source: RuleSource::read("40 CFR Part 50, App. B, 7.2 and 8.8"),
    phase: WorkPhase::SetPoint,
    repair: Repair::SetPointFromLine,
    test: |evidence| {
        // A size-selective inlet has a design flow instead of the range.
        if evidence.setup.work_order.target_flow_actual_m3_min.is_some() {
            return Vec::new();
        }
        let Some(at) = evidence.written(Field::TargetFlow) else { return Vec::new() };
        let Some(target) = evidence.book.number(Field::TargetFlow) else { return Vec::new() };
        if RANGE_M3_MIN.contains(&target) || evidence.verdict() == TraineeDecision::Refused {
            return Vec::new();
        }
        // A number in other units breaks the other rule.
        if is_cubic_feet(evidence, target) {
            return Vec::new();
        }
        let text = format!("the target of {target} m³/min is outside 1.1 to 1.7 m³/min");
        vec![Slip::at(at.tick(), text)]
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
        let Some(at) = evidence.written(Field::TargetFlow) else { return Vec::new() };
        let Some(target) = evidence.book.number(Field::TargetFlow) else { return Vec::new() };
        if evidence.setup.work_order.target_flow_actual_m3_min.is_some() {
            return Vec::new();
        }
        let ordered = evidence.setup.work_order.target_flow_std_m3_min;
        let refused = evidence.verdict() == TraineeDecision::Refused;
        if (target - ordered).abs() <= TARGET_OFF_M3_MIN || refused {
            return Vec::new();
        }
        let unit = if is_cubic_feet(evidence, target) { " (which is in ft³/min)" } else { "" };
        let text = format!("wrote a target of {target}{unit}, but {ordered} m³/min is ordered");
        vec![Slip::at(at.tick(), text)]
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
        let Some(design) = order.target_flow_actual_m3_min else { return Vec::new() };
        let Some(at) = evidence.written(Field::TargetFlow) else { return Vec::new() };
        let Some(target) = evidence.book.number(Field::TargetFlow) else { return Vec::new() };
        let wanted = order.target_flow_std_m3_min;
        let off = (target / wanted - 1.0).abs() > DESIGN_OFF;
        if !off || evidence.verdict() == TraineeDecision::Refused {
            return Vec::new();
        }
        let itself = (target - design).abs() <= TARGET_OFF_M3_MIN;
        let unit = if itself { " (the design flow in the air of the run)" } else { "" };
        let text = format!(
            "wrote a target of {target}{unit}, but at 298 K and 760 mmHg the design flow is \
             {wanted:.3} m³/min"
        );
        vec![Slip::at(at.tick(), text)]
    },
};

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
        if evidence.verdict() == TraineeDecision::Refused {
            return Vec::new();
        }
        let Some(at) = evidence.written(Field::SetPoint) else { return Vec::new() };
        let Some(written) = evidence.book.number(Field::SetPoint) else { return Vec::new() };
        let Some(wanted) = own_set_point(evidence) else { return Vec::new() };
        if (written - wanted).abs() <= SET_POINT_OFF {
            return Vec::new();
        }
        let wanted = for_text(wanted, 1);
        let text =
            format!("wrote a set point of {written}, but your line gives {wanted:.1} for the run");
        vec![Slip::at(at.tick(), text)]
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
            return Vec::new();
        }
        [(Field::TargetFlow, "target flow"), (Field::SetPoint, "set point")]
            .into_iter()
            .filter(|(field, _)| evidence.book.number(*field).is_none())
            .map(|(_, name)| {
                Slip::at(evidence.end_tick, format!("accepted, but the {name} is missing"))
            })
            .collect()
    },
};
