//! Rules on how faults go together with each other and with the rest of the scenario.

use std::collections::BTreeMap;

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::{Fault, sheets};
use crate::scenario::Scenario;

/// No fault is listed twice.
pub(super) const ONCE: ScenarioRule = ScenarioRule {
    id: "fault-once",
    about: "No fault is listed twice; each valve and each nut counts separately.",
    find: once,
};

fn once(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let mut first: BTreeMap<String, usize> = BTreeMap::new();
    for (index, entry) in scenario.faults.iter().enumerate() {
        let name = entry.fault.name();
        if first.insert(entry.fault.which(), index).is_some() {
            findings.add(
                format!("faults[{index}]"),
                format!("the fault {name} is listed twice"),
                "keep one of them, with the size you want",
            );
        }
    }
}

/// Faults do not contradict each other.
pub(super) const AGREE: ScenarioRule = ScenarioRule {
    id: "faults-agree",
    about: "No two faults contradict each other: an orifice is either nicked or fouled, and a \
            certificate has only one printing error.",
    find: agree,
};

fn agree(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let at = |name: &str| scenario.faults.iter().position(|entry| entry.fault.name() == name);
    for sheet in sheets() {
        let one = sheet.name;
        let Some(first) = at(one) else { continue };
        for other in sheet.contradicts {
            let Some(second) = at(other) else { continue };
            findings.add(
                format!("faults[{}]", first.max(second)),
                format!("{one} and {other} contradict each other"),
                "keep one of them",
            );
        }
    }
}

/// Every fault can be noticed.
pub(super) const SHOWS: ScenarioRule = ScenarioRule {
    id: "fault-can-show",
    about: "Every fault makes a difference that somebody could notice: at sea level, a barometer set \
            to sea level reads correctly.",
    find: shows,
};

/// Below this elevation a barometer set to sea level is off by less than 9 mmHg, no more than
/// weather changes it.
const LOWEST_FOR_SEA_LEVEL_M: f64 = 100.0;

fn shows(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, entry) in scenario.faults.iter().enumerate() {
        let elevation_m = scenario.station.elevation_m;
        if entry.fault == Fault::BarometerAtSeaLevel && elevation_m < LOWEST_FOR_SEA_LEVEL_M {
            findings.add(
                format!("faults[{index}]"),
                format!("BarometerAtSeaLevel cannot be noticed at {elevation_m} m"),
                format!("move the station to {LOWEST_FOR_SEA_LEVEL_M} m or higher"),
            );
        }
    }
}
