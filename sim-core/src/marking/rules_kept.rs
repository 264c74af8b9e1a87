//! The two parts that depend on findings alone: safety and procedure.

use super::part_score::PartScore;
use crate::procedure::{ProcedureFinding, Severity};

/// Loss for each broken safety rule that does not endanger life.
const SAFETY: f64 = 0.35;
/// Loss for a broken rule of data that decides the result.
const DECISIVE: f64 = 0.6;
/// Loss for another rule of data, broken throughout.
const DATA: f64 = 0.25;
/// Loss for a rule of practice, broken throughout.
const PRACTICE: f64 = 0.08;
/// Smallest fraction of a loss, so that one slip at one of many points still counts.
const LEAST: f64 = 0.3;

/// Safety: one critical finding costs all of it.
pub(super) fn safety(findings: &[ProcedureFinding]) -> PartScore {
    let broken =
        by_rule(findings, |severity| matches!(severity, Severity::Critical | Severity::Safety));
    let critical = broken.iter().any(|rule| rule.first.critical);
    let loss = if critical { 1.0 } else { SAFETY * broken.len() as f64 };
    score(loss, &broken)
}

/// Procedure: rules of data and practice.
pub(super) fn procedure(findings: &[ProcedureFinding], points: usize) -> PartScore {
    let broken =
        by_rule(findings, |severity| matches!(severity, Severity::Data | Severity::Practice));
    let loss = broken
        .iter()
        .map(|rule| {
            let share = match rule.first.point {
                Some(_) if points > 0 => (rule.count as f64 / points as f64).clamp(LEAST, 1.0),
                _ => 1.0,
            };
            match (rule.decisive, rule.first.severity) {
                (true, _) => DECISIVE,
                (false, Severity::Practice) => PRACTICE * share,
                (false, _) => DATA * share,
            }
        })
        .sum();
    score(loss, &broken)
}

/// One rule that was broken.
struct BrokenRule<'a> {
    first: &'a ProcedureFinding,
    count: usize,
    decisive: bool,
}

/// Findings gathered by rule, in their order.
fn by_rule(findings: &[ProcedureFinding], wanted: fn(Severity) -> bool) -> Vec<BrokenRule<'_>> {
    let mut broken: Vec<BrokenRule<'_>> = Vec::new();
    for finding in findings.iter().filter(|finding| wanted(finding.severity)) {
        match broken.iter_mut().find(|rule| rule.first.rule == finding.rule) {
            Some(rule) => {
                rule.count += 1;
                rule.decisive |= finding.decisive;
            }
            None => {
                broken.push(BrokenRule { first: finding, count: 1, decisive: finding.decisive })
            }
        }
    }
    broken
}

/// The part, with a sentence for each broken rule.
fn score(loss: f64, broken: &[BrokenRule<'_>]) -> PartScore {
    let reasons = broken
        .iter()
        .map(|rule| {
            let more = rule.count - 1;
            let rest = if more > 0 { format!(" (and {more} more)") } else { String::new() };
            format!("{}: {}{rest}", rule.first.title, rule.first.evidence)
        })
        .collect();
    PartScore::earned((1.0 - loss).clamp(0.0, 1.0), reasons)
}
