//! The rule on when faults begin.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::{Arises, Event, Fault, Onset};
use crate::scenario::{FaultEntry, Scenario};

/// Every onset is possible.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "fault-onset-possible",
    about: "A fault that cannot arise during the work (a missing gasket, a wrong fluid, anything \
            printed on paper) is there from the start; a fault that the work itself would undo (a \
            loose nut) begins later. Only a fault that can disappear by itself comes and goes. An \
            event that starts a fault happens before the last point is written, and early enough for \
            the fault to show. No fault begins after the time limit or, without a limit or a run, \
            more than two hours after the start of the session.",
    find: possible,
};

/// Calibrating takes less than this, min (CHOSEN: with a minute for every reading it takes about one
/// hour). Some trainees may take longer, but a fault that begins later would not test the others.
const WORK_MIN: f64 = 120.0;

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, entry) in scenario.faults.iter().enumerate() {
        if let Some((what, mend)) = flaw(entry, scenario) {
            findings.add(format!("faults[{index}].onset"), what, mend);
        }
    }
}

/// What is wrong with the onset of a fault, and how to fix it.
fn flaw(entry: &FaultEntry, scenario: &Scenario) -> Option<(String, String)> {
    let name = entry.fault.name();
    let arises = entry.fault.arises();
    let flaw = |what: String, mend: &str| Some((what, mend.to_owned()));
    if arises == Arises::FromTheStart && entry.onset != Onset::Start {
        return flaw(
            format!("{name} cannot arise during the work"),
            "write `onset: Start`, or leave the onset out",
        );
    }
    if arises == Arises::DuringWork && entry.onset == Onset::Start {
        return flaw(
            format!("the work itself would undo {name} if it were there from the start"),
            "let it begin later, for example `AfterRunningMinutes(6)`",
        );
    }
    match entry.onset {
        Onset::Intermittent { .. } if arises != Arises::ComesAndGoes => flaw(
            format!("{name} does not disappear by itself"),
            "let it begin once: `Start`, `AfterMinutes(m)`, `AfterRunningMinutes(m)`, `AtEvent(e)`",
        ),
        Onset::AtEvent(event) => event_flaw(event, &entry.fault, scenario),
        Onset::AfterMinutes(minutes) | Onset::AfterRunningMinutes(minutes) => {
            // A number out of its range has already been reported.
            let told = !(0.0..=480.0).contains(&minutes);
            match scenario.terms.time_limit_min {
                _ if told => None,
                Some(limit) if minutes >= limit => flaw(
                    format!("{name} begins after {minutes} min, but the time limit is {limit} min"),
                    "let it begin earlier, or raise the time limit",
                ),
                // A run keeps the session going for days.
                None if minutes > WORK_MIN && scenario.run.is_none() => flaw(
                    format!("{name} begins after {minutes} min, when the work is usually finished"),
                    "let it begin within two hours",
                ),
                _ => None,
            }
        }
        Onset::Start | Onset::AfterRunHours(_) | Onset::Intermittent { .. } => None,
    }
}

/// What is wrong with an event that starts a fault.
fn event_flaw(event: Event, fault: &Fault, scenario: &Scenario) -> Option<(String, String)> {
    let (name, points) = (fault.name(), scenario.work_order.points);
    let last = points.saturating_sub(1);
    match event {
        Event::PointWritten(number) | Event::KnobTurned(number) | Event::PlatePutIn(number)
            if !(1..=last).contains(&number) =>
        {
            Some((
                format!("{number} is not between 1 and {last}: {points} points are ordered"),
                "let it begin while at least one point is still to be read".to_owned(),
            ))
        }
        // The hook decides the tilt at the moment when the manometer is hung on it.
        _ if matches!(fault, Fault::ManometerOutOfPlumb { .. }) => Some((
            format!("{name} takes effect when the manometer is hung, so it may begin too late"),
            "let it begin at the start".to_owned(),
        )),
        _ => None,
    }
}
