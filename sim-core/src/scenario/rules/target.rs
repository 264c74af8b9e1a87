//! The rule on the target flow.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;

/// The target flow is given exactly once.
pub(super) const ONCE: ScenarioRule = ScenarioRule {
    id: "target-once",
    about: "The target flow is given exactly once: at standard conditions, or at the conditions of \
            the run for a size-selective inlet, which needs its design flow.",
    find: once,
};

fn once(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let order = &scenario.work_order;
    match (order.target_flow_std_m3_min, order.target_flow_actual_m3_min) {
        (None, None) => findings.add(
            "work_order",
            "no target flow is given",
            "write for example `target_flow_std_m3_min: 1.13`",
        ),
        (Some(_), Some(_)) => findings.add(
            "work_order.target_flow_actual_m3_min",
            "the target flow is given twice",
            "keep only the one at standard conditions, or this one for a size-selective inlet",
        ),
        _ => {}
    }
}
