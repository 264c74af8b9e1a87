//! Abilities that go together: a normal distribution with correlations.

use serde::Serialize;

use crate::noise::Stream;

/// What a person is good at, in standard deviations from the average of trained people.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct LatentAbilities {
    /// Reading a scale: scatter and the height of the eye.
    pub eye: f64,
    /// Setting knob, scale and valves.
    pub hand: f64,
    /// Waiting, tapping, looking again, not forgetting.
    pub patience: f64,
    /// Knowing which checks are made and why.
    pub knowledge: f64,
    /// Calculating and copying without a slip.
    pub arithmetic: f64,
}

/// Number of abilities.
const COUNT: usize = 5;

/// Correlations of eye, hand, patience, knowledge and arithmetic (CHOSEN: all positive, as abilities
/// usually are; patience goes with knowledge and with arithmetic, eye with hand).
pub const CORRELATIONS: [[f64; COUNT]; COUNT] = [
    [1.0, 0.4, 0.2, 0.2, 0.1],
    [0.4, 1.0, 0.3, 0.2, 0.1],
    [0.2, 0.3, 1.0, 0.5, 0.4],
    [0.2, 0.2, 0.5, 1.0, 0.4],
    [0.1, 0.1, 0.4, 0.4, 1.0],
];

/// By how much careless people are below the average (CHOSEN: they see and handle a little worse, but
/// hardly wait or look again, have not learned half of what to check, and do not go over their sums).
pub const CARELESS: LatentAbilities =
    LatentAbilities { eye: -0.7, hand: -0.7, patience: -2.5, knowledge: -1.5, arithmetic: -1.5 };

/// The lower triangle L of a symmetric positive definite matrix, L Lᵀ = A.
///
/// `None` if the matrix is not positive definite. Source: A.-L. Cholesky's factorisation (MEMORY).
fn cholesky(matrix: &[[f64; COUNT]; COUNT]) -> Option<[[f64; COUNT]; COUNT]> {
    let mut lower = [[0.0_f64; COUNT]; COUNT];
    for row in 0..COUNT {
        for column in 0..=row {
            let dot: f64 = (0..column).map(|k| lower[row][k] * lower[column][k]).sum();
            let rest = matrix[row][column] - dot;
            lower[row][column] = if row == column {
                if rest <= 0.0 {
                    return None;
                }
                rest.sqrt()
            } else {
                rest / lower[column][column]
            };
        }
    }
    Some(lower)
}

impl LatentAbilities {
    /// Draws the abilities of one person from a stream: five independent standard normal numbers,
    /// multiplied by the lower triangle of [`CORRELATIONS`].
    pub fn draw(stream: &mut Stream) -> Self {
        let independent: [f64; COUNT] = std::array::from_fn(|_| stream.normal());
        let unit = || std::array::from_fn(|row| std::array::from_fn(|k| f64::from(row == k)));
        // The matrix above is positive definite, which a test holds.
        let lower: [[f64; COUNT]; COUNT] = cholesky(&CORRELATIONS).unwrap_or_else(unit);
        let [eye, hand, patience, knowledge, arithmetic] =
            lower.map(|row| row.iter().zip(independent).map(|(a, z)| a * z).sum());
        Self { eye, hand, patience, knowledge, arithmetic }
    }

    /// These abilities with those of another added.
    #[must_use]
    pub fn plus(self, other: Self) -> Self {
        Self {
            eye: self.eye + other.eye,
            hand: self.hand + other.hand,
            patience: self.patience + other.patience,
            knowledge: self.knowledge + other.knowledge,
            arithmetic: self.arithmetic + other.arithmetic,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::statistics::correlation::pearson;
    use crate::trial::statistics::moments::{mean, sd};

    #[test]
    fn the_triangle_multiplies_to_the_matrix() {
        let lower = cholesky(&CORRELATIONS).unwrap();
        for row in 0..COUNT {
            for column in 0..COUNT {
                let product: f64 = (0..COUNT).map(|k| lower[row][k] * lower[column][k]).sum();
                assert!((product - CORRELATIONS[row][column]).abs() < 1e-12);
                assert!((CORRELATIONS[row][column] - CORRELATIONS[column][row]).abs() < 1e-15);
            }
        }
        let mut impossible = CORRELATIONS;
        impossible[4][3] = 2.0;
        assert_eq!(cholesky(&impossible), None);
    }

    #[test]
    fn the_population_has_the_correlations_that_are_stated() {
        let people: Vec<[f64; COUNT]> = (0..4000)
            .map(|number| {
                let mut stream = Stream::new(7, &format!("person {number}"));
                let one = LatentAbilities::draw(&mut stream);
                [one.eye, one.hand, one.patience, one.knowledge, one.arithmetic]
            })
            .collect();
        for row in 0..COUNT {
            let column: Vec<f64> = people.iter().map(|one| one[row]).collect();
            assert!(mean(&column).abs() < 0.06 && (sd(&column) - 1.0).abs() < 0.05);
            for other in 0..row {
                let pairs: Vec<(f64, f64)> =
                    people.iter().map(|one| (one[row], one[other])).collect();
                let r = pearson(&pairs).unwrap();
                // Standard error of a correlation of 4000 pairs: 0.016.
                assert!((r - CORRELATIONS[row][other]).abs() < 0.06, "{row} {other}: {r}");
            }
        }
    }
}
