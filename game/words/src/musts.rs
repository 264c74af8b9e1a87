//! The mandatory steps of a visit: the rules whose breach fails a session whatever the marks are, told
//! before the work. Only those that the order asks for, and none that the trainer switched off.

use std::fmt::Write;

use content::names::phase_name;
use sim_core::procedure::lesson::has_rule;
use sim_core::procedure::{Decides, ProcedureRule, RULES, Severity, WorkPhase, fits_instruments};
use sim_core::scenario::setup::WorkOrder;
use sim_core::session::SitePapers;

use crate::prose::capital;

/// Whether a session can fail by this rule alone.
pub(crate) const fn is_must(rule: &ProcedureRule) -> bool {
    matches!(rule.severity, Severity::Critical) || !matches!(rule.decides, Decides::Never)
}

/// Below this mean temperature of the run, degrees Celsius, a roof may have frost.
const COLD_C: f64 = 5.0;

/// Whether an order asks for what a rule is about.
fn is_ordered(rule: &ProcedureRule, order: &WorkOrder) -> bool {
    let of_a_line = matches!(rule.phase, WorkPhase::Points | WorkPhase::Sums | WorkPhase::SetPoint);
    let of_every_visit = matches!(rule.id, "false-alarms" | "book-signed" | "record-judgeable");
    let only_for_a_line = of_a_line && !of_every_visit || rule.id == "motor-on-line";
    match rule.phase {
        WorkPhase::Check if rule.id.starts_with("history-") => order.history.is_some(),
        WorkPhase::Check if rule.id == "check-trimmed" => order.at_controlled_flow().is_some(),
        WorkPhase::Check => order.flow_check.is_some(),
        WorkPhase::Load if rule.id.starts_with("added-filters-") => order.added_filters().is_some(),
        WorkPhase::Load | WorkPhase::Recover | WorkPhase::Volume => {
            order.run.is_some() && (!rule.id.starts_with("next-") || order.next_run().is_some())
        }
        _ if rule.id == "design-flow" => order.target_flow_actual_m3_min.is_some(),
        // Nobody is told to beware of ice in summer.
        _ if rule.id == "manometer-liquid" => order.run_temperature_c < COLD_C,
        _ => !(only_for_a_line && order.is_check_alone()),
    }
}

/// The mandatory steps of an order, in the order of the work.
pub fn musts<'a>(papers: &'a SitePapers<'_>) -> impl Iterator<Item = &'static ProcedureRule> + 'a {
    let off = &papers.terms.rules_off;
    RULES
        .iter()
        .copied()
        .filter(|rule| is_must(rule))
        .filter(move |rule| !off.iter().any(|id| id == rule.id))
        .filter(|rule| papers.terms.phases.is_none_or(|phases| has_rule(phases, rule)))
        .filter(|rule| is_ordered(rule, papers.work_order))
        .filter(|rule| fits_instruments(rule, papers.work_order))
}

/// What a mandatory step asks for, and whether a single slip is forgiven.
fn asks(rule: &ProcedureRule) -> String {
    match rule.decides {
        Decides::AsHabit => format!("{} (at more than half of the points)", rule.title),
        Decides::Never | Decides::Always => rule.title.to_owned(),
    }
}

/// Beneath the work order: the mandatory steps, phase by phase.
pub(crate) fn beneath_order(papers: &SitePapers) -> String {
    let mut text = "The mandatory steps of this visit (`help musts` says why):".to_owned();
    let mut phase = None;
    for rule in musts(papers) {
        // Writing into a String cannot fail.
        let _ = if phase == Some(rule.phase) {
            write!(text, "; {}", asks(rule))
        } else {
            write!(text, "\n  {}: {}", capital(phase_name(rule.phase)), asks(rule))
        };
        phase = Some(rule.phase);
    }
    text
}

/// The mandatory steps with their reasons. Where no order is at hand, those of every order.
pub(crate) fn explained(papers: Option<&SitePapers>) -> String {
    let every = || RULES.iter().copied().filter(|rule| is_must(rule)).collect::<Vec<_>>();
    let rules = papers.map_or_else(every, |papers| musts(papers).collect());
    let mut text =
        "The mandatory steps: if one of them is missed, the session is not passed, whatever \
                    the marks are.\n"
            .to_owned();
    let mut phase = None;
    for rule in rules {
        if phase != Some(rule.phase) {
            let _ = writeln!(text, "{}", capital(phase_name(rule.phase)));
        }
        let _ = writeln!(text, "  {}\n      {}", asks(rule), rule.why);
        phase = Some(rule.phase);
    }
    text.truncate(text.trim_end().len());
    text
}

#[cfg(test)]
mod tests {
    use std::path::{Path, PathBuf};

    use sessions::open_session;

    use super::*;

    fn scenarios() -> Vec<PathBuf> {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../scenarios");
        let entries = std::fs::read_dir(folder).expect("a folder");
        let mut found: Vec<PathBuf> = entries
            .map(|entry| entry.expect("an entry").path())
            .filter(|path| path.extension().is_some_and(|ending| ending == "ron"))
            .collect();
        found.sort();
        found
    }

    /// Whether a rule is about work that a scenario does not order.
    fn is_elsewhere(rule: &ProcedureRule, order: &WorkOrder) -> bool {
        let run = ["filter-", "run-", "timer-in", "pen-ready", "validity-"];
        let of = |names: &[&str]| names.iter().any(|name| rule.id.starts_with(name));
        !fits_instruments(rule, order)
            || (order.run.is_none() && of(&run))
            || (order.next_run().is_none() && of(&["next-"]))
            || (order.added_filters().is_none() && of(&["added-filters-"]))
            || (order.run_temperature_c >= 5.0 && of(&["manometer-liquid"]))
            || (order.flow_check.is_none() && of(&["check-"]))
            || (order.history.is_none() && of(&["history-"]))
            || (order.at_controlled_flow().is_none() && of(&["check-trimmed"]))
            || (order.target_flow_actual_m3_min.is_none() && of(&["design-flow"]))
            || (order.is_check_alone()
                && matches!(
                    rule.phase,
                    WorkPhase::Points | WorkPhase::Sums | WorkPhase::SetPoint | WorkPhase::Power
                )
                && !of(&[
                    "false-alarms",
                    "book-signed",
                    "record-judgeable",
                    "warm-up",
                    "leak-check",
                ]))
    }

    #[test]
    fn every_must_of_every_scenario_is_told() {
        let scenarios = scenarios();
        assert!(scenarios.len() > 30);
        for path in scenarios {
            let name = path.display().to_string();
            let opened = open_session(Some(path), 1, None, None).expect("a session");
            let papers = opened.session.papers();
            let (beneath, why) = (beneath_order(&papers), explained(Some(&papers)));
            let mut told = 0;
            for rule in RULES.iter().filter(|rule| is_must(rule)) {
                let off = papers.terms.rules_off.iter().any(|id| id == rule.id);
                if off || is_elsewhere(rule, papers.work_order) {
                    continue;
                }
                told += 1;
                assert!(beneath.contains(rule.title), "{name}: {} is not told", rule.id);
                assert!(why.contains(rule.why), "{name}: {} is not explained", rule.id);
            }
            assert_eq!(musts(&papers).count(), told, "{name}: something is told that is no must");
            assert!(told > 10, "{name}");
        }
    }
}
