//! When a skill is good enough, and whether attempts reach that.

use serde::{Deserialize, Serialize};

use super::kind::DrillKind;
use super::result::DrillResult;

/// When a skill is good enough: so many of the last attempts right, each in so many seconds.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct DrillStandard {
    /// By how much an answer may be off, in the kind's error unit; 0 for a choice.
    pub tolerance: f64,
    /// So many of the last attempts must be right and in time.
    pub needed: u32,
    /// Of so many.
    pub of_last: u32,
    /// The longest time for an attempt that counts, s.
    pub within_s: f64,
    /// Where the tolerance comes from.
    pub source: StandardSource,
}

/// Where a tolerance comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum StandardSource {
    /// Half a division, as instruments are commonly read.
    CommonPractice,
    /// Chosen for this bench.
    Chosen,
}

impl StandardSource {
    /// The source in words, as a report gives it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::CommonPractice => "common practice",
            Self::Chosen => "limit chosen for this bench",
        }
    }
}

/// Nine of the last ten (CHOSEN: one slip in ten is human, and a point is read twice).
const NEEDED: u32 = 9;
/// Of so many.
const OF_LAST: u32 = 10;

impl DrillKind {
    /// When this skill is good enough. That a scale is read to half a division is common practice; all
    /// times, and the counts, are CHOSEN.
    pub const fn standard(self) -> DrillStandard {
        use StandardSource::{Chosen, CommonPractice};
        let (tolerance, within_s, source) = match self {
            // The scale has tenths of an inch.
            Self::Leg => (0.05, 20.0, CommonPractice),
            // Half a division for each leg.
            Self::Difference => (0.1, 40.0, CommonPractice),
            // One division of the chart.
            Self::Pen => (0.5, 20.0, CommonPractice),
            // One mmHg on the dial.
            Self::Barometer => (0.5, 20.0, CommonPractice),
            // The marks are half a degree apart, and half a degree is what is written down.
            Self::Thermometer => (0.5, 20.0, CommonPractice),
            Self::ChartMean => (0.5, 180.0, Chosen),
            Self::ElapsedTime => (0.05, 20.0, Chosen),
            Self::WaterAtRest | Self::PenAtRest => (0.0, 30.0, Chosen),
            Self::Certificate => (0.0, 90.0, Chosen),
            Self::Station => (0.0, 60.0, Chosen),
            Self::PointSums => (0.5, 300.0, Chosen),
            Self::Line => (0.0, 120.0, Chosen),
        };
        DrillStandard { tolerance, needed: NEEDED, of_last: OF_LAST, within_s, source }
    }
}

/// How attempts compare with the standard of their kind.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Standing {
    /// Attempts so far.
    pub attempts: u32,
    /// How many of the last ones were right and in time.
    pub counting: u32,
    /// Of how many: as many as the standard looks at, or fewer if there were fewer.
    pub of_last: u32,
    /// Whether the skill is good enough.
    pub good_enough: bool,
}

impl DrillStandard {
    /// Whether an attempt counts: right, and in time.
    pub fn counts(&self, result: &DrillResult) -> bool {
        result.right && result.seconds <= self.within_s
    }

    /// Whether an error is within the tolerance. A reading that is exactly on the limit is, whatever
    /// rounding does to its last bit.
    pub fn allows(&self, error: f64) -> bool {
        error.abs() <= self.tolerance + ROUNDING
    }

    /// How attempts of one kind, the oldest first, compare with it. Only the last ones are looked at, so
    /// that a skill can be lost as well as won.
    pub fn standing<'a>(&self, results: impl IntoIterator<Item = &'a DrillResult>) -> Standing {
        let results: Vec<&DrillResult> = results.into_iter().collect();
        let last = results.iter().rev().take(self.of_last as usize);
        let counting = last.clone().filter(|result| self.counts(result)).count() as u32;
        Standing {
            attempts: results.len() as u32,
            counting,
            of_last: last.count() as u32,
            good_enough: results.len() as u32 >= self.of_last && counting >= self.needed,
        }
    }
}

/// Comparisons allow for the rounding of decimal readings.
const ROUNDING: f64 = 1e-9;

#[cfg(test)]
mod tests {
    use super::*;

    fn attempts(kind: DrillKind, each: impl IntoIterator<Item = (bool, f64)>) -> Vec<DrillResult> {
        each.into_iter()
            .enumerate()
            .map(|(number, (right, seconds))| DrillResult {
                kind,
                seed: 1,
                number: number as u32,
                unix_s: 0,
                seconds,
                error: None,
                right,
                slip: None,
                in_words: false,
            })
            .collect()
    }

    #[test]
    fn nine_of_the_last_ten_are_good_enough_and_eight_are_not() {
        for kind in DrillKind::ALL {
            let standard = kind.standard();
            let limit = standard.within_s;
            let of = |wrong: usize| {
                let each = (0..10).map(|number| (number >= wrong, limit));
                standard.standing(&attempts(kind, each))
            };
            assert!(of(0).good_enough && of(1).good_enough, "{kind}");
            assert!(!of(2).good_enough, "{kind}");
            assert_eq!((of(2).counting, of(2).of_last), (8, 10));
        }
    }

    #[test]
    fn nine_right_ones_alone_are_too_few() {
        let standard = DrillKind::Pen.standard();
        let standing = standard.standing(&attempts(DrillKind::Pen, [(true, 1.0); 9]));
        assert_eq!((standing.counting, standing.of_last, standing.good_enough), (9, 9, false));
    }

    #[test]
    fn a_slow_answer_is_right_but_does_not_count() {
        let standard = DrillKind::Leg.standard();
        let (limit, over) = (standard.within_s, standard.within_s + 0.1);
        let slow = |count: usize| {
            let each = (0..10).map(|number| (true, if number < count { over } else { limit }));
            standard.standing(&attempts(DrillKind::Leg, each)).good_enough
        };
        assert!(slow(1) && !slow(2));
    }

    #[test]
    fn only_the_last_ten_are_looked_at() {
        let standard = DrillKind::Line.standard();
        let early = std::iter::repeat_n((false, 1.0), 30);
        let each = early.clone().chain(std::iter::repeat_n((true, 1.0), 10));
        assert!(standard.standing(&attempts(DrillKind::Line, each)).good_enough);
        let lost = std::iter::repeat_n((true, 1.0), 30).chain([(false, 1.0); 2]);
        assert!(!standard.standing(&attempts(DrillKind::Line, lost)).good_enough);
    }

    #[test]
    fn an_error_on_the_limit_is_allowed_and_one_beyond_is_not() {
        let standard = DrillKind::Leg.standard();
        assert!(standard.allows(3.15 - 3.1) && standard.allows(3.1 - 3.15));
        assert!(!standard.allows(0.0501) && !standard.allows(-0.0501));
    }
}
