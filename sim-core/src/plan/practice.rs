//! What a person did, as far as a plan counts it.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::drill::{DrillKind, DrillResult};

/// Something that was practised.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Practice {
    /// What.
    pub what: Practised,
    /// When, by the clock of the front end, seconds since 1970-01-01 00:00 UTC; none where the journal
    /// does not say.
    pub unix_s: Option<u64>,
    /// Whether it was passed; of a drill, whether it is good enough with it.
    pub passed: bool,
    /// Marks, of 100; none of a drill.
    pub marks: Option<f64>,
    /// Whether it was done without asking for help.
    pub unaided: bool,
}

/// What was practised. A scenario is known by the SHA-256 of its text, so that a file may be renamed,
/// and one that was changed is another.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Practised {
    /// A drill.
    Drill(DrillKind),
    /// A scenario.
    Scenario {
        /// SHA-256 of its text.
        sha256: String,
    },
    /// A drawn rig.
    Drawn {
        /// Its level.
        level: u8,
    },
}

/// The series of drills among results, each as one practice: the attempts of one kind and one seed. Whether
/// the skill is good enough is judged by the last attempts of the kind up to the end of that series.
pub fn drill_practice<'a>(results: impl IntoIterator<Item = &'a DrillResult>) -> Vec<Practice> {
    let mut by_kind: BTreeMap<DrillKind, Vec<&DrillResult>> = BTreeMap::new();
    for result in results {
        by_kind.entry(result.kind).or_default().push(result);
    }
    let mut practice = Vec::new();
    for (kind, mut results) in by_kind {
        results.sort_by_key(|result| (result.unix_s, result.number));
        for (index, result) in results.iter().enumerate() {
            let next = results.get(index + 1);
            if next.is_some_and(|next| next.seed == result.seed) {
                continue;
            }
            let so_far = results.iter().take(index + 1).copied();
            practice.push(Practice {
                what: Practised::Drill(kind),
                unix_s: Some(result.unix_s),
                passed: kind.standard().standing(so_far).good_enough,
                marks: None,
                unaided: true,
            });
        }
    }
    practice
}

#[cfg(test)]
mod tests {
    use super::*;

    fn series(seed: u64, unix_s: u64, right: &[bool]) -> Vec<DrillResult> {
        let one = |(number, right): (usize, &bool)| DrillResult {
            kind: DrillKind::Leg,
            seed,
            number: number as u32,
            unix_s: unix_s + number as u64,
            seconds: 5.0,
            error: None,
            right: *right,
            slip: None,
            in_words: false,
        };
        right.iter().enumerate().map(one).collect()
    }

    #[test]
    fn a_series_is_one_practice_and_counts_the_last_attempts() {
        let mut results = series(1, 100, &[true, true, false, false, true]);
        results.extend(series(2, 900, &[true; 10]));
        let practice = drill_practice(&results);
        let passed: Vec<(Option<u64>, bool)> =
            practice.iter().map(|one| (one.unix_s, one.passed)).collect();
        assert_eq!(passed, [(Some(104), false), (Some(909), true)]);
        assert_eq!(practice[0].what, Practised::Drill(DrillKind::Leg));
        // In whatever order the results come.
        results.reverse();
        assert_eq!(drill_practice(&results), practice);
    }
}
