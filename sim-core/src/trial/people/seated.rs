//! A person with both sittings, as statistics need them.

use serde::Serialize;

use super::latent::LatentAbilities;
use super::population::{Person, PersonGroup, Population};
use super::sitting::{MarkedSitting, Sitting, sit};
use crate::session::BeginError;

/// A person who has sat a scenario twice, with different seeds.
#[derive(Debug, Clone, PartialEq)]
pub struct Seated {
    /// Who.
    pub person: PersonSummary,
    /// Both sittings.
    pub sittings: [Sitting; 2],
}

/// What is kept of a person.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PersonSummary {
    /// The number, from 0.
    pub number: u64,
    /// The group.
    pub group: PersonGroup,
    /// What the person is good at.
    pub latent: LatentAbilities,
    /// The practices that the person does not know.
    pub unknown: Vec<&'static str>,
}

impl Seated {
    /// Lets the person of this number sit a scenario twice, given as its text. The seeds of both
    /// sessions are the population's seed plus twice the number, and the next one.
    ///
    /// # Errors
    ///
    /// When the scenario has problems.
    pub fn sits(text: &str, population: &Population, number: u64) -> Result<Self, BeginError> {
        let person = population.person(number);
        let first = population.seed.wrapping_add(number.wrapping_mul(2));
        let sittings = [sit(text, &person, first)?, sit(text, &person, first.wrapping_add(1))?];
        let Person { number, group, latent, unknown, .. } = person;
        Ok(Self { person: PersonSummary { number, group, latent, unknown }, sittings })
    }

    /// The first sitting. All figures come from it but those that compare both, so that every
    /// person counts once.
    pub const fn first(&self) -> &Sitting {
        &self.sittings[0]
    }

    /// The first sitting, if it was marked.
    pub const fn marked(&self) -> Option<&MarkedSitting> {
        self.first().marked.as_ref()
    }

    /// Both sittings, if both were marked.
    pub fn both(&self) -> Option<(&MarkedSitting, &MarkedSitting)> {
        let [one, other] = &self.sittings;
        Some((one.marked.as_ref()?, other.marked.as_ref()?))
    }
}

/// People for tests of statistics.
#[cfg(test)]
pub(super) mod made_up {
    use super::*;
    use crate::marking::MarkPartName;
    use crate::trial::people::outcome::ItemOutcome;
    use crate::trial::people::sitting::PartOfSitting;

    /// A sitting with this total, all of it for procedure, and a pass mark of 75.
    fn sitting(total: f64, items: &[ItemOutcome]) -> Sitting {
        let part = |name, weight, got| PartOfSitting { name, weight, got: Some(got) };
        let marked = MarkedSitting {
            total,
            parts: [
                part(MarkPartName::Safety, 20.0, 0.2 * total),
                part(MarkPartName::Readings, 15.0, 0.15 * total),
                part(MarkPartName::Fit, 20.0, 0.2 * total),
                part(MarkPartName::Procedure, 20.0, 0.2 * total),
                part(MarkPartName::Judgement, 15.0, 0.15 * total),
                part(MarkPartName::Record, 10.0, 0.1 * total),
            ],
            pass_mark: 75.0,
            passed: total >= 75.0,
            only_marks_decide: true,
            gate: None,
            volume_error_pct: Some(1.0),
            items: items.to_vec(),
        };
        Sitting { seed: 0, marked: Some(marked) }
    }

    /// A person with these totals, and with these items in both sittings.
    pub fn person(number: u64, totals: [f64; 2], items: &[ItemOutcome]) -> Seated {
        let latent =
            LatentAbilities { eye: 0.0, hand: 0.0, patience: 0.0, knowledge: 0.0, arithmetic: 0.0 };
        let group = PersonGroup::Trained;
        Seated {
            person: PersonSummary { number, group, latent, unknown: Vec::new() },
            sittings: totals.map(|total| sitting(total, items)),
        }
    }
}
