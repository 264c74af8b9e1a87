//! A proportion of sessions with its confidence interval.

use serde::Serialize;

/// Standard normal deviate for a two-sided level of 95 % (MEMORY: tables of the normal distribution).
pub(super) const Z_95: f64 = 1.959_963_984_540_054;

/// A proportion with its confidence interval at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ConfidenceInterval {
    /// The proportion itself, 0 to 1; 0 when nothing was counted.
    pub share: f64,
    /// The lower bound.
    pub low: f64,
    /// The upper bound.
    pub high: f64,
}

/// Wilson's score interval of a proportion at 95 %.
///
/// centre = (p + z²/2n)/(1 + z²/n), half-width = z sqrt(p (1 - p)/n + z²/4n²)/(1 + z²/n), with p the
/// proportion, n the number counted and z = 1.959964. It holds for small n and for proportions near 0
/// and 1, where the usual p ± z sqrt(p (1 - p)/n) has no width. Without a count it is 0 to 1.
///
/// Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212 (MEMORY).
pub fn pass_rate(passed: u64, of: u64) -> ConfidenceInterval {
    if of == 0 {
        return ConfidenceInterval { share: 0.0, low: 0.0, high: 1.0 };
    }
    let passed = passed.min(of);
    let n = of as f64;
    let p = passed as f64 / n;
    let z2 = Z_95 * Z_95;
    let shrink = 1.0 + z2 / n;
    let centre = (p + z2 / (2.0 * n)) / shrink;
    let half = Z_95 * (p * (1.0 - p) / n + z2 / (4.0 * n * n)).sqrt() / shrink;
    // When none or all passed, one bound is exact; rounding would leave a small error there.
    let low = if passed == 0 { 0.0 } else { (centre - half).max(0.0) };
    let high = if passed == of { 1.0 } else { (centre + half).min(1.0) };
    ConfidenceInterval { share: p, low, high }
}

#[cfg(test)]
mod tests {
    use super::pass_rate;

    fn near(one: f64, other: f64) -> bool {
        (one - other).abs() < 5e-5
    }

    #[test]
    fn ninety_five_of_a_hundred_by_hand() {
        // z²/n = 0.0384146; centre 0.9692073/1.0384146 = 0.933353;
        // half 1.959964 sqrt(0.000475 + 0.00009603647)/1.0384146 = 0.045104.
        let interval = pass_rate(95, 100);
        assert!(near(interval.share, 0.95));
        assert!(near(interval.low, 0.88825), "{}", interval.low);
        assert!(near(interval.high, 0.97846), "{}", interval.high);
    }

    #[test]
    fn all_of_them_by_hand() {
        // low = n/(n + z²) when all passed: 1000/1003.8414588.
        let interval = pass_rate(1000, 1000);
        assert!(near(interval.low, 1000.0 / 1_003.841_458_8), "{}", interval.low);
        assert!((interval.high - 1.0).abs() < 1e-15);
        // And mirrored: high = z²/(n + z²) when none did.
        let none = pass_rate(0, 1000);
        assert!(none.low.abs() < 1e-15 && near(none.high, 3.841_458_8 / 1_003.841_458_8));
    }

    #[test]
    fn nothing_counted_says_nothing() {
        let interval = pass_rate(0, 0);
        assert!(interval.low.abs() < 1e-15 && (interval.high - 1.0).abs() < 1e-15);
    }
}
