//! Why the careful operator did not pass, told with one session.

use super::altered::{
    Alteration, Altered, with_fault_from_the_start, with_larger_fault, with_nothing_to_be_assessed,
    with_pass_mark, with_rule_off, with_time_limit,
};
use super::moment::Told;
use super::overlooked;
use super::sitting::Sitting;
use crate::marking::{FaultVerdict, MarkPart, Standing};
use crate::scenario::Scenario;
use crate::session::ending::Ending;

/// By how much the time that the work took is stretched for the time limit, one after the other: an
/// operator that sees little time left begins to restore the station early.
const STRETCHED: [f64; 4] = [1.0, 1.15, 1.3, 1.6];
/// The limit is told in steps of so many minutes.
const STEP_MIN: f64 = 5.0;

/// The moment, and what to change.
pub(super) fn told(scenario: &Scenario, operator: &str, sat: &Sitting) -> Told {
    let change = longer(scenario, operator, sat)
        .or_else(|| plainer_fault(scenario, operator, sat))
        .or_else(|| lower_demand(scenario, operator, sat))
        .unwrap_or_else(|| nothing_found(sat));
    Told { change, ..moment(scenario, operator, sat) }
}

/// The session of the same seed in a changed scenario, if it is passed.
fn passes(altered: &Altered, operator: &str, sat: &Sitting) -> Option<Sitting> {
    Sitting::of(&altered.scenario, operator, sat.seed).filter(|again| again.marks.passed)
}

/// A longer time limit.
fn longer(scenario: &Scenario, operator: &str, sat: &Sitting) -> Option<Alteration> {
    let unlimited = with_time_limit(scenario, None)?;
    let took_min = passes(&unlimited, operator, sat)?.ended.end_tick.seconds() / 60.0;
    let limits = STRETCHED.iter().map(|by| (by * took_min / STEP_MIN).ceil() * STEP_MIN);
    let enough = limits
        .filter_map(|limit_min| with_time_limit(scenario, Some(limit_min)))
        .find(|altered| passes(altered, operator, sat).is_some());
    let effect = format!("without a limit the work takes {took_min:.0} min and is passed");
    Some(enough.unwrap_or(unlimited).told(effect))
}

/// A larger fault, or one that is there from the start, where one was not found.
fn plainer_fault(scenario: &Scenario, operator: &str, sat: &Sitting) -> Option<Alteration> {
    let not_found = (0..scenario.faults.len()).filter(|index| {
        sat.judged(scenario, *index).is_some_and(|judged| judged.verdict != FaultVerdict::Found)
    });
    let plainer = not_found.flat_map(|index| {
        with_larger_fault(scenario, index)
            .into_iter()
            .chain(with_fault_from_the_start(scenario, index))
    });
    plainer
        .into_iter()
        .find(|altered| passes(altered, operator, sat).is_some())
        .map(|altered| altered.told("the session of this seed is then passed"))
}

/// A lower pass mark, no demand on what must have been assessed, or the deciding rule out of force.
fn lower_demand(scenario: &Scenario, operator: &str, sat: &Sitting) -> Option<Alteration> {
    let marks = &sat.marks;
    let mut demands = Vec::new();
    if let Some(gate) = &marks.gate {
        demands.push(with_rule_off(scenario, gate.rule));
    } else if !marks.unassessed.is_empty() {
        demands.push(with_nothing_to_be_assessed(scenario));
    } else if marks.standing != Standing::BrokenOff {
        demands.push(with_pass_mark(scenario, sat.whole_percent()));
    }
    let effect =
        format!("the {:.1} marks in a hundred of this session then suffice", marks.percent());
    demands
        .into_iter()
        .find(|altered| passes(altered, operator, sat).is_some())
        .map(|altered| altered.told(effect))
}

fn nothing_found(sat: &Sitting) -> Alteration {
    let (parameter, from) = match &sat.marks.gate {
        Some(gate) => ("terms.rules_off", format!("`{}` is in force", gate.rule)),
        None => ("terms.pass_mark", sat.marks.pass_mark.to_string()),
    };
    Alteration {
        parameter: parameter.to_owned(),
        from,
        to: None,
        effect: format!(
            "no change of one parameter lets the session of this seed pass: look at it with `rehearse --explain --seed {}`",
            sat.seed
        ),
    }
}

/// The moment at which it was lost.
fn moment(scenario: &Scenario, operator: &str, sat: &Sitting) -> Told {
    let (tick, about, what) = if sat.ended.ended == Ending::TimeOut {
        let minutes = sat.ended.end_tick.seconds() / 60.0;
        let what =
            format!("the time ran out after {minutes:.0} min, before the field book was signed");
        (sat.ended.end_tick, "time limit".to_owned(), what)
    } else if let Some(gate) = &sat.marks.gate {
        (gate.tick, gate.rule.to_owned(), gate.evidence.clone())
    } else {
        return lost_fault(scenario, operator, sat).unwrap_or_else(|| lost_marks(sat));
    };
    Told { tick, about, what, saw: None, change: nothing_found(sat) }
}

/// The first fault that was not found, if that cost marks.
fn lost_fault(scenario: &Scenario, operator: &str, sat: &Sitting) -> Option<Told> {
    let is_lost = |index: &usize| {
        sat.judged(scenario, *index).is_some_and(|judged| {
            !matches!(judged.verdict, FaultVerdict::Found | FaultVerdict::NeverShowed)
        })
    };
    let index = (0..scenario.faults.len()).find(is_lost)?;
    let told = overlooked::told(scenario, index, operator, sat)?;
    let what = format!("{}; {}", told.what, most_lost(&sat.marks.parts));
    Some(Told { what, ..told })
}

/// The first finding, or the first reading that lost marks.
fn lost_marks(sat: &Sitting) -> Told {
    let marks = &sat.marks;
    let what = format!(
        "{:.1} marks in a hundred were reached, and {} are needed; {}",
        marks.percent(),
        marks.pass_mark,
        most_lost(&marks.parts)
    );
    let misread = marks.readings.iter().find(|reading| reading.score < 1.0);
    let (tick, about) = match (marks.findings.first(), misread) {
        (Some(finding), _) => (finding.tick, finding.rule.to_owned()),
        (None, Some(reading)) => (reading.tick, reading.field.label()),
        (None, None) => (sat.ended.end_tick, "marks".to_owned()),
    };
    Told { tick, about, what, saw: None, change: nothing_found(sat) }
}

/// The part of the marks in which most were lost, with the first reason.
fn most_lost(parts: &[MarkPart]) -> String {
    let assessed = parts.iter().filter(|part| part.assessed);
    let lost = |part: &MarkPart| part.weight - part.got;
    let most = assessed.max_by(|one, other| lost(one).total_cmp(&lost(other)));
    most.map_or_else(String::new, |part| {
        let name = part.name.words();
        let why = part.reasons.first().map_or_else(String::new, |reason| format!(" ({reason})"));
        format!("most marks were lost for {name}, {:.1} of {}{why}", lost(part), part.weight)
    })
}
