//! The rule on when faults begin.

use super::{ScenarioFindings, ScenarioRule};
use crate::fault::{Arises, Event, Fault, Onset};
use crate::scenario::{FaultEntry, Scenario};

/// Onsets are possible.
pub(super) const POSSIBLE: ScenarioRule = ScenarioRule {
    id: "fault-onset-possible",
    about: "What cannot come about while the work goes on (a missing gasket, a wrong fluid, \
            anything printed on paper) begins at the start, what the work itself undoes (a loose nut) \
            later; only what can go again comes and goes; \
            an event that a fault begins with happens before the last point is written, and early \
            enough for the fault to show; nothing begins when the time is over, nor, where there is \
            neither limit nor run, more than two hours after the session.",
    find: possible,
};

/// Calibrating takes less than this, min (CHOSEN: with a minute for every reading it takes about one
/// hour). Who takes longer may still be there, but a fault that only they meet tests nobody.
const WORK_MIN: f64 = 120.0;

fn possible(scenario: &Scenario, findings: &mut ScenarioFindings<'_>) {
    for (index, entry) in scenario.faults.iter().enumerate() {
        if let Some((what, mend)) = flaw(entry, scenario) {
            findings.add(format!("faults[{index}].onset"), what, mend);
        }
    }
}

/// What is wrong with the onset of a fault, and how to mend it.
fn flaw(entry: &FaultEntry, scenario: &Scenario) -> Option<(String, String)> {
    let name = entry.fault.name();
    let arises = entry.fault.arises();
    let flaw = |what: String, mend: &str| Some((what, mend.to_owned()));
    if arises == Arises::FromTheStart && entry.onset != Onset::Start {
        return flaw(
            format!("{name} cannot come about while the work goes on"),
            "write `onset: Start`, or leave the onset out",
        );
    }
    if arises == Arises::DuringWork && entry.onset == Onset::Start {
        return flaw(
            format!("{name} is undone by the work itself when it is there on arrival"),
            "let it begin later, such as `AfterRunningMinutes(6)`",
        );
    }
    match entry.onset {
        Onset::Intermittent { .. } if arises != Arises::ComesAndGoes => flaw(
            format!("{name} does not go again by itself"),
            "let it begin once: `Start`, `AfterMinutes(m)`, `AfterRunningMinutes(m)`, `AtEvent(e)`",
        ),
        Onset::AtEvent(event) => event_flaw(event, &entry.fault, scenario),
        Onset::AfterMinutes(minutes) | Onset::AfterRunningMinutes(minutes) => {
            // A number out of its range has been told already.
            let told = !(0.0..=480.0).contains(&minutes);
            match scenario.terms.time_limit_min {
                _ if told => None,
                Some(limit) if minutes >= limit => flaw(
                    format!(
                        "{name} begins after {minutes} min, and the time is over at {limit} min"
                    ),
                    "let it begin earlier, or give more time",
                ),
                // A run keeps the session going for days.
                None if minutes > WORK_MIN && scenario.run.is_none() => flaw(
                    format!("{name} begins after {minutes} min, when the work is usually done"),
                    "let it begin within two hours",
                ),
                _ => None,
            }
        }
        Onset::Start | Onset::AfterRunHours(_) | Onset::Intermittent { .. } => None,
    }
}

/// What is wrong with an event that a fault begins with.
fn event_flaw(event: Event, fault: &Fault, scenario: &Scenario) -> Option<(String, String)> {
    let (name, points) = (fault.name(), scenario.work_order.points);
    let last = points.saturating_sub(1);
    match event {
        Event::PointWritten(number) | Event::KnobTurned(number)
            if !(1..=last).contains(&number) =>
        {
            Some((
                format!("{number} is not from 1 to {last}: {points} points are ordered"),
                "let it begin when at least one point is still to be read".to_owned(),
            ))
        }
        // A hook works on what is hung on it, not on what hangs.
        _ if matches!(fault, Fault::ManometerOutOfPlumb { .. }) => Some((
            format!("{name} is settled when the manometer is hung, and may begin too late to show"),
            "let it begin at the start".to_owned(),
        )),
        _ => None,
    }
}
