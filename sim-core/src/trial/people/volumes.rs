//! What the marks say about the volumes, which is what counts: how many pass with volumes that are
//! off, and how many fail although their volumes are good.

use serde::Serialize;

use super::estimate::Share;
use super::seated::Seated;
use super::sitting::MarkedSitting;

/// Errors of a volume that are counted, percent.
pub const BOUNDS_PCT: [f64; 3] = [3.0, 5.0, 10.0];

/// What a decision says about volumes that are off by more than a bound.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct VolumeFigures {
    /// The bound, percent.
    pub off_by_more_than_pct: f64,
    /// Of those who pass with a volume: how many have one that is off by more.
    pub passed_off: Share,
    /// Of those whose volume is not off by more: how many fail.
    pub good_failed: Share,
}

impl VolumeFigures {
    /// Counts people, given as the error of their volume and whether they pass.
    pub fn of(bound_pct: f64, people: impl Iterator<Item = (f64, bool)> + Clone) -> Self {
        let off = move |error_pct: f64| error_pct.abs() > bound_pct;
        let passed = people.clone().filter(|&(_, passes)| passes);
        let good = people.filter(move |&(error_pct, _)| !off(error_pct));
        Self {
            off_by_more_than_pct: bound_pct,
            passed_off: Share::of(passed.map(|(error_pct, _)| off(error_pct))),
            good_failed: Share::of(good.map(|(_, passes)| !passes)),
        }
    }

    /// The figures of several scenarios together.
    pub fn together<'a>(all: impl IntoIterator<Item = &'a Self>) -> Option<Self> {
        let sum = |one: Share, other: Share| Share::new(one.count + other.count, one.of + other.of);
        all.into_iter().copied().reduce(|one, other| Self {
            off_by_more_than_pct: one.off_by_more_than_pct,
            passed_off: sum(one.passed_off, other.passed_off),
            good_failed: sum(one.good_failed, other.good_failed),
        })
    }
}

/// The sittings from which a volume follows, with its error, percent.
pub fn with_volume(people: &[Seated]) -> impl Iterator<Item = (&MarkedSitting, f64)> + Clone {
    let marked = people.iter().filter_map(Seated::marked);
    marked.filter_map(|marked| Some((marked, marked.volume_error_pct?)))
}

/// The figures for every bound at the scenario's own pass mark.
pub fn at_own_mark(people: &[Seated]) -> Vec<VolumeFigures> {
    let decided = with_volume(people).map(|(marked, error_pct)| (error_pct, marked.passed));
    BOUNDS_PCT.iter().map(|&bound| VolumeFigures::of(bound, decided.clone())).collect()
}

#[cfg(test)]
mod tests {
    use super::VolumeFigures;

    #[test]
    fn false_passes_and_false_fails_by_hand() {
        let people = [(0.5, true), (-6.0, true), (4.0, false), (-0.1, false), (12.0, false)];
        let five = VolumeFigures::of(5.0, people.into_iter());
        assert_eq!((five.passed_off.count, five.passed_off.of), (1, 2));
        assert_eq!((five.good_failed.count, five.good_failed.of), (2, 3));
        let three = VolumeFigures::of(3.0, people.into_iter());
        assert_eq!((three.good_failed.count, three.good_failed.of), (1, 2));
        let both = VolumeFigures::together([&five, &five]).unwrap();
        assert_eq!((both.passed_off.count, both.good_failed.of), (2, 6));
    }
}
