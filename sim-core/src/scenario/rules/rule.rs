//! What a rule for scenarios is, and what it finds.

use crate::scenario::Scenario;

/// A rule for scenarios.
#[derive(Debug, Clone, Copy)]
pub struct ScenarioRule {
    /// Its name.
    pub id: &'static str,
    /// What it asks for, and why.
    pub about: &'static str,
    pub(super) find: fn(&Scenario, &mut ScenarioFindings<'_>),
}

/// The ids of the rules of the work, which a scenario may switch off.
#[derive(Debug, Clone, Copy)]
pub enum KnownRules<'a> {
    /// These ids.
    These(&'a [&'a str]),
    /// Any id, for callers that have no list at hand.
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
    /// How to fix it.
    pub mend: String,
}

/// What the rules have found so far.
#[derive(Debug)]
pub struct ScenarioFindings<'a> {
    pub(super) rule: &'static str,
    pub(super) known_rules: KnownRules<'a>,
    pub(super) found: Vec<ScenarioFinding>,
}

impl ScenarioFindings<'_> {
    pub(super) fn add(
        &mut self,
        path: impl Into<String>,
        what: impl Into<String>,
        mend: impl Into<String>,
    ) {
        let (path, what, mend) = (path.into(), what.into(), mend.into());
        self.found.push(ScenarioFinding { rule: self.rule, path, what, mend });
    }
}
