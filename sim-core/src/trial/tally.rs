//! Counting sessions in whole numbers.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::rest::Rest;
use crate::fault::Fault;
use crate::marking::{FaultVerdict, Marks};
use crate::procedure::{self, OutcomeKind};

/// Marks are counted in ten-thousandths.
const COUNTED: f64 = 10_000.0;
/// Number of seeds that are kept as examples.
const EXAMPLES: usize = 5;

/// The counts over some sessions of one operator in one scenario.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tally {
    /// Sessions.
    pub sessions: u64,
    /// Sessions that passed.
    pub passed: u64,
    /// Sessions that did not end properly and have no marks; they did not pass.
    pub unfinished: u64,
    /// Total of the marks, of a hundred: in percent of what could be given.
    pub total: MarkSums,
    /// The six parts of the marks, in their order, where they were assessed.
    pub parts: [MarkSums; 6],
    /// Sessions in which each part was assessed.
    pub assessed: [u64; 6],
    /// Rules that were reached and could be judged, by id.
    pub rules: BTreeMap<String, RuleCount>,
    /// What decided a session that did not pass: id of the rule, or [`Tally::MARKS`].
    pub decided: BTreeMap<String, u64>,
    /// Every fault of the scenario, in the order of the scenario.
    pub faults: Vec<NoticeCount>,
    /// Sessions with at least one false alarm.
    pub false_alarms: u64,
    /// The lowest seeds that passed.
    pub passed_seeds: Vec<u64>,
    /// The lowest seeds that did not.
    pub failed_seeds: Vec<u64>,
}

/// Sum and sum of squares of marks, in ten-thousandths of a mark.
///
/// The square of a hundred marks is 1e12, so even a hundred thousand sessions are far from
/// overflow.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Sums", deny_unknown_fields)]
pub struct MarkSums {
    /// Sum.
    pub sum: u64,
    /// Sum of squares.
    pub squares: u64,
}

/// How often a rule was reached, and how often it was broken then.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Rule", deny_unknown_fields)]
pub struct RuleCount {
    /// Sessions in which it was reached and could be judged.
    pub reached: u64,
    /// Sessions in which it was broken.
    pub broken: u64,
    /// The remaining marks of the sessions in which it was reached; see [`Rest`].
    pub rests: MarkSums,
    /// Sum of the remaining marks of those in which it was broken, in ten-thousandths.
    pub broken_rest: u64,
}

impl RuleCount {
    /// Adds another count.
    fn merge(&mut self, other: &Self) {
        self.reached = self.reached.saturating_add(other.reached);
        self.broken = self.broken.saturating_add(other.broken);
        self.rests.merge(&other.rests);
        self.broken_rest = self.broken_rest.saturating_add(other.broken_rest);
    }

    /// Whether the count is possible for this many sessions with marks up to `most` together.
    fn is_of(&self, sessions: u64, most: u64) -> bool {
        self.reached <= sessions
            && self.broken <= self.reached
            && self.rests.sum <= most
            && self.broken_rest <= self.rests.sum
    }
}

/// How a fault was noticed.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename = "Noticed", deny_unknown_fields)]
pub struct NoticeCount {
    /// Sessions in which it was in force.
    pub in_force: u64,
    /// Reported, with a right response.
    pub found: u64,
    /// Reported, with a response that does not help.
    pub wrong_response: u64,
    /// Corrected without a report.
    pub put_right: u64,
    /// The lowest seed with which it was in force and not noticed.
    pub overlooked_seed: Option<u64>,
}

impl NoticeCount {
    /// Sessions in which it was noticed in one of these ways.
    pub const fn noticed(&self) -> u64 {
        self.found.saturating_add(self.wrong_response).saturating_add(self.put_right)
    }

    /// Whether the counts fit each other: a seed is kept if and only if the fault was overlooked.
    fn is_possible(&self) -> bool {
        self.noticed() <= self.in_force
            && self.overlooked_seed.is_some() == (self.noticed() < self.in_force)
    }
}

impl MarkSums {
    /// Adds a mark.
    fn add(&mut self, mark: u64) {
        self.sum = self.sum.saturating_add(mark);
        self.squares = self.squares.saturating_add(mark.saturating_mul(mark));
    }

    fn merge(&mut self, other: &Self) {
        self.sum = self.sum.saturating_add(other.sum);
        self.squares = self.squares.saturating_add(other.squares);
    }

    /// Mean of n marks; 0 if there are none.
    pub fn mean(&self, n: u64) -> f64 {
        if n == 0 { 0.0 } else { self.sum as f64 / n as f64 / COUNTED }
    }

    /// Sample standard deviation of n marks, sqrt((n Σx² - (Σx)²)/(n (n - 1))); 0 for fewer than
    /// two.
    pub fn sd(&self, n: u64) -> f64 {
        if n < 2 {
            return 0.0;
        }
        (self.spread(n) as f64 / (n as f64 * (n as f64 - 1.0))).sqrt() / COUNTED
    }

    /// n Σx² - (Σx)², exact.
    pub(super) fn spread(&self, n: u64) -> u128 {
        let squares = u128::from(n) * u128::from(self.squares);
        squares.saturating_sub(u128::from(self.sum) * u128::from(self.sum))
    }
}

/// Marks in ten-thousandths.
fn counted(marks: f64) -> u64 {
    (marks.clamp(0.0, 100.0) * COUNTED).round() as u64
}

impl Tally {
    /// What decided if no rule did: too few marks.
    pub const MARKS: &'static str = "marks";

    /// An empty tally for a scenario with this many faults.
    pub fn new(faults: usize) -> Self {
        Self { faults: vec![NoticeCount::default(); faults], ..Self::default() }
    }

    /// Counts a session. `faults` are those of the scenario.
    pub fn add(&mut self, seed: u64, marks: Option<&Marks>, faults: &[Fault]) {
        self.sessions += 1;
        let passed = marks.is_some_and(|marks| marks.passed);
        let (count, seeds) = if passed {
            (&mut self.passed, &mut self.passed_seeds)
        } else {
            (&mut 0, &mut self.failed_seeds)
        };
        *count += 1;
        keep_lowest(seeds, &[seed]);
        match marks {
            Some(marks) => self.add_marks(seed, marks, faults),
            None => self.unfinished += 1,
        }
    }

    fn add_marks(&mut self, seed: u64, marks: &Marks, faults: &[Fault]) {
        self.total.add(counted(marks.percent()));
        let counts = self.parts.iter_mut().zip(&mut self.assessed);
        for ((sums, assessed), part) in counts.zip(&marks.parts).filter(|(_, p)| p.assessed) {
            sums.add(counted(part.got));
            *assessed += 1;
        }
        for judged in &marks.rules {
            let broken = match judged.outcome {
                OutcomeKind::Kept => false,
                OutcomeKind::Broken => true,
                OutcomeKind::NotReached | OutcomeKind::CannotJudge | OutcomeKind::NotAssessed => {
                    continue;
                }
            };
            let Some(rule) = procedure::rule(judged.rule) else { continue };
            let rest = counted(Rest::of(rule).percent(marks));
            let count = self.rules.entry(judged.rule.to_owned()).or_default();
            count.reached += 1;
            count.rests.add(rest);
            if broken {
                count.broken += 1;
                count.broken_rest = count.broken_rest.saturating_add(rest);
            }
        }
        if !marks.passed {
            let by = marks.gate.as_ref().map_or(Self::MARKS, |gate| gate.rule);
            *self.decided.entry(by.to_owned()).or_default() += 1;
        }
        self.add_faults(seed, marks, faults);
    }

    fn add_faults(&mut self, seed: u64, marks: &Marks, faults: &[Fault]) {
        for (noticed, fault) in self.faults.iter_mut().zip(faults) {
            let Some(judged) = marks.faults.iter().find(|judged| judged.fault == Some(*fault))
            else {
                continue;
            };
            noticed.in_force += 1;
            match judged.verdict {
                FaultVerdict::Found | FaultVerdict::CauseOpen => noticed.found += 1,
                FaultVerdict::WrongResponse | FaultVerdict::WrongCause => {
                    noticed.wrong_response += 1;
                }
                FaultVerdict::PutRightSilently => noticed.put_right += 1,
                FaultVerdict::Missed
                | FaultVerdict::OnlySaid
                | FaultVerdict::NeverShowed
                | FaultVerdict::Guessed
                | FaultVerdict::FalseAlarm => {
                    noticed.overlooked_seed = lower(noticed.overlooked_seed, Some(seed));
                }
            }
        }
        let alarm = marks.faults.iter().any(|judged| judged.verdict == FaultVerdict::FalseAlarm);
        self.false_alarms += u64::from(alarm);
    }

    /// Adds another tally. The order of merging makes no difference.
    pub fn merge(&mut self, other: &Self) {
        self.sessions = self.sessions.saturating_add(other.sessions);
        self.passed = self.passed.saturating_add(other.passed);
        self.unfinished = self.unfinished.saturating_add(other.unfinished);
        self.total.merge(&other.total);
        for (sums, more) in self.parts.iter_mut().zip(&other.parts) {
            sums.merge(more);
        }
        for (assessed, more) in self.assessed.iter_mut().zip(other.assessed) {
            *assessed = assessed.saturating_add(more);
        }
        for (id, more) in &other.rules {
            self.rules.entry(id.clone()).or_default().merge(more);
        }
        for (by, more) in &other.decided {
            let count = self.decided.entry(by.clone()).or_default();
            *count = count.saturating_add(*more);
        }
        if self.faults.len() < other.faults.len() {
            self.faults.resize(other.faults.len(), NoticeCount::default());
        }
        for (noticed, more) in self.faults.iter_mut().zip(&other.faults) {
            noticed.in_force = noticed.in_force.saturating_add(more.in_force);
            noticed.found = noticed.found.saturating_add(more.found);
            noticed.wrong_response = noticed.wrong_response.saturating_add(more.wrong_response);
            noticed.put_right = noticed.put_right.saturating_add(more.put_right);
            noticed.overlooked_seed = lower(noticed.overlooked_seed, more.overlooked_seed);
        }
        self.false_alarms = self.false_alarms.saturating_add(other.false_alarms);
        keep_lowest(&mut self.passed_seeds, &other.passed_seeds);
        keep_lowest(&mut self.failed_seeds, &other.failed_seeds);
    }

    /// Whether the counts are possible for this many sessions with this many faults.
    pub fn is_of(&self, sessions: u64, faults: usize) -> bool {
        let most = sessions.saturating_mul(100 * COUNTED as u64);
        let within = |count: u64| count <= sessions;
        self.sessions == sessions
            && self.faults.len() == faults
            && within(self.passed.saturating_add(self.unfinished))
            && within(self.false_alarms)
            && self.total.sum <= most
            && self.parts.iter().all(|sums| sums.sum <= most)
            && self.assessed.iter().all(|&count| within(count))
            && self.rules.values().all(|count| count.is_of(sessions, most))
            && self.rules.keys().all(|id| procedure::rule(id).is_some())
            && self.decided.values().all(|&count| within(count))
            && self.faults.iter().all(|fault| within(fault.in_force) && fault.is_possible())
    }
}

/// The lower of two seeds, where there are two.
fn lower(one: Option<u64>, other: Option<u64>) -> Option<u64> {
    [one, other].into_iter().flatten().min()
}

/// Keeps the lowest few seeds of both.
fn keep_lowest(seeds: &mut Vec<u64>, more: &[u64]) {
    seeds.extend_from_slice(more);
    seeds.sort_unstable();
    seeds.truncate(EXAMPLES);
}

#[cfg(test)]
mod tests {
    use super::{MarkSums, keep_lowest};

    #[test]
    fn mean_and_standard_deviation_by_hand() {
        let mut sums = MarkSums::default();
        for mark in [700_000, 800_000, 900_000, 1_000_000] {
            sums.add(mark);
        }
        // 70, 80, 90, 100: mean 85, squares of the distances 225 + 25 + 25 + 225 = 500.
        assert!((sums.mean(4) - 85.0).abs() < 1e-12);
        assert!((sums.sd(4) - (500.0_f64 / 3.0).sqrt()).abs() < 1e-12);
        assert!(sums.sd(1).abs() < 1e-15 && sums.mean(0).abs() < 1e-15);
    }

    #[test]
    fn the_lowest_seeds_are_kept() {
        let mut seeds = vec![9, 4];
        keep_lowest(&mut seeds, &[7, 1, 12, 3]);
        assert_eq!(seeds, [1, 3, 4, 7, 9]);
    }
}
