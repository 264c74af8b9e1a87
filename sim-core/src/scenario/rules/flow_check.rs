//! Rules on the check of the flow.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::flow_check::{CheckedLine, FlowOfRun};

/// The check can be made.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "check-possible",
    about: "A check of the flow has 1 to 12 readings and a limit of 1 to 20 percent. The check of the \
            last line has that line on the work order and no run after it, and its last good check \
            lies before the day of the session; the flow of a run is taken from a check of the own line.",
    find: possible,
};

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(check) = scenario.flow_check else { return };
    if !(1..=12).contains(&check.readings) {
        findings.add(
            "flow_check.readings",
            format!("{} readings cannot be written", check.readings),
            "ask for 1 to 12; 3 to 8 are usual",
        );
    }
    if !(1.0..=20.0).contains(&check.within_pct) {
        findings.add(
            "flow_check.within_pct",
            format!("a limit of {} percent checks nothing", check.within_pct),
            "write 1 to 20; 5 to 10 are usual",
        );
    }
    let last = check.line == CheckedLine::Last;
    if last && scenario.work_order.last_line.is_none() {
        findings.add(
            "flow_check.line",
            "there is no last line",
            "give `last_line` in `work_order`",
        );
    }
    if last && scenario.run.is_some() {
        findings.add(
            "flow_check.line",
            "no run follows on the check of a last line",
            "take the section `run` out, or check the own line",
        );
    }
    if check.flow_of_run == FlowOfRun::Check && scenario.run.is_none() {
        findings.add("flow_check.flow_of_run", "there is no run", "leave it out, or add a run");
    }
    if check.last_good.is_some_and(|date| date.days_since(scenario.station.date) >= 0) {
        findings.add(
            "flow_check.last_good",
            "the last good check is not before the day of the session",
            "date it earlier",
        );
    }
}
