//! A population of people, drawn from a seed.
//!
//! Whatever a person is drawn from is a random stream of its own, named after the scenario and the
//! person's number. So the same seed gives the same people, in any order and on any number of
//! processors, and the people of two scenarios are strangers to each other.

use serde::Serialize;

use super::latent::{CARELESS, LatentAbilities};
use super::practices::{PRACTICES, SEES_FAULTS, StatedPractice};
use crate::math;
use crate::noise::Stream;
use crate::operator::{Abilities, Habits, Lapse};

/// By how much the logit of not knowing a practice falls for each standard deviation of knowledge.
const KNOWING: f64 = 1.2;
/// By how much the logit of a lapse or a slip falls for each standard deviation of its ability.
const TAKING_CARE: f64 = 1.0;
/// Scatter of readings of average people, divided by that of a scripted operator, who is practised.
const SCATTER: f64 = 1.2;
/// By how much the logarithm of a scatter falls for each standard deviation of eye or hand.
const STEADINESS: f64 = 0.35;
/// Standard deviations of the height of an average eye above the level of what is read, mm: from
/// person to person, and from look to look.
const EYE_BETWEEN_MM: f64 = 3.0;
const EYE_WITHIN_MM: f64 = 3.0;
/// Standard deviations of an average hand: the knob's opening, and the manometer's scale, in.
const KNOB: f64 = 0.005;
const SCALE_IN: f64 = 0.008;
/// How likely average people leave a valve a quarter turn short, forget a small deed or an entry, and
/// write a copied or a calculated number wrongly.
const SHORT_VALVE: f64 = 0.005;
const FORGETS: f64 = 0.0005;
const COPY_SLIP: f64 = 0.0005;
const SUM_SLIP: f64 = 0.001;

/// A population.
#[derive(Debug, Clone, PartialEq)]
pub struct Population {
    /// The seed.
    pub seed: u64,
    /// What the names of the random streams begin with: the digest of the scenario's text.
    pub scenario: String,
    /// Share of careless people, 0 to 1.
    pub careless: f64,
}

/// A person of a population.
#[derive(Debug, Clone)]
pub struct Person {
    /// The number, from 0.
    pub number: u64,
    /// Whether the person belongs to the careless ones.
    pub group: PersonGroup,
    /// What the person is good at.
    pub latent: LatentAbilities,
    /// What follows for the work.
    pub abilities: Abilities,
    /// The practices that the person does not know.
    pub unknown: Vec<&'static str>,
}

/// To which group a person belongs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PersonGroup {
    /// Trained people who do as they learned, as well as they can.
    Trained,
    /// People below them by [`CARELESS`].
    Careless,
}

impl Population {
    /// The person of this number.
    pub fn person(&self, number: u64) -> Person {
        let stream = |what: &str| {
            Stream::new(self.seed, &format!("{} person {number} {what}", self.scenario))
        };
        let group = self.group(number);
        let drawn = LatentAbilities::draw(&mut stream("abilities"));
        let latent = match group {
            PersonGroup::Trained => drawn,
            PersonGroup::Careless => drawn.plus(CARELESS),
        };
        let mut habits = Habits::default();
        let mut unknown = Vec::new();
        let mut lapses = Vec::new();
        for practice in PRACTICES.iter().chain([&SEES_FAULTS]) {
            let StatedPractice { name, leave_out, .. } = *practice;
            let chance = less_likely(practice.unknown, KNOWING * latent.knowledge);
            if stream(&format!("knows {name}")).unit() < chance {
                leave_out(&mut habits);
                unknown.push(name);
            } else if practice.lapse > 0.0 {
                let chance = less_likely(practice.lapse, TAKING_CARE * (practice.by)(&latent));
                lapses.push(Lapse { practice: name, chance, leave_out });
            }
        }
        let eye = math::exp(-STEADINESS * latent.eye);
        let hand = math::exp(-STEADINESS * latent.hand);
        let slip = |average, ability: f64| less_likely(average, TAKING_CARE * ability);
        let abilities = Abilities {
            habits,
            lapses,
            scatter: SCATTER * eye,
            eye_mm: EYE_BETWEEN_MM * eye * stream("eye level").normal(),
            eye_sd_mm: EYE_WITHIN_MM * eye,
            knob_sd: KNOB * hand,
            scale_sd_in: SCALE_IN * hand,
            short_valve: slip(SHORT_VALVE, latent.hand),
            forgets: slip(FORGETS, latent.patience),
            copy_slip: slip(COPY_SLIP, latent.arithmetic),
            sum_slip: slip(SUM_SLIP, latent.arithmetic),
        };
        Person { number, group, latent, abilities, unknown }
    }

    /// The group of a person. Among the first n people the careless ones are n times their share,
    /// rounded down.
    fn group(&self, number: u64) -> PersonGroup {
        let until = |number: u64| (number as f64 * self.careless.clamp(0.0, 1.0)).floor();
        if until(number + 1) > until(number) { PersonGroup::Careless } else { PersonGroup::Trained }
    }
}

/// A probability whose logit is lower by this much.
fn less_likely(average: f64, by: f64) -> f64 {
    if average <= 0.0 {
        return 0.0;
    }
    let odds = average / (1.0 - average) * math::exp(-by);
    odds / (1.0 + odds)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half() -> Population {
        Population { seed: 4, scenario: "abc".to_owned(), careless: 0.5 }
    }

    #[test]
    fn a_person_is_the_same_whoever_came_before() {
        let alone = half().person(17);
        let all: Vec<Person> = (0..30).map(|number| half().person(number)).collect();
        assert_eq!(alone.latent, all[17].latent);
        assert_eq!(alone.unknown, all[17].unknown);
        assert!((alone.abilities.eye_mm - all[17].abilities.eye_mm).abs() < 1e-15);
        let elsewhere = Population { scenario: "abd".to_owned(), ..half() }.person(17);
        assert_ne!(alone.latent, elsewhere.latent);
    }

    #[test]
    fn half_of_the_people_are_careless_and_know_and_can_less() {
        let people: Vec<Person> = (0..400).map(|number| half().person(number)).collect();
        let of = |group| people.iter().filter(move |one| one.group == group);
        assert_eq!(of(PersonGroup::Careless).count(), 200);
        let sum = |group, figure: fn(&Person) -> f64| of(group).map(figure).sum::<f64>() / 200.0;
        let unknown = |one: &Person| one.unknown.len() as f64;
        assert!(sum(PersonGroup::Careless, unknown) > 1.8 * sum(PersonGroup::Trained, unknown));
        let scatter = |one: &Person| one.abilities.scatter;
        assert!(sum(PersonGroup::Careless, scatter) > sum(PersonGroup::Trained, scatter));
        let forgets = |one: &Person| one.abilities.forgets;
        assert!(sum(PersonGroup::Careless, forgets) > 2.0 * sum(PersonGroup::Trained, forgets));
        let nobody = Population { careless: 0.0, ..half() };
        assert!((0..50).all(|number| nobody.person(number).group == PersonGroup::Trained));
    }

    #[test]
    fn less_likely_by_a_logit() {
        assert!((less_likely(0.5, 0.0) - 0.5).abs() < 1e-15);
        // Odds 1/3 by e⁻¹: 0.122626, as a probability 0.109232.
        assert!((less_likely(0.25, 1.0) - 0.109_232).abs() < 1e-6);
        assert!(less_likely(0.0, -5.0).abs() < 1e-15);
    }
}
