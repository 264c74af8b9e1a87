//! How a number differs from one bench to the next.

use rand_distr::{Distribution, StandardNormal, Uniform};
use serde::{Deserialize, Serialize};

use crate::noise;

/// Draws from a normal distribution stay within this many standard deviations of its mean.
pub const NORMAL_REACH_SD: f64 = 3.0;

/// A number that is drawn separately for each seed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub enum Spread {
    /// Always this.
    Fixed(f64),
    /// Mean and standard deviation; draws beyond three standard deviations are drawn again.
    Normal(f64, f64),
    /// Lowest and highest value; all values between are equally likely.
    Uniform(f64, f64),
}

impl Spread {
    /// The middle of the spread.
    pub const fn centre(self) -> f64 {
        match self {
            Self::Fixed(value) => value,
            Self::Normal(mean, _) => mean,
            Self::Uniform(low, high) => 0.5 * (low + high),
        }
    }

    /// The lowest and the highest value that can be drawn.
    pub fn bounds(self) -> (f64, f64) {
        match self {
            Self::Fixed(value) => (value, value),
            Self::Normal(mean, sd) => (mean - NORMAL_REACH_SD * sd, mean + NORMAL_REACH_SD * sd),
            Self::Uniform(low, high) => (low, high),
        }
    }

    /// What is wrong with the numbers of the spread, and how to fix it.
    pub fn flaw(self) -> Option<(String, &'static str)> {
        match self {
            Self::Normal(_, sd) if sd < 0.0 || !sd.is_finite() => Some((
                format!("the standard deviation {sd} is not zero or more"),
                "write the mean first, then a standard deviation of 0 or more",
            )),
            Self::Uniform(low, high) if low > high => Some((
                format!("the lowest value {low} is above the highest value {high}"),
                "write the lowest value first, then the highest",
            )),
            _ => None,
        }
    }

    /// The value for the bench with this seed. Each name has a random stream of its own, so that a
    /// new parameter does not shift the others.
    pub fn draw(self, seed: u64, name: &str) -> f64 {
        let mut generator = noise::generator(seed, name);
        match self {
            Self::Fixed(value) => value,
            Self::Normal(mean, sd) => {
                // One draw in 370 is outside; a hundred in a row do not happen.
                let within = (0..100)
                    .map(|_| Distribution::<f64>::sample(&StandardNormal, &mut generator))
                    .find(|z| z.abs() <= NORMAL_REACH_SD);
                mean + sd * within.unwrap_or(0.0)
            }
            Self::Uniform(low, high) => match Uniform::new_inclusive(low, high) {
                Ok(uniform) => uniform.sample(&mut generator),
                Err(_) => low,
            },
        }
    }
}

impl std::fmt::Display for Spread {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Fixed(value) => write!(f, "Fixed({value})"),
            Self::Normal(mean, sd) => write!(f, "Normal({mean}, {sd})"),
            Self::Uniform(low, high) => write!(f, "Uniform({low}, {high})"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn draws_follow_their_distribution_and_stay_within_bounds() {
        let spread = Spread::Normal(10.0, 2.0);
        let draws: Vec<f64> = (0..4000).map(|seed| spread.draw(seed, "test")).collect();
        let mean = draws.iter().sum::<f64>() / 4000.0;
        let sd = (draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / 4000.0).sqrt();
        assert!((mean - 10.0).abs() < 0.1, "mean {mean}");
        // Cutting the tails off at three standard deviations takes 1.3 % from the deviation.
        assert!((sd - 1.973).abs() < 0.08, "sd {sd}");
        assert!(draws.iter().all(|x| (4.0..=16.0).contains(x)));
        assert!(draws.iter().any(|x| *x > 14.0), "no draw beyond two standard deviations");
    }

    #[test]
    fn one_name_does_not_shift_another() {
        let spread = Spread::Uniform(0.0, 1.0);
        assert_eq!(spread.draw(7, "a").to_bits(), spread.draw(7, "a").to_bits());
        assert_ne!(spread.draw(7, "a").to_bits(), spread.draw(7, "b").to_bits());
        assert_ne!(spread.draw(7, "a").to_bits(), spread.draw(8, "a").to_bits());
    }

    #[test]
    fn nonsense_is_drawn_without_a_panic() {
        assert!(Spread::Uniform(2.0, 1.0).draw(1, "x") >= 1.0);
        assert!(Spread::Normal(1.0, f64::NAN).draw(1, "x").is_nan());
        assert!(Spread::Uniform(f64::NAN, 1.0).draw(1, "x").is_nan());
    }
}
