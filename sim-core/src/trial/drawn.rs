//! Drawn rigs, tried: whether careful work passes them, and whether each habit that a drawn fault is
//! about does not.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::generator::{DrawnRig, Level, draw};
use crate::marking::{self, Marks};
use crate::operator;
use crate::session::BeginError;
use crate::session::ending::Ending;

/// Seeds that are kept as examples.
const EXAMPLES: usize = 8;
/// Share of drawn rigs that careful work must pass, and that a habit may pass at most.
const CAREFUL_LEAST: f64 = 0.99;
const HABIT_MOST: f64 = 0.05;

/// What came of drawn rigs. Tallies of different seeds can be merged in any order.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct DrawnTally {
    /// How many rigs were drawn.
    pub rigs: u64,
    /// How many of them careful work passed.
    pub careful_passed: u64,
    /// Rigs by the number of faults on them: none, one, two.
    pub by_faults: [u64; 3],
    /// Each fault: on how many rigs it was, and on how many careful work noticed it.
    pub faults: BTreeMap<String, Counted>,
    /// Each habit: on how many rigs a fault was about it, and how many of those it passed.
    pub habits: BTreeMap<String, Counted>,
    /// Rigs that careful work did not pass: level and seed, the first few.
    pub failed: Vec<(u8, u64)>,
    /// Rigs that a habit passed: its name, level and seed, the first few.
    pub overlooked: Vec<(String, u8, u64)>,
}

/// A count out of others.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize)]
pub struct Counted {
    /// Of how many.
    pub of: u64,
    /// How many.
    pub count: u64,
}

impl Counted {
    fn add(&mut self, counts: bool) {
        self.of += 1;
        self.count += u64::from(counts);
    }

    /// The share, 0 where nothing was counted.
    pub fn share(self) -> f64 {
        if self.of == 0 { 0.0 } else { self.count as f64 / self.of as f64 }
    }
}

impl DrawnTally {
    /// Draws one rig, and lets the careful operator and those with the habits in question work it.
    ///
    /// # Errors
    ///
    /// When the session of a rig cannot begin.
    pub fn add(&mut self, level: Level, seed: u64) -> Result<(), BeginError> {
        self.add_rig(&draw(level, seed), level.number(), seed)
    }

    /// The same with a rig that was drawn before.
    ///
    /// # Errors
    ///
    /// As [`add`](Self::add).
    pub fn add_rig(&mut self, rig: &DrawnRig, level: u8, seed: u64) -> Result<(), BeginError> {
        self.rigs += 1;
        if let Some(count) = self.by_faults.get_mut(rig.job.faults.len()) {
            *count += 1;
        }
        let marks = worked(&rig.text, "careful", seed)?;
        let passed = marks.as_ref().is_some_and(|marks| marks.passed);
        self.careful_passed += u64::from(passed);
        if !passed {
            self.failed.push((level, seed));
        }
        for (fault, _) in &rig.job.faults {
            let noticed = marks.iter().flat_map(|marks| &marks.faults);
            let noticed = noticed
                .filter(|judged| judged.fault == Some(*fault))
                .any(|judged| judged.verdict.is_noticed());
            self.faults.entry(fault.name().to_owned()).or_default().add(noticed);
        }
        for habit in &rig.job.about {
            let passed = worked(&rig.text, habit, seed)?.is_some_and(|marks| marks.passed);
            self.habits.entry((*habit).to_owned()).or_default().add(passed);
            if passed {
                self.overlooked.push(((*habit).to_owned(), level, seed));
            }
        }
        self.keep_few();
        Ok(())
    }

    /// Adds what came of other rigs.
    pub fn merge(&mut self, other: &Self) {
        self.rigs += other.rigs;
        self.careful_passed += other.careful_passed;
        for (count, more) in self.by_faults.iter_mut().zip(other.by_faults) {
            *count += more;
        }
        for (own, others) in [(&mut self.faults, &other.faults), (&mut self.habits, &other.habits)]
        {
            for (name, more) in others {
                let counted = own.entry(name.clone()).or_default();
                counted.of += more.of;
                counted.count += more.count;
            }
        }
        self.failed.extend(&other.failed);
        self.overlooked.extend(other.overlooked.iter().cloned());
        self.keep_few();
    }

    fn keep_few(&mut self) {
        self.failed.sort_unstable();
        self.failed.truncate(EXAMPLES);
        self.overlooked.sort_unstable();
        self.overlooked.truncate(EXAMPLES);
    }

    /// Whether drawn rigs are fair: careful work passes at least 99 % of them, and each habit at most 5 %
    /// of those that are about it.
    pub fn is_proven(&self) -> bool {
        let careful = Counted { of: self.rigs, count: self.careful_passed };
        careful.share() >= CAREFUL_LEAST
            && self.habits.values().all(|habit| habit.share() <= HABIT_MOST)
    }
}

/// The marks of an operator's session; none if it did not end properly.
fn worked(text: &str, name: &str, seed: u64) -> Result<Option<Marks>, BeginError> {
    let mut session = operator::begin_unrecorded(text, seed)?;
    // The check of the scenario has found the operator's name to be known.
    let Ok(mut hands) = operator::in_session(name, &session) else { return Ok(None) };
    let worked = operator::rehearse(&mut session, hands.as_mut());
    Ok(match session.open() {
        Ok(ended) if worked.is_ok() && ended.ended != Ending::Broken => {
            Some(marking::mark(&ended.evidence()))
        }
        Ok(_) | Err(_) => None,
    })
}
