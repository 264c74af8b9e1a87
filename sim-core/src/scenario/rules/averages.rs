//! Rules on averages of the season.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;

/// The averages can be built into a line.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "averages-possible",
    about: "Averages of the season are 400 to 820 mmHg and -30 to 50 degrees Celsius, and stand on an \
            order that asks for a calibration line.",
    find: possible,
};

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(averages) = scenario.work_order.averages else { return };
    let (pressure, temperature) = (averages.pressure_mmhg, averages.temperature_c);
    if !(400.0..=820.0).contains(&pressure) {
        findings.add(
            "work_order.averages.pressure_mmhg",
            format!("an average pressure of {pressure} mmHg is outside 400 to 820"),
            "write the average station pressure in mmHg, not reduced to sea level",
        );
    }
    if !(-30.0..=50.0).contains(&temperature) {
        findings.add(
            "work_order.averages.temperature_c",
            format!("an average temperature of {temperature} degrees Celsius is outside -30 to 50"),
            "write the average temperature of the season in degrees Celsius",
        );
    }
    if scenario.flow_check.is_some_and(|check| check.is_whole_job()) {
        findings.add(
            "work_order.averages",
            "averages are built into a new line, but no line is to be made",
            "leave the averages out, or order a calibration",
        );
    }
}
