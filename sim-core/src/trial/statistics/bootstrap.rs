//! Intervals by resampling people, for figures whose scatter has no simple formula.

use super::moments::{quantile, sorted};
use crate::noise::Stream;

/// How often people are drawn anew (CHOSEN: the ends of an interval scatter by a tenth of its
/// width).
pub const REPLICATES: usize = 400;

/// Percentile interval at 95 % of a figure of n people.
///
/// n people are drawn with replacement, the figure is calculated from them, and this is repeated
/// [`REPLICATES`] times; the interval goes from the 2.5 to the 97.5 percentile. The draws come from
/// a stream of the seed with this name, so that no other figure shifts them. Replicates without a
/// figure are left out; `None` if fewer than half are left.
///
/// Source: B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993), chapter 13
/// (MEMORY).
pub fn interval(
    seed: u64,
    name: &str,
    n: usize,
    figure: impl Fn(&[usize]) -> Option<f64>,
) -> Option<[f64; 2]> {
    if n < 2 {
        return None;
    }
    let mut stream = Stream::new(seed, &format!("bootstrap of {name}"));
    let mut drawn = vec![0_usize; n];
    let mut found = Vec::with_capacity(REPLICATES);
    for _ in 0..REPLICATES {
        for index in &mut drawn {
            *index = ((stream.unit() * n as f64) as usize).min(n - 1);
        }
        found.extend(figure(&drawn).filter(|figure| figure.is_finite()));
    }
    if 2 * found.len() < REPLICATES {
        return None;
    }
    let found = sorted(&found);
    Some([quantile(&found, 0.025)?, quantile(&found, 0.975)?])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::statistics::moments::{mean, sd};

    #[test]
    fn the_interval_of_a_mean_is_that_of_its_standard_error() {
        let mut stream = Stream::new(5, "values");
        let values: Vec<f64> = (0..400).map(|_| 50.0 + 10.0 * stream.normal()).collect();
        let of = |drawn: &[usize]| {
            let drawn: Vec<f64> = drawn.iter().map(|&index| values[index]).collect();
            Some(mean(&drawn))
        };
        let [low, high] = interval(1, "mean", values.len(), of).unwrap();
        let half = 1.96 * sd(&values) / 20.0;
        assert!((high - low - 2.0 * half).abs() < 0.3 * half, "{low} to {high}, half {half}");
        assert!(low < mean(&values) && mean(&values) < high);
        assert_eq!(interval(1, "mean", values.len(), of), Some([low, high]));
    }

    #[test]
    fn a_figure_that_is_seldom_there_has_no_interval() {
        assert_eq!(interval(1, "none", 10, |_| None), None);
        assert_eq!(interval(1, "one", 1, |_| Some(1.0)), None);
    }
}
