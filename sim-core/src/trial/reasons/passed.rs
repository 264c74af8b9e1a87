//! Why a bad habit passed, told with one session.

use super::altered::{Alteration, Altered, with_larger_fault, with_pass_mark, with_weight};
use super::moment::Told;
use super::sitting::Sitting;
use crate::marking::{MarkPart, MarkPartName};
use crate::procedure::ProcedureFinding;
use crate::procedure::knowable::first_shown;
use crate::scenario::Scenario;
use crate::trial::verdict::CAREFUL;

/// How much a part should weigh, one after the other, marks of a hundred.
const WEIGHTS: [f64; 4] = [30.0, 40.0, 50.0, 60.0];

/// The moment, and what to change.
pub(super) fn told(scenario: &Scenario, habit: &str, sat: &Sitting) -> Told {
    let careful = Sitting::of(scenario, CAREFUL, sat.seed);
    let change = larger_fault(scenario, habit, sat)
        .or_else(|| higher_pass_mark(scenario, habit, sat))
        .or_else(|| heavier_part(scenario, habit, sat, careful.as_ref()?))
        .unwrap_or_else(|| nothing_found(scenario, habit));
    Told { change, ..moment(scenario, habit, sat, careful.as_ref()) }
}

/// Whether the habit fails in a changed scenario, and careful work passes.
fn tells_apart(altered: &Altered, habit: &str, seed: u64) -> bool {
    let passes =
        |operator| Sitting::of(&altered.scenario, operator, seed).map(|again| again.marks.passed);
    passes(habit) == Some(false) && passes(CAREFUL) == Some(true)
}

/// A larger fault, where the habit overlooks one.
fn larger_fault(scenario: &Scenario, habit: &str, sat: &Sitting) -> Option<Alteration> {
    let overlooked = (0..scenario.faults.len()).filter(|index| {
        sat.judged(scenario, *index).is_some_and(|judged| !judged.verdict.is_noticed())
    });
    overlooked
        .flat_map(|index| with_larger_fault(scenario, index))
        .find(|altered| tells_apart(altered, habit, sat.seed))
        .map(|altered| altered.told(told_apart(habit)))
}

/// A pass mark above what the habit reached.
fn higher_pass_mark(scenario: &Scenario, habit: &str, sat: &Sitting) -> Option<Alteration> {
    let wanted = sat.whole_percent() + 1.0;
    let altered = (wanted <= 100.0).then(|| with_pass_mark(scenario, wanted))?;
    let apart = tells_apart(&altered, habit, sat.seed);
    apart.then(|| altered.told(told_apart(habit)))
}

/// More weight for the part in which the habit loses most.
fn heavier_part(
    scenario: &Scenario,
    habit: &str,
    sat: &Sitting,
    careful: &Sitting,
) -> Option<Alteration> {
    let share = |part: &MarkPart| if part.weight > 0.0 { part.got / part.weight } else { 1.0 };
    let pairs = sat.marks.parts.iter().zip(&careful.marks.parts);
    let loses = pairs.map(|(one, other)| (one.name, share(other) - share(one)));
    let (part, lost): (MarkPartName, f64) = loses.max_by(|one, other| one.1.total_cmp(&other.1))?;
    (lost > 0.0).then_some(())?;
    WEIGHTS
        .iter()
        .filter_map(|weight| with_weight(scenario, part, *weight))
        .find(|altered| tells_apart(altered, habit, sat.seed))
        .map(|altered| altered.told(told_apart(habit)))
}

fn told_apart(habit: &str) -> String {
    format!("with this seed `{habit}` then fails and `{CAREFUL}` still passes")
}

fn nothing_found(scenario: &Scenario, habit: &str) -> Alteration {
    Alteration {
        parameter: "about".to_owned(),
        from: ron::to_string(&scenario.about).unwrap_or_default(),
        to: None,
        effect: format!(
            "no change of one parameter makes `{habit}` fail and lets `{CAREFUL}` pass: take it out of `about`, or add a \
             fault that it overlooks"
        ),
    }
}

/// The moment at which the habit showed and did not decide.
fn moment(scenario: &Scenario, habit: &str, sat: &Sitting, careful: Option<&Sitting>) -> Told {
    let known = |finding: &&ProcedureFinding| {
        careful.is_none_or(|careful| {
            careful.marks.findings.iter().all(|other| other.rule != finding.rule)
        })
    };
    let reached = format!(
        "{:.1} marks in a hundred are enough where {} are needed",
        sat.marks.percent(),
        sat.marks.pass_mark
    );
    let overlooked = (0..scenario.faults.len())
        .filter_map(|index| sat.judged(scenario, index))
        .find(|judged| !judged.verdict.is_noticed());
    let finding = sat.marks.findings.iter().find(known);
    let (tick, about, what) = match (finding, overlooked) {
        (Some(finding), _) => {
            let time = sat.time(finding.tick);
            let what = format!("at {time} {}, which does not decide; {reached}", finding.evidence);
            (finding.tick, finding.rule.to_owned(), what)
        }
        (None, Some(judged)) => {
            let what =
                format!("{} was not noticed, and that does not decide; {reached}", judged.what);
            let name = judged.fault.map_or("fault", |fault| fault.name());
            let evidence = sat.ended.evidence();
            let sign = judged.fault.and_then(|fault| first_shown(&evidence, &fault));
            (sign.map_or(sat.ended.end_tick, |sign| sign.tick), name.to_owned(), what)
        }
        (None, None) => {
            let what = format!("no rule that careful work keeps was broken; {reached}");
            (sat.ended.end_tick, habit.to_owned(), what)
        }
    };
    Told { tick, about, what, saw: None, change: nothing_found(scenario, habit) }
}
