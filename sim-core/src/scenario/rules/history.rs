//! Rules on the history of the sampler.

use super::{ScenarioFindings, ScenarioRule};
use crate::control_chart::BASE_CHECKS;
use crate::scenario::Scenario;
use crate::scenario::flow_check::CheckedLine;
use crate::scenario::history::{HistoryEntry, MOST_CHECKS, VisitEntry};
use crate::time::Date;

/// Most visits that are written out.
const MOST_VISITS: usize = 100;

/// The history can be put on a control chart.
pub(super) const CHART: ScenarioRule = ScenarioRule {
    id: "history-chart",
    about: "A history belongs to a flow check of the last calibration line. It has at most 100 visits, \
            all before the day of the session, and 12 to 60 flow checks in all: either written out or \
            drawn, 5 to 92 days apart. A difference that is written out is within ±15 percent, and a \
            line within the range of `last_line`.",
    find: chart,
};

/// What happens to the sampler can be seen on the chart.
pub(super) const CHANGE: ScenarioRule = ScenarioRule {
    id: "history-change",
    about: "A drift has `drift_from` and `drift_pct_month`, a jump has `jump_on` and `jump_pct`. Either \
            begins after the twelfth flow check and not before the last calibration, and before the day \
            of the session; the slope of `last_line` is then left out, because the line that no longer \
            fits follows from the rig.",
    find: change,
};

/// The flow checks of a history, drawn and written out.
fn checks(history: &HistoryEntry, today: Date) -> Vec<Date> {
    let drawn = history.checks.map(|checks| checks.dates(today)).unwrap_or_default();
    let written = history.visits.iter().filter_map(|visit| match visit {
        VisitEntry::FlowCheck { date, .. } => Some(*date),
        _ => None,
    });
    let mut dates: Vec<Date> = drawn.into_iter().chain(written).collect();
    dates.sort_unstable();
    dates
}

fn chart(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(history) = &scenario.history else { return };
    let today = scenario.station.date;
    if scenario.flow_check.is_none_or(|check| check.line != CheckedLine::Last) {
        findings.add(
            "history",
            "there is no flow check of the last line to be entered on the control chart",
            "order one, with `line: Last` in `flow_check`, or remove the history",
        );
    }
    if history.visits.len() > MOST_VISITS {
        findings.add(
            "history.visits",
            format!("{} visits are listed", history.visits.len()),
            format!("list at most {MOST_VISITS}"),
        );
        return;
    }
    visits(history, today, findings);
    series(history, findings);
    let count = checks(history, today).len();
    if !(BASE_CHECKS..=MOST_CHECKS).contains(&count) {
        findings.add(
            "history",
            format!("there are {count} flow checks before the day of the session"),
            format!("give {BASE_CHECKS} to {MOST_CHECKS}: the first {BASE_CHECKS} give the limits"),
        );
    }
}

/// Whether each visit is one of the past, with numbers that could be real.
fn visits(history: &HistoryEntry, today: Date, findings: &mut ScenarioFindings<'_>) {
    let mut outside = |path: String, value: f64, low: f64, high: f64| {
        if !(low..=high).contains(&value) {
            findings.add(
                path,
                format!("{value} is outside {low} to {high}"),
                "write a value in this range",
            );
        }
    };
    for (index, visit) in history.visits.iter().enumerate() {
        let path = |field: &str| format!("history.visits[{index}].{field}");
        match visit {
            VisitEntry::FlowCheck { difference_pct, .. } => {
                outside(path("difference_pct"), *difference_pct, -15.0, 15.0);
            }
            VisitEntry::Calibration { slope, intercept, .. } => {
                outside(path("slope"), slope.unwrap_or(30.0), 10.0, 80.0);
                outside(path("intercept"), intercept.unwrap_or(0.0), -30.0, 30.0);
            }
            VisitEntry::Repair { .. } | VisitEntry::Note { .. } => {}
        }
    }
    for (index, visit) in history.visits.iter().enumerate() {
        if visit.date() >= today {
            findings.add(
                format!("history.visits[{index}].date"),
                "this visit is not before the day of the session",
                "give an earlier date",
            );
        }
    }
}

fn series(history: &HistoryEntry, findings: &mut ScenarioFindings<'_>) {
    let Some(checks) = history.checks else { return };
    if !(5..=92).contains(&checks.every_days) {
        findings.add(
            "history.checks.every_days",
            format!("a flow check every {} days makes no sense", checks.every_days),
            "write 5 to 92; 28 to 31 are usual",
        );
    }
    let written = |visit: &VisitEntry| matches!(visit, VisitEntry::FlowCheck { .. });
    if let Some(index) = history.visits.iter().position(written) {
        findings.add(
            format!("history.visits[{index}]"),
            "this flow check is written out, and others are drawn",
            "write all of them, or leave this one out",
        );
    }
}

fn change(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(history) = &scenario.history else { return };
    let (today, last) = (scenario.station.date, scenario.work_order.last_line.as_ref());
    let base_end = checks(history, today).get(BASE_CHECKS - 1).copied();
    for (date_field, date, size_field, size) in [
        ("drift_from", history.drift_from, "drift_pct_month", history.sizes.drift_pct_month),
        ("jump_on", history.jump_on, "jump_pct", history.sizes.jump_pct),
    ] {
        let path = format!("history.{date_field}");
        match (date, size) {
            (None, None) => {}
            (Some(_), None) => findings.add(
                path,
                format!("there is no `{size_field}` to it"),
                format!("give `{size_field}` in `history.sizes`"),
            ),
            (None, Some(_)) => findings.add(
                format!("history.sizes.{size_field}"),
                format!("there is no `{date_field}` to it"),
                format!("give `{date_field}` in `history`"),
            ),
            (Some(date), Some(_)) => {
                let early = base_end.is_some_and(|end| date <= end)
                    || last.is_some_and(|last| date <= last.date);
                if early || date >= today {
                    findings.add(
                        path,
                        "this is not between the base period or the last calibration and today",
                        "give a date after the twelfth flow check and after the last calibration, and \
                         before the day of the session",
                    );
                }
                if last.is_some_and(|last| last.slope.is_some()) {
                    findings.add(
                        "work_order.last_line.slope",
                        "this slope does not follow what happens to the sampler",
                        "leave it out: it then follows from the rig",
                    );
                }
            }
        }
    }
}
