//! Rules on the unattended run.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::Onset;
use crate::rig::flow::added_filters::MOST_ADDED;
use crate::scenario::Scenario;
use crate::scenario::flow_check::CheckedLine;
use crate::scenario::run::ScheduledTime;
use crate::time::Tick;

/// The run is possible.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "run-possible",
    about: "The times `on`, `off` and `back` of a run follow each other within a week. A run lasts 1 \
            to 48 hours, begins at least 3 hours after the start of the session, and has one to three \
            filters (four when a next run is ordered), each with a number and a mass of 1 to 10 g. A \
            scenario with a run has no time limit.",
    find: possible,
};

/// The least time that calibration and loading take, h.
const WORK_H: f64 = 3.0;

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(run) = &scenario.run else { return };
    let start = scenario.station.start;
    let hours = |tick: Option<Tick>| tick.map_or(-1.0, |tick| tick.seconds() / 3600.0);
    let (on, off, back) =
        (hours(run.on.tick(start)), hours(run.off.tick(start)), hours(run.back.tick(start)));
    if on < WORK_H {
        findings.add(
            "run.on",
            "the run begins before calibration and loading can be finished",
            "let it begin at least 3 hours after the start of the session, for example at midnight",
        );
    } else if !(1.0..=48.0).contains(&(off - on)) {
        findings.add(
            "run.off",
            "the run does not last 1 to 48 hours",
            "change `on` or `off`; 24 hours is usual",
        );
    } else if back < off {
        findings.add(
            "run.back",
            "the trainee returns before the run is over",
            "let the trainee return later",
        );
    }
    for (path, moment) in [("run.on", run.on), ("run.off", run.off), ("run.back", run.back)] {
        if moment.day > 6 {
            findings.add(path, format!("day {} is too far ahead", moment.day), "write 0 to 6");
        }
    }
    let (most, in_words) = if run.next.is_some() { (4, "four") } else { (3, "three") };
    if !(1..=most).contains(&run.filters.len()) {
        findings.add(
            "run.filters",
            format!("the folder contains no filter, or more than {in_words}"),
            format!("list 1 to {most} filters"),
        );
    }
    for (index, filter) in run.filters.iter().enumerate() {
        let path = format!("run.filters[{index}]");
        if !(1.0..=10.0).contains(&filter.mass_g) {
            findings.add(
                format!("{path}.mass_g"),
                format!("mass_g {} is outside 1 to 10", filter.mass_g),
                "write the mass of the clean filter in g; about 4 g is usual",
            );
        }
        let legible = |c: char| c.is_ascii_uppercase() || c.is_ascii_digit() || c == '-';
        if !(2..=20).contains(&filter.number.len()) || !filter.number.chars().all(legible) {
            findings.add(
                format!("{path}.number"),
                "the number of this filter is not easy to copy by hand",
                "use 2 to 20 capital letters, digits and hyphens",
            );
        }
    }
    if scenario.terms.time_limit_min.is_some() {
        findings.add(
            "terms.time_limit_min",
            "a session with a run cannot have a time limit",
            "leave the time limit out",
        );
    }
}

/// The sampler can be set up for the next run.
pub(super) const NEXT: ScenarioRule = ScenarioRule {
    id: "next-run-possible",
    about: "The next run begins at least an hour after the return, lasts 1 to 48 hours, and ends \
            within the week like the run. The folder contains a filter for each run, and one more if \
            the trainee's calibration line is checked.",
    find: next,
};

/// The least time that it takes to recover the sample and set up the next run, h (CHOSEN: half an
/// hour, and as much in reserve).
const ARMING_H: f64 = 1.0;

fn next(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some((run, next)) = scenario.run.as_ref().and_then(|run| Some((run, run.next?))) else {
        return;
    };
    let start = scenario.station.start;
    let hours =
        |moment: ScheduledTime| moment.tick(start).map_or(-1.0, |tick| tick.seconds() / 3600.0);
    let (back, on, off) = (hours(run.back), hours(next.on), hours(next.off));
    if on - back < ARMING_H {
        findings.add(
            "run.next.on",
            "the next run begins before the sampler can be set up for it",
            "let it begin at least an hour after `back`, for example at the following midnight",
        );
    } else if !(1.0..=48.0).contains(&(off - on)) {
        findings.add(
            "run.next.off",
            "the next run does not last 1 to 48 hours",
            "change `on` or `off`; 24 hours is usual",
        );
    }
    for (path, moment) in [("run.next.on", next.on), ("run.next.off", next.off)] {
        if moment.day > 6 {
            findings.add(path, format!("day {} is too far ahead", moment.day), "write 0 to 6");
        }
    }
    let checked = scenario.flow_check.is_some_and(|check| check.line == CheckedLine::Own);
    let needed = if checked { 3 } else { 2 };
    if (1..needed).contains(&run.filters.len()) {
        findings.add(
            "run.filters",
            format!(
                "the folder contains {} of the {needed} filters that are needed",
                run.filters.len()
            ),
            "list one for the run, one for the next run, and one for a check of the trainee's \
             calibration line",
        );
    }
}

/// The controller can be tested with added filters.
pub(super) const ADDED: ScenarioRule = ScenarioRule {
    id: "added-filters-possible",
    about: "One or two filters are added to test the flow controller, and the change of the flow that \
            counts as none is 1 to 10 percent.",
    find: added,
};

fn added(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    let Some(order) = scenario.run.as_ref().and_then(|run| run.added_filters) else { return };
    if !(1..=MOST_ADDED).contains(&order.sheets) {
        findings.add(
            "run.added_filters.sheets",
            format!("{} filters cannot be added to the first", order.sheets),
            "write 1 or 2",
        );
    }
    if !(1.0..=10.0).contains(&order.within_pct) {
        findings.add(
            "run.added_filters.within_pct",
            format!("a limit of {} percent makes no sense", order.within_pct),
            "write 1 to 10; 3 is usual",
        );
    }
}

/// Faults of the run occur only where there is a run.
pub(super) const FAULTS: ScenarioRule = ScenarioRule {
    id: "run-faults",
    about: "Faults of filter, timer and run, and onsets during the run, occur only in a scenario \
            with a run. A power cut and a dust event begin during the run.",
    find: faults,
};

fn faults(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, entry) in scenario.faults.iter().enumerate() {
        let (name, during) = (entry.fault.name(), matches!(entry.onset, Onset::AfterRunHours(_)));
        if scenario.run.is_none() && during && !entry.fault.belongs_to_run() {
            findings.add(
                format!("faults[{index}].onset"),
                format!("{name} would begin during a run, but there is none"),
                "choose another onset, for example `AfterMinutes(10)`, or add a section `run`",
            );
        } else if scenario.run.is_none() && entry.fault.belongs_to_run() {
            findings.add(
                format!("faults[{index}]"),
                format!("{name} has no effect, because there is no run"),
                "add a section `run`, or remove the fault",
            );
        } else if entry.fault.only_during_run() && !during {
            findings.add(
                format!("faults[{index}].onset"),
                format!("{name} can only begin during the run"),
                "write for example `onset: AfterRunHours(6)`",
            );
        }
    }
}
