//! One sitting of a person, reduced to what statistics need.

use super::outcome::{ItemOutcome, outcomes};
use super::population::Person;
use crate::field_book::{Decision, Field};
use crate::marking::{self, MarkPartName, Marks, Standing};
use crate::operator;
use crate::procedure::evidence::TraineeDecision;
use crate::procedure::{Evidence, ProcedureRule};
use crate::session::BeginError;
use crate::session::ending::Ending;
use crate::trial::rest::Rest;

/// How far a total may be rounded.
pub(super) const ROUNDING: f64 = 1e-9;

/// One sitting.
#[derive(Debug, Clone, PartialEq)]
pub struct Sitting {
    /// The seed of its session.
    pub seed: u64,
    /// What it came to; none if the session did not end properly.
    pub marked: Option<MarkedSitting>,
}

/// A sitting that was marked.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkedSitting {
    /// The total of the marks, in percent of what could be given.
    pub total: f64,
    /// The six parts of the marks.
    pub parts: [PartOfSitting; 6],
    /// Marks needed to pass.
    pub pass_mark: f64,
    /// Whether it is passed.
    pub passed: bool,
    /// Whether only the marks decide: it would be passed if no marks were needed.
    pub only_marks_decide: bool,
    /// The rule that decided, if one did.
    pub gate: Option<&'static str>,
    /// Error of the volumes that follow from the work, percent; none if no volume follows.
    pub volume_error_pct: Option<f64>,
    /// How every rule came out, in the order of the rules.
    pub items: Vec<ItemOutcome>,
}

/// A part of the marks of a sitting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PartOfSitting {
    /// Which.
    pub name: MarkPartName,
    /// The most that it can give.
    pub weight: f64,
    /// What it gave; none if it was not assessed.
    pub got: Option<f64>,
}

impl Sitting {
    /// Whether it is passed.
    pub fn passed(&self) -> bool {
        self.marked.as_ref().is_some_and(|marked| marked.passed)
    }
}

impl MarkedSitting {
    /// Whether it would be passed with this pass mark.
    pub fn passes_at(&self, pass_mark: f64) -> bool {
        self.only_marks_decide && self.total >= pass_mark - ROUNDING
    }

    /// The marks of every part; none if a part was not assessed.
    pub fn whole(&self) -> Option<[f64; 6]> {
        let mut whole = [0.0; 6];
        for (place, part) in whole.iter_mut().zip(&self.parts) {
            *place = part.got?;
        }
        Some(whole)
    }

    /// The marks without the parts to which a rule contributes, in percent of what they could give; 0
    /// if nothing of them was assessed.
    pub fn rest_pct(&self, rule: &ProcedureRule) -> f64 {
        let rest = Rest::of(rule);
        let (mut got, mut of) = (0.0, 0.0);
        for part in self.parts.iter().filter(|part| !rest.leaves_out(part.name)) {
            if let Some(marks) = part.got {
                got += marks;
                of += part.weight;
            }
        }
        if of > 0.0 { 100.0 * got / of } else { 0.0 }
    }
}

/// Lets a person sit a scenario, given as its text.
///
/// # Errors
///
/// When the scenario has problems.
pub fn sit(text: &str, person: &Person, seed: u64) -> Result<Sitting, BeginError> {
    let mut session = operator::begin_unrecorded(text, seed)?;
    let mut hands = operator::person_in_session(person.abilities.clone(), &session);
    let worked = operator::rehearse(&mut session, hands.as_mut());
    let marked = match session.open() {
        Ok(ended) if worked.is_ok() && ended.ended != Ending::Broken => {
            let evidence = ended.evidence();
            Some(reduced(&marking::mark(&evidence), &evidence))
        }
        Ok(_) | Err(_) => None,
    };
    Ok(Sitting { seed, marked })
}

fn reduced(marks: &Marks, evidence: &Evidence<'_>) -> MarkedSitting {
    let only_marks_decide = marks.gate.is_none()
        && marks.standing != Standing::BrokenOff
        && marks.unassessed.is_empty()
        && marks.of > 0.0;
    MarkedSitting {
        total: marks.percent(),
        parts: marks.parts.each_ref().map(|part| PartOfSitting {
            name: part.name,
            weight: part.weight,
            got: part.assessed.then_some(part.got),
        }),
        pass_mark: marks.pass_mark,
        passed: marks.passed,
        only_marks_decide,
        gate: marks.gate.as_ref().map(|gate| gate.rule),
        volume_error_pct: volume_error_pct(marks, evidence),
        items: outcomes(marks),
    }
}

/// Error of the volumes that follow from this work, percent: of the volume of the run as written, or
/// else of the volumes at the ordered flow by the accepted line. A calibration that was refused and
/// a sample that was found not valid give no volume.
fn volume_error_pct(marks: &Marks, evidence: &Evidence<'_>) -> Option<f64> {
    if evidence.book.decision(Field::Validity) == Some(Decision::SampleNotValid) {
        return None;
    }
    match &marks.run {
        Some(run) => run.error_pct,
        None if evidence.verdict() == TraineeDecision::Accepted => marks.set_point_flow_error_pct,
        None => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::people::Population;

    const SCENARIO: &str = include_str!("../../../../scenarios/01_first_calibration.ron");

    #[test]
    fn a_sitting_can_be_repeated_to_the_bit() {
        let population = Population { seed: 1, scenario: "x".to_owned(), careless: 0.5 };
        for number in 0..4 {
            let person = population.person(number);
            let one = sit(SCENARIO, &person, 40 + number).unwrap();
            assert_eq!(one, sit(SCENARIO, &person, 40 + number).unwrap());
            let marked = one.marked.unwrap();
            assert_eq!(marked.passed, marked.passes_at(marked.pass_mark));
            assert_eq!(marked.items.len(), crate::procedure::RULES.len());
            if let Some(whole) = marked.whole() {
                assert!((whole.iter().sum::<f64>() - marked.total).abs() < 1e-9);
            }
        }
    }
}
