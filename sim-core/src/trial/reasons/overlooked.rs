//! Why a fault was overlooked, or never came about, told with one session.

use super::altered::{Alteration, Altered, with_fault_from_the_start, with_larger_fault};
use super::moment::Told;
use super::sitting::Sitting;
use crate::fault::Fault;
use crate::operator::Thought;
use crate::procedure::knowable::first_shown;
use crate::scenario::Scenario;
use crate::time::Tick;

/// The moment, and what to change; nothing if there is no such fault.
pub(super) fn told(
    scenario: &Scenario,
    index: usize,
    operator: &str,
    sat: &Sitting,
) -> Option<Told> {
    let entry = scenario.faults.get(index)?;
    match sat.judged(scenario, index) {
        Some(_) => Some(overlooked(scenario, index, &entry.fault, operator, sat)),
        None => Some(never_began(scenario, index, &entry.fault, operator, sat)),
    }
}

/// The fault was in force.
fn overlooked(
    scenario: &Scenario,
    index: usize,
    fault: &Fault,
    operator: &str,
    sat: &Sitting,
) -> Told {
    let evidence = sat.ended.evidence();
    let sign = first_shown(&evidence, fault);
    let what = match sign {
        Some(sign) => format!(
            "a sharp eye could tell it from {} on, and it was not noticed",
            sat.time(sign.tick)
        ),
        None => "nobody on the roof could tell it from a sound rig".to_owned(),
    };
    let plainer = with_larger_fault(scenario, index)
        .into_iter()
        .chain(with_fault_from_the_start(scenario, index));
    let noticed = plainer.into_iter().find_map(|altered| {
        let again = Sitting::of(&altered.scenario, operator, sat.seed)?;
        let judged = again.judged(&altered.scenario, index)?;
        let reported = judged.reported;
        judged.verdict.is_noticed().then_some((altered, again, reported))
    });
    let end = sat.ended.end_tick;
    let (change, seen) = match noticed {
        Some((altered, again, reported)) => {
            let seen = reported.and_then(|at| same_thought(&again, fault, at, sat));
            (altered.told(format!("`{operator}` notices it then, with this seed")), seen)
        }
        None => (nothing_found(scenario, index, operator), None),
    };
    let tick = seen.map(|(tick, _)| tick).or(sign.map(|sign| sign.tick)).unwrap_or(end);
    let saw = seen.map(|(_, thought)| thought.text.clone());
    Told { tick, about: fault.name().to_owned(), what, saw, change }
}

/// What was thought in this session where, in another one, the fault was then reported: the check was
/// the same, but it showed too little.
fn same_thought<'a>(
    again: &Sitting,
    fault: &Fault,
    reported: Tick,
    sat: &'a Sitting,
) -> Option<(Tick, &'a Thought)> {
    let report = format!("Reports at the {}", fault.place().words());
    let is_report =
        |(tick, thought): &(Tick, Thought)| *tick <= reported && thought.text.starts_with(&report);
    let index = again.thoughts.iter().rposition(is_report)?;
    let (at, led) = again.thoughts.get(index.checked_sub(1)?)?;
    let begins = led.text.split(|c: char| c.is_ascii_digit()).next()?;
    let same = sat.thoughts.iter().filter(|(_, thought)| {
        thought.phase == led.phase && !begins.is_empty() && thought.text.starts_with(begins)
    });
    same.min_by_key(|(tick, _)| tick.0.abs_diff(at.0)).map(|(tick, thought)| (*tick, thought))
}

/// The fault never came about.
fn never_began(
    scenario: &Scenario,
    index: usize,
    fault: &Fault,
    operator: &str,
    sat: &Sitting,
) -> Told {
    let end = sat.ended.end_tick;
    let what = format!(
        "it had not begun when the session ended after {:.0} min on the bench",
        end.seconds() / 60.0
    );
    let in_force = |altered: &Altered| {
        Sitting::of(&altered.scenario, operator, sat.seed)
            .is_some_and(|again| again.judged(&altered.scenario, index).is_some())
    };
    let change = with_fault_from_the_start(scenario, index)
        .filter(in_force)
        .map(|altered| altered.told("the fault is then in force in the session of this seed"))
        .unwrap_or_else(|| nothing_found(scenario, index, operator));
    Told { tick: end, about: fault.name().to_owned(), what, saw: None, change }
}

fn nothing_found(scenario: &Scenario, index: usize, operator: &str) -> Alteration {
    let entry = scenario.faults.get(index);
    Alteration {
        parameter: format!("faults[{index}]"),
        from: entry.and_then(|entry| ron::to_string(entry).ok()).unwrap_or_default(),
        to: None,
        effect: format!(
            "at no size, and not from the start either, does `{operator}` notice it: take it out"
        ),
    }
}
