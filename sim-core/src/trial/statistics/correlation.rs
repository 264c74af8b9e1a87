//! Correlation of two series, and its interval.

use super::moments::mean;
use crate::math;
use crate::trial::interval::Z_95;

/// Pearson's correlation. `None` if either series is constant or there are fewer than two pairs.
pub fn pearson(pairs: &[(f64, f64)]) -> Option<f64> {
    let (xs, ys): (Vec<f64>, Vec<f64>) = pairs.iter().copied().unzip();
    let (x_mean, y_mean) = (mean(&xs), mean(&ys));
    let (mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0);
    for &(x, y) in pairs {
        let (x, y) = (x - x_mean, y - y_mean);
        xx += x * x;
        yy += y * y;
        xy += x * y;
    }
    // Rounding leaves a little variance in a constant series.
    let least = |mean: f64| 1e-20 * (1.0 + mean * mean) * pairs.len() as f64;
    if xx <= least(x_mean) || yy <= least(y_mean) {
        return None;
    }
    Some((xy / (xx.sqrt() * yy.sqrt())).clamp(-1.0, 1.0))
}

/// Point-biserial correlation between a rule (kept or not) and the rest of the marks: Pearson's
/// correlation with 1 for kept and 0 for broken.
pub fn point_biserial(kept_and_rest: &[(bool, f64)]) -> Option<f64> {
    let pairs: Vec<(f64, f64)> =
        kept_and_rest.iter().map(|&(kept, rest)| (if kept { 1.0 } else { 0.0 }, rest)).collect();
    pearson(&pairs)
}

/// Fisher's interval of a correlation of n pairs at 95 %: tanh(atanh r ± 1.96/sqrt(n - 3)).
/// `None` for fewer than four pairs or |r| = 1.
///
/// Source: R. A. Fisher, Biometrika 10 (1915) 507-521 (MEMORY).
pub fn fisher_interval(r: f64, n: usize) -> Option<[f64; 2]> {
    if n < 4 || r.abs() >= 1.0 {
        return None;
    }
    let z = 0.5 * math::ln((1.0 + r) / (1.0 - r));
    let half = Z_95 / ((n - 3) as f64).sqrt();
    Some([z - half, z + half].map(math::tanh))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_point_biserial_by_hand() {
        // Kept with 90, 80, 70; broken with 60, 50: r = 25/sqrt(200) sqrt(0.24) = sqrt(0.75).
        let rows = [(true, 90.0), (true, 80.0), (true, 70.0), (false, 60.0), (false, 50.0)];
        assert!((point_biserial(&rows).unwrap() - 0.75_f64.sqrt()).abs() < 1e-12);
        assert_eq!(point_biserial(&rows[..3]), None);
        assert_eq!(pearson(&[]), None);
    }

    #[test]
    fn an_interval_surrounds_its_correlation_and_narrows() {
        let [low, high] = fisher_interval(0.5, 103).unwrap();
        // z = 0.549306; 0.549306 ± 0.195996 is 0.353310 and 0.745302, tanh of which follows.
        assert!((low - 0.339_307).abs() < 1e-5 && (high - 0.632_338).abs() < 1e-5, "{low} {high}");
        assert_eq!(fisher_interval(1.0, 100), None);
        assert_eq!(fisher_interval(0.5, 3), None);
    }
}
