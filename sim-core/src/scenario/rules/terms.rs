//! Rules on help, marks and time.

use super::{KnownRules, ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::suggest::suggest;

/// The weights add up to a hundred.
pub(super) const WEIGHTS: ScenarioRule = ScenarioRule {
    id: "weights-add-to-hundred",
    about: "The weights of the six parts of the marks add up to 100.",
    find: weights,
};

fn weights(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let w = &scenario.terms.weights;
    let sum = w.safety + w.readings + w.fit + w.procedure + w.judgement + w.record;
    if sum.is_finite() && (sum - 100.0).abs() > 1e-9 {
        let more = 100.0 - sum;
        let mend = if more > 0.0 {
            format!("add {more}; a weight that is left out has its default")
        } else {
            format!("take {} away; a weight that is left out has its default", -more)
        };
        findings.add("terms.weights", format!("the weights add up to {sum}, not 100"), mend);
    }
}

/// Every part that must be assessed has a weight.
pub(super) const ASSESSED: ScenarioRule = ScenarioRule {
    id: "assessed-parts-have-weight",
    about: "Every part of the marks that must have been assessed for a pass has a weight above 0, and \
            is named once.",
    find: assessed,
};

fn assessed(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let terms = &scenario.terms;
    for (index, part) in terms.assessed.iter().enumerate() {
        let path = format!("terms.assessed[{index}]");
        if terms.weights.of(*part) <= 0.0 {
            findings.add(path, "this part has no weight", "give it a weight, or remove it here");
        } else if terms.assessed.iter().take(index).any(|earlier| earlier == part) {
            findings.add(path, "this part is named twice", "keep one");
        }
    }
}

/// Every rule that is switched off exists.
pub(super) const RULES_OFF: ScenarioRule = ScenarioRule {
    id: "rules-off-known",
    about: "Every rule that is switched off exists, and is named once.",
    find: rules_off,
};

fn rules_off(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let mut seen = std::collections::BTreeSet::new();
    for (index, id) in scenario.terms.rules_off.iter().enumerate() {
        let path = format!("terms.rules_off[{index}]");
        if let KnownRules::These(known) = findings.known_rules
            && !known.contains(&id.as_str())
        {
            let mend = suggest(id, known);
            findings.add(path, format!("there is no rule `{id}` to switch off"), mend);
        } else if !seen.insert(id) {
            findings.add(path, format!("the rule `{id}` is switched off twice"), "keep one");
        }
    }
}
