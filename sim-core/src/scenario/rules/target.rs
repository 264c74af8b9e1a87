//! Rules on the flow to be set.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;

/// The flow to be set is given in one way.
pub(super) const ONCE: ScenarioRule = ScenarioRule {
    id: "target-once",
    about: "The flow to be set is given once: at standard conditions, or at the conditions of the run \
            for an inlet that selects by size, which wants its design flow.",
    find: once,
};

fn once(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let order = &scenario.work_order;
    match (order.target_flow_std_m3_min, order.target_flow_actual_m3_min) {
        (None, None) => findings.add(
            "work_order",
            "no flow to be set is given",
            "write `target_flow_std_m3_min: 1.13`",
        ),
        (Some(_), Some(_)) => findings.add(
            "work_order.target_flow_actual_m3_min",
            "the flow to be set is given twice",
            "keep the one at standard conditions, or this one for a size-selective inlet",
        ),
        _ => {}
    }
}
