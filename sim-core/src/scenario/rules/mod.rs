//! The rules that a scenario must follow: one small object each, with its own explanation.

mod about;
mod averages;
mod certificates;
mod cold;
mod faults;
mod flow_check;
mod history;
mod instruments;
mod lesson;
mod numbers;
mod onsets;
mod rule;
mod run;
mod target;
mod terms;
mod texts;
mod weather;

use crate::scenario::Scenario;

pub use rule::{KnownRules, ScenarioFinding, ScenarioFindings, ScenarioRule};

/// Every rule: the lengths of lists first, then in the order of a scenario's sections.
pub const RULES: &[ScenarioRule] = &[
    numbers::LISTS,
    texts::READABLE_TEXT,
    texts::SITUATION,
    texts::SERIAL,
    numbers::IN_RANGE,
    numbers::SPREAD,
    numbers::LAST_LINE,
    target::ONCE,
    about::KNOWN,
    weather::FITS_ELEVATION,
    cold::FLUID,
    certificates::DATE,
    certificates::IN_BOX,
    certificates::OWNER,
    certificates::EXPIRY,
    certificates::PRINT,
    certificates::CHANGE,
    certificates::COPY,
    certificates::NUMBERS,
    faults::ONCE,
    faults::AGREE,
    onsets::POSSIBLE,
    faults::SHOWS,
    run::POSSIBLE,
    run::NEXT,
    run::FAULTS,
    run::ADDED,
    averages::POSSIBLE,
    flow_check::POSSIBLE,
    history::CHART,
    history::CHANGE,
    instruments::CALIBRATOR,
    instruments::MANOMETER,
    terms::WEIGHTS,
    terms::ASSESSED,
    terms::RULES_OFF,
    lesson::PHASES,
];

/// Checks a scenario against every rule.
pub fn findings(scenario: &Scenario, known_rules: KnownRules<'_>) -> Vec<ScenarioFinding> {
    let mut findings = ScenarioFindings { rule: "", known_rules, found: Vec::new() };
    for rule in RULES {
        findings.rule = rule.id;
        (rule.find)(scenario, &mut findings);
        if rule.id == numbers::LISTS.id && !findings.found.is_empty() {
            // The other rules compare the entries of a list with each other, which takes too long
            // in long lists.
            break;
        }
    }
    findings.found
}
