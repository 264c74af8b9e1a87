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
