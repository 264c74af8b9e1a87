//! How good stated probabilities are: the Brier score and its three parts.
//!
//! Somebody states before each of `N` occasions how probable it is that something comes true (`f`, 0
//! to 1); `o` is 1 where it did and 0 where it did not. The score is the mean squared distance
//!
//! ```text
//! BS = (1/N) Σ (f - o)²          0 is perfect, 0.25 is what "50 percent" always gets, 1 the worst
//! ```
//!
//! (G. W. Brier, "Verification of forecasts expressed in terms of probability", Monthly Weather Review
//! 78, 1950, 1-3, MEMORY; of the two classes of that paper one is counted here, so that the score is
//! half of the original.) With the occasions sorted into groups `k` of the same `f`, in which `n_k`
//! occasions came true with the frequency `o_k`, and `o` the frequency in all,
//!
//! ```text
//! BS = reliability - resolution + uncertainty
//! reliability = (1/N) Σ n_k (f_k - o_k)²     how far what was said is from what came of it
//! resolution  = (1/N) Σ n_k (o_k - o)²       how well sure and unsure are told apart
//! uncertainty = o (1 - o)
//! ```
//!
//! exactly (A. H. Murphy, "A new vector partition of the probability score", Journal of Applied
//! Meteorology 12, 1973, 595-600, MEMORY).

use serde::Serialize;

/// One statement, and what came of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stated {
    /// How probable it was said to be, 0 to 1.
    pub probability: f64,
    /// What came of it.
    pub came: CameTrue,
}

/// Whether what was stated came true.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CameTrue {
    /// It did.
    Yes,
    /// It did not.
    No,
}

/// The score of stated probabilities and its parts.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BrierScore {
    /// How many statements there were.
    pub count: usize,
    /// The score.
    pub score: f64,
    /// How far what was said is from what came of it; 0 is best.
    pub reliability: f64,
    /// How well sure and unsure are told apart; more is better.
    pub resolution: f64,
    /// What lies in the matter itself.
    pub uncertainty: f64,
    /// By how much the probability was too high on average; negative where it was too low.
    pub overconfidence: f64,
    /// The groups of the same probability, the lowest first.
    pub groups: Vec<StatedGroup>,
}

/// All statements of one probability.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct StatedGroup {
    /// The probability that was stated.
    pub probability: f64,
    /// How often.
    pub count: usize,
    /// How many of these came true.
    pub came_true: usize,
}

impl StatedGroup {
    /// The frequency with which they came true.
    pub fn frequency(&self) -> f64 {
        self.came_true as f64 / self.count as f64
    }
}

impl BrierScore {
    /// The score; `None` without a statement, or if a probability is not one.
    pub fn of(stated: &[Stated]) -> Option<Self> {
        if stated.is_empty() || stated.iter().any(|one| !(0.0..=1.0).contains(&one.probability)) {
            return None;
        }
        let count = stated.len() as f64;
        let square = |x: f64| x * x;
        let score =
            stated.iter().map(|one| square(one.probability - one.came.value())).sum::<f64>();
        let came = stated.iter().map(|one| one.came.value()).sum::<f64>() / count;
        let said = stated.iter().map(|one| one.probability).sum::<f64>() / count;
        let groups = groups(stated);
        let over_groups = |distance: &dyn Fn(&StatedGroup) -> f64| {
            groups.iter().map(|group| group.count as f64 * square(distance(group))).sum::<f64>()
                / count
        };
        Some(Self {
            count: stated.len(),
            score: score / count,
            reliability: over_groups(&|group| group.probability - group.frequency()),
            resolution: over_groups(&|group| group.frequency() - came),
            uncertainty: came * (1.0 - came),
            overconfidence: said - came,
            groups,
        })
    }
}

impl CameTrue {
    /// 1 or 0.
    const fn value(self) -> f64 {
        match self {
            Self::Yes => 1.0,
            Self::No => 0.0,
        }
    }
}

impl From<bool> for CameTrue {
    fn from(came: bool) -> Self {
        if came { Self::Yes } else { Self::No }
    }
}

/// The statements in groups of the same probability.
fn groups(stated: &[Stated]) -> Vec<StatedGroup> {
    let mut sorted = stated.to_vec();
    sorted.sort_by(|one, other| one.probability.total_cmp(&other.probability));
    let mut groups: Vec<StatedGroup> = Vec::new();
    for one in sorted {
        let came_true = usize::from(one.came == CameTrue::Yes);
        match groups.last_mut() {
            Some(group) if group.probability.total_cmp(&one.probability).is_eq() => {
                group.count += 1;
                group.came_true += came_true;
            }
            _ => groups.push(StatedGroup { probability: one.probability, count: 1, came_true }),
        }
    }
    groups
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::noise::Stream;

    fn stated(of: &[(f64, bool)]) -> Vec<Stated> {
        of.iter().map(|&(probability, came)| Stated { probability, came: came.into() }).collect()
    }

    #[test]
    fn the_score_is_that_of_a_calculation_by_hand() {
        // (0.1² + 0.1² + 0.9² + 0.4² + 0.6²)/5 = (0.01 + 0.01 + 0.81 + 0.16 + 0.36)/5 = 0.27.
        let five = [(0.9, true), (0.9, true), (0.9, false), (0.6, true), (0.6, false)];
        let score = BrierScore::of(&stated(&five)).expect("a score");
        assert!((score.score - 0.27).abs() < 1e-12, "{score:?}");
        // Groups: 0.9 came true in 2 of 3, 0.6 in 1 of 2; in all 3 of 5.
        let over = 0.9_f64 - 2.0 / 3.0;
        let reliability = (3.0 * over * over + 2.0 * 0.1 * 0.1) / 5.0;
        assert!((score.reliability - reliability).abs() < 1e-12);
        assert!((score.uncertainty - 0.24).abs() < 1e-12);
        assert!((score.overconfidence - (0.78 - 0.6)).abs() < 1e-12);
        let last = score.groups.last().expect("a group");
        assert_eq!((last.count, last.came_true), (3, 2));
    }

    #[test]
    fn guesses_get_a_quarter_and_certain_truths_nothing() {
        let guess = BrierScore::of(&stated(&[(0.5, true), (0.5, false)])).expect("a score");
        assert!((guess.score - 0.25).abs() < 1e-12);
        let sure = BrierScore::of(&stated(&[(1.0, true), (1.0, true)])).expect("a score");
        assert!(sure.score.abs() < 1e-12);
        assert_eq!(BrierScore::of(&[]), None);
        assert_eq!(BrierScore::of(&stated(&[(f64::NAN, true)])), None);
        assert_eq!(BrierScore::of(&stated(&[(1.2, true)])), None);
    }

    #[test]
    fn the_three_parts_make_the_score() {
        let mut draws = Stream::new(1, "brier");
        for count in 1..200 {
            let one = |_| {
                let tenths = (10.0 * draws.unit()).floor();
                (tenths / 10.0, draws.unit() < 0.6)
            };
            let of: Vec<(f64, bool)> = (0..count).map(one).collect();
            let score = BrierScore::of(&stated(&of)).expect("a score");
            let parts = score.reliability - score.resolution + score.uncertainty;
            assert!((parts - score.score).abs() < 1e-12, "{score:?}");
            assert!((0.0..=1.0).contains(&score.score));
        }
    }
}
