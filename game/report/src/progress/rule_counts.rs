//! How often each rule was broken, and whether it keeps being broken.

use serde::Serialize;
use sim_core::procedure::{ProcedureRule, RULES, Severity};

use super::recent::recent;
use super::session::SessionSummary;

/// How often a rule was broken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct RuleCount {
    /// Its id.
    pub rule: &'static str,
    /// Its title.
    pub title: &'static str,
    /// What is at stake.
    pub severity: Severity,
    /// Sessions in which it was broken.
    pub broken: usize,
    /// The same of the recent ones.
    pub lately: usize,
    /// Whether it keeps being broken: in two sessions at least, and in a recent one.
    pub keeps: bool,
}

/// Every rule that was broken, those that keep being broken first.
pub fn rule_counts(sessions: &[SessionSummary]) -> Vec<RuleCount> {
    let count = |sessions: &[SessionSummary], rule: &ProcedureRule| {
        sessions.iter().filter(|session| session.broken.contains(&rule.id)).count()
    };
    let one = |rule: &&'static ProcedureRule| {
        let (broken, lately) = (count(sessions, rule), count(recent(sessions), rule));
        RuleCount {
            rule: rule.id,
            title: rule.title,
            severity: rule.severity,
            broken,
            lately,
            keeps: broken >= 2 && lately >= 1,
        }
    };
    let mut rules: Vec<RuleCount> = RULES.iter().map(one).filter(|rule| rule.broken > 0).collect();
    // Safety first, then what was broken recently, then what was broken often.
    rules.sort_by_key(|rule| {
        let often = (usize::MAX - rule.lately, usize::MAX - rule.broken);
        (!rule.keeps, gravity(rule.severity), often)
    });
    rules
}

/// The gravest first.
const fn gravity(severity: Severity) -> u8 {
    match severity {
        Severity::Critical => 0,
        Severity::Safety => 1,
        Severity::Data => 2,
        Severity::Practice => 3,
    }
}
