//! Rules on the flow check.

use super::{ScenarioFindings, ScenarioRule};
use crate::scenario::Scenario;
use crate::scenario::flow_check::{CheckedLine, FlowOfRun};

/// The check can be made.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "check-possible",
    about: "A flow check has 1 to 12 readings and a limit of 1 to 20 percent, and the last good check \
            is before the day of the session. When the last calibration line is checked, it is on the \
            work order and no run follows, as none does where the sampler is calibrated at its \
            controlled flow alone. The flow of a run is taken from a check only when there is a run.",
    find: possible,
};

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(check) = scenario.flow_check else { return };
    if !(1..=12).contains(&check.readings) {
        findings.add(
            "flow_check.readings",
            format!("a flow check cannot have {} readings", check.readings),
            "order 1 to 12; 3 to 8 are usual",
        );
    }
    if !(1.0..=20.0).contains(&check.within_pct) {
        findings.add(
            "flow_check.within_pct",
            format!("a limit of {} percent makes no sense", check.within_pct),
            "write 1 to 20; 5 to 10 are usual",
        );
    }
    let last = check.line == CheckedLine::Last;
    if last && scenario.work_order.last_line.is_none() {
        findings.add(
            "flow_check.line",
            "there is no last calibration line to check",
            "give `last_line` in `work_order`",
        );
    }
    if last && scenario.run.is_some() {
        findings.add(
            "flow_check.line",
            "a check of the last calibration line cannot be followed by a run",
            "remove the section `run`, or check the trainee's line with `line: Own`",
        );
    }
    if check.line == CheckedLine::ControlledFlow && scenario.run.is_some() {
        findings.add(
            "flow_check.line",
            "a calibration at the controlled flow alone cannot be followed by a run",
            "remove the section `run`, or let the trainee make a line with `line: Own`",
        );
    }
    if check.flow_of_run == FlowOfRun::Check && scenario.run.is_none() {
        findings.add(
            "flow_check.flow_of_run",
            "there is no run whose flow could be taken from the check",
            "leave it out, or add a section `run`",
        );
    }
    if check.last_good.is_some_and(|date| date.days_since(scenario.station.date) >= 0) {
        findings.add(
            "flow_check.last_good",
            "the last good check is not before the day of the session",
            "give an earlier date",
        );
    }
}
