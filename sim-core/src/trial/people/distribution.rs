//! How the marks are distributed, over all people and in each group.

use serde::Serialize;

use super::estimate::Share;
use super::population::PersonGroup;
use super::seated::Seated;
use crate::trial::statistics::moments::{mean, quantile, sd, sorted};

/// Marks for each bar of the histogram.
pub const BAR: f64 = 2.5;
/// Number of bars.
pub const BARS: usize = 40;

/// The marks of some people.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MarkDistribution {
    /// People whose first sitting was marked.
    pub people: u64,
    /// Those who passed, of all people with those who came to no proper end.
    pub passed: Share,
    /// Mean of the total.
    pub mean: f64,
    /// Standard deviation of the total.
    pub sd: f64,
    /// The 5, 25, 50, 75 and 95 percentiles of the total; none without people.
    pub percentiles: Option<[f64; 5]>,
    /// People in each of 40 bars of 2.5 marks, from 0 to 100. A bar holds its lower end; the last
    /// one holds 100 too.
    pub histogram: Vec<u64>,
}

/// The marks of one group.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GroupFigures {
    /// The group.
    pub group: PersonGroup,
    /// Its marks.
    #[serde(flatten)]
    pub marks: MarkDistribution,
}

impl MarkDistribution {
    /// The marks of people in their first sitting.
    pub fn of<'a>(people: impl Iterator<Item = &'a Seated> + Clone) -> Self {
        let marked = people.clone().filter_map(Seated::marked);
        let totals = sorted(&marked.map(|marked| marked.total).collect::<Vec<f64>>());
        let mut histogram = vec![0; BARS];
        for total in &totals {
            let bar = ((total / BAR).max(0.0) as usize).min(BARS - 1);
            if let Some(count) = histogram.get_mut(bar) {
                *count += 1;
            }
        }
        let at = |p| quantile(&totals, p);
        let percentiles = || Some([at(0.05)?, at(0.25)?, at(0.5)?, at(0.75)?, at(0.95)?]);
        Self {
            people: totals.len() as u64,
            passed: Share::of(people.map(|one| one.first().passed())),
            mean: mean(&totals),
            sd: sd(&totals),
            percentiles: percentiles(),
            histogram,
        }
    }
}

/// The marks of each group that has people.
pub fn groups(people: &[Seated]) -> Vec<GroupFigures> {
    let of = |group| {
        let members = people.iter().filter(move |one| one.person.group == group);
        GroupFigures { group, marks: MarkDistribution::of(members) }
    };
    let all = [PersonGroup::Trained, PersonGroup::Careless].map(of);
    all.into_iter().filter(|group| group.marks.passed.of > 0).collect()
}
