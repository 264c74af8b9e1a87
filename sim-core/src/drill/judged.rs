//! How an answer is judged: how far off it is, which way, and which slip it follows from.

use super::answer::Answer;
use super::drawn::{Counted, Truth};
use super::slip::DrillSlip;
use super::standard::DrillStandard;

/// What an answer is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct Judged {
    /// By how much it is off, in the kind's error unit, positive if it is too high; `None` for a choice.
    pub error: Option<f64>,
    /// Whether it is right, or within the tolerance.
    pub right: bool,
    /// The slip from which a wrong answer follows, if it follows from a typical one.
    pub slip: Option<DrillSlip>,
    /// What is right.
    pub truth: Answer,
}

/// Each slip further down the list must fit better by this share of the tolerance: the first ones are
/// the more likely ones.
const LESS_LIKELY: f64 = 0.04;

/// Judges an answer; `slips` are those that follow from how things are looked at now.
///
/// # Errors
///
/// When the answer has not the form that is asked for: what to answer instead.
pub(super) fn judge(
    truth: &Truth,
    slips: &[(DrillSlip, f64)],
    standard: &DrillStandard,
    answer: &Answer,
) -> Result<Judged, String> {
    match (truth, answer) {
        (Truth::Number { value, counted, slips: fixed }, Answer::Number(number)) => {
            if !number.is_finite() {
                return Err("the answer is not a finite number: answer with a number".to_owned());
            }
            let error = counted.error(*number, *value);
            let right = standard.allows(error);
            let follows = || {
                let all = slips.iter().chain(fixed);
                follows_from(all, (*number, *value), *counted, standard)
            };
            let slip = if right { None } else { follows() };
            Ok(Judged { error: Some(error), right, slip, truth: Answer::Number(*value) })
        }
        (Truth::Choice { right, choices }, Answer::Choice(name)) => {
            let named = |(of, _): &(String, DrillSlip)| of.eq_ignore_ascii_case(name.trim());
            let Some(at) = choices.iter().position(named) else {
                let names: Vec<&str> = choices.iter().map(|(name, _)| name.as_str()).collect();
                return Err(format!("answer with one of these: {}", names.join(", ")));
            };
            let slip = choices.get(at).filter(|_| at != *right).map(|(_, slip)| *slip);
            let name = choices.get(*right).map(|(name, _)| name.clone()).unwrap_or_default();
            let truth = Answer::Choice(name);
            Ok(Judged { error: None, right: at == *right, slip, truth })
        }
        (Truth::Number { .. }, Answer::Choice(_)) => {
            Err("a number is asked for: answer with a number".to_owned())
        }
        (Truth::Choice { choices, .. }, Answer::Number(_)) => {
            let names: Vec<&str> = choices.iter().map(|(name, _)| name.as_str()).collect();
            Err(format!("answer with one of these: {}", names.join(", ")))
        }
    }
}

/// The slip whose number is nearest to a wrong answer, if one is near enough to be meant.
fn follows_from<'a>(
    slips: impl Iterator<Item = &'a (DrillSlip, f64)>,
    (number, value): (f64, f64),
    counted: Counted,
    standard: &DrillStandard,
) -> Option<DrillSlip> {
    slips
        .enumerate()
        .filter(|(_, (_, leads_to))| leads_to.is_finite())
        // A slip that changes nothing that matters explains nothing.
        .filter(|(_, (_, leads_to))| !standard.allows(counted.error(*leads_to, value)))
        .map(|(rank, &(slip, leads_to))| {
            let off = counted.error(number, value) - counted.error(leads_to, value);
            (slip, off.abs(), off.abs() + LESS_LIKELY * standard.tolerance * rank as f64)
        })
        .filter(|&(_, off, _)| off <= standard.tolerance + 1e-9)
        .min_by(|one, other| one.2.total_cmp(&other.2))
        .map(|(slip, _, _)| slip)
}
