//! Every rule of the work in a real session: a journal that breaks it and nothing else, and one that
//! keeps it where a stricter rule would not.
//!
//! Each case is what the careful operator does on one bench, changed in one place. The session is had
//! on that bench, and its journal is replayed before it is judged.

use sim_core::procedure::{ProcedureFinding, RULES, WorkPhase, rule};

use script::Script;
pub use script::point;

mod clerk;
mod decisions;
mod deeds;
mod readings;
mod reports;
mod script;
mod stopping;
mod table_a_b;
mod table_added;
mod table_c_d;
mod table_check;
mod table_e;
mod table_f;
mod table_g_h;
mod table_history;
mod table_i;
mod table_instruments;
mod table_k_l;
mod table_next_run;

/// A rule, the slip that breaks it, and something close to that slip which does not.
struct Case {
    /// The rule's id.
    rule: &'static str,
    /// The slip.
    breaks: fn(&mut Script),
    /// No slip.
    keeps: fn(&mut Script),
    /// Other rules that the slip cannot but break as well, and why.
    drags: &'static [(&'static str, &'static str)],
}

fn cases() -> impl Iterator<Item = &'static Case> {
    let line = [table_a_b::CASES, table_c_d::CASES, table_e::CASES, table_f::CASES];
    let after = [table_g_h::CASES, table_check::CASES, table_i::CASES, table_k_l::CASES];
    let more = [table_next_run::CASES, table_history::CASES, table_added::CASES];
    let others = [table_instruments::CASES];
    line.into_iter().chain(after).chain(more).chain(others).flatten()
}

/// What is found when the careful session is changed.
fn found(case: &Case, change: fn(&mut Script), wrong: &mut Vec<String>) -> Vec<ProcedureFinding> {
    let mut script = match rule(case.rule).map(|rule| rule.phase) {
        _ if case.rule.starts_with("next-") => Script::careful_next(),
        _ if case.rule.starts_with("history-") => Script::careful_history(),
        _ if case.rule.starts_with("added-filters-") => Script::careful_added(),
        _ if case.rule.starts_with("plate-") => Script::careful_plates(),
        _ if case.rule.starts_with("display-") => Script::careful_display(),
        _ if case.rule == "check-trimmed" => Script::careful_controlled(),
        Some(WorkPhase::Check) => Script::careful_check(),
        Some(phase) if phase >= WorkPhase::Load => Script::careful_run(),
        _ => Script::careful(),
    };
    change(&mut script);
    let played = script.play();
    if !played.refused.is_empty() {
        wrong.push(format!("{}: refused {:?}", case.rule, played.refused));
    }
    played.findings
}

/// Rules, and what shows each of them.
fn told(found: &[ProcedureFinding]) -> String {
    let told = found.iter().map(|finding| format!("{} ({})", finding.rule, finding.evidence));
    told.collect::<Vec<_>>().join(", ")
}

#[test]
fn the_careful_session_breaks_no_rule() {
    let run = [Script::careful_run(), Script::careful_next(), Script::careful_added()];
    let check = [Script::careful_check(), Script::careful_history(), Script::careful_controlled()];
    let others = [Script::careful_plates(), Script::careful_display()];
    let line = [Script::careful()];
    for script in line.into_iter().chain(check).chain(others).chain(run) {
        let played = script.play();
        assert_eq!(played.refused, [""; 0]);
        assert!(played.findings.is_empty(), "{:#?}", played.findings);
    }
}

#[test]
fn each_rule_is_broken_alone_and_once() {
    let mut wrong = Vec::new();
    for case in cases() {
        let found = found(case, case.breaks, &mut wrong);
        let mut expected: Vec<&str> = case.drags.iter().map(|(rule, _)| *rule).collect();
        expected.push(case.rule);
        expected.sort_unstable();
        let mut broken: Vec<&str> = found.iter().map(|finding| finding.rule).collect();
        broken.sort_unstable();
        if broken != expected {
            wrong.push(format!("{}: expected {expected:?}, found {}", case.rule, told(&found)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn each_rule_is_kept_by_what_comes_close_to_breaking_it() {
    let mut wrong = Vec::new();
    for case in cases() {
        let found = found(case, case.keeps, &mut wrong);
        if !found.is_empty() {
            wrong.push(format!("{}: found {}", case.rule, told(&found)));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_rule_is_in_the_table() {
    let rules: Vec<&str> = RULES.iter().map(|rule| rule.id).collect();
    let mut table: Vec<&str> = cases().map(|case| case.rule).collect();
    table.sort_unstable();
    let mut sorted = rules.clone();
    sorted.sort_unstable();
    assert_eq!(table, sorted, "each rule once, and no other");
    for (rule, why) in cases().flat_map(|case| case.drags) {
        assert!(rules.contains(rule) && why.len() > 20, "{rule}: {why}");
    }
}
