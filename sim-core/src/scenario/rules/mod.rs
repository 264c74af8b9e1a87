//! The rules that a scenario must keep: one small object each, with its own explanation.

mod about;
mod certificates;
mod faults;
mod flow_check;
mod numbers;
mod onsets;
mod run;
mod target;
mod terms;
mod texts;
mod weather;

use crate::scenario::Scenario;

/// A rule for scenarios.
#[derive(Debug, Clone, Copy)]
pub struct ScenarioRule {
    /// Its name.
    pub id: &'static str,
    /// What it asks for, and why.
    pub about: &'static str,
    find: fn(&Scenario, &mut ScenarioFindings<'_>),
}

/// Every rule: lists first, then in the order of a scenario's sections.
pub const RULES: &[ScenarioRule] = &[
    numbers::LISTS,
    texts::READABLE_TEXT,
    texts::SERIAL,
    numbers::IN_RANGE,
    numbers::SPREAD,
    numbers::LAST_LINE,
    target::ONCE,
    about::KNOWN,
    weather::FITS_ELEVATION,
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
    flow_check::POSSIBLE,
    terms::WEIGHTS,
    terms::RULES_OFF,
];

/// The ids of the rules of the work, which a scenario may switch off.
#[derive(Debug, Clone, Copy)]
pub enum KnownRules<'a> {
    /// These ids.
    These(&'a [&'a str]),
    /// Any id: for those who have no list at hand.
    Any,
}

/// Something found by a rule.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScenarioFinding {
    /// The rule.
    pub rule: &'static str,
    /// The entry, such as `weather.pressure_mmhg`.
    pub path: String,
    /// What is wrong.
    pub what: String,
    /// How to mend it.
    pub mend: String,
}

/// What the rules have found so far.
#[derive(Debug)]
pub struct ScenarioFindings<'a> {
    rule: &'static str,
    known_rules: KnownRules<'a>,
    found: Vec<ScenarioFinding>,
}

impl ScenarioFindings<'_> {
    fn add(&mut self, path: impl Into<String>, what: impl Into<String>, mend: impl Into<String>) {
        let (path, what, mend) = (path.into(), what.into(), mend.into());
        self.found.push(ScenarioFinding { rule: self.rule, path, what, mend });
    }
}

/// Holds a scenario against every rule.
pub fn findings(scenario: &Scenario, known_rules: KnownRules<'_>) -> Vec<ScenarioFinding> {
    let mut findings = ScenarioFindings { rule: "", known_rules, found: Vec::new() };
    for rule in RULES {
        findings.rule = rule.id;
        (rule.find)(scenario, &mut findings);
        if rule.id == numbers::LISTS.id && !findings.found.is_empty() {
            // The other rules hold the entries of a list against each other.
            break;
        }
    }
    findings.found
}
