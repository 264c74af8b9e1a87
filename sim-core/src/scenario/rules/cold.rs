//! The rules on frost and what is in the manometer.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::Fault;
use crate::rig::parts::GaugeFluid;
use crate::scenario::Scenario;

/// Where it may freeze, a scenario says what is in the manometer.
pub(super) const FLUID: ScenarioRule = ScenarioRule {
    id: "frost-and-fluid",
    about: "Where the air may be below freezing at the start, the scenario says what the manometer is \
            filled with: water freezes within the session, and a trainee who is to learn something else \
            would only meet ice. Ice needs water.",
    find: fluid,
};

fn fluid(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let filled = scenario.instruments.manometer_fluid;
    let temperature = scenario.weather.temperature_c;
    let (coldest, _) = temperature.bounds();
    if filled.is_none() && coldest < 0.0 {
        findings.add(
            "weather.temperature_c",
            format!("temperature_c {temperature} reaches below freezing, and the water in the manometer may freeze"),
            "write `manometer_fluid: gauge_oil` or `antifreeze` into `instruments`, or `water` if the \
             scenario is about frost",
        );
    }
    for (index, entry) in scenario.faults.iter().enumerate() {
        if entry.fault == Fault::ManometerFrozen
            && filled.is_some_and(|filled| filled != GaugeFluid::Water)
        {
            findings.add(
                format!("faults[{index}]"),
                "ManometerFrozen cannot be there: what the manometer is filled with does not freeze",
                "fill it with water, or leave the fault out",
            );
        }
    }
}
