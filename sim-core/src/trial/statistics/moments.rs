//! Mean, variance and quantiles.

/// Arithmetic mean; 0 without values.
pub fn mean(values: &[f64]) -> f64 {
    if values.is_empty() { 0.0 } else { values.iter().sum::<f64>() / values.len() as f64 }
}

/// Variance of a sample, Σ(x - x̄)²/(n - 1); 0 for fewer than two values.
pub fn variance(values: &[f64]) -> f64 {
    if values.len() < 2 {
        return 0.0;
    }
    let mean = mean(values);
    let squares: f64 = values.iter().map(|x| (x - mean) * (x - mean)).sum();
    squares / (values.len() - 1) as f64
}

/// Standard deviation of a sample.
pub fn sd(values: &[f64]) -> f64 {
    variance(values).sqrt()
}

/// The quantile of a share p of sorted values, with linear interpolation: the value at rank
/// (n - 1) p, counted from 0. `None` without values.
///
/// Source: definition 7 of R. J. Hyndman and Y. Fan, The American Statistician 50 (1996) 361-365
/// (MEMORY).
pub fn quantile(sorted: &[f64], p: f64) -> Option<f64> {
    let last = sorted.len().checked_sub(1)?;
    let rank = p.clamp(0.0, 1.0) * last as f64;
    let below = rank.floor();
    let low = *sorted.get(below as usize)?;
    let high = *sorted.get((below as usize + 1).min(last))?;
    Some(low + (rank - below) * (high - low))
}

/// The values in ascending order.
pub fn sorted(values: &[f64]) -> Vec<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_by_hand() {
        let values = [70.0, 80.0, 90.0, 100.0];
        assert!((mean(&values) - 85.0).abs() < 1e-12);
        assert!((variance(&values) - 500.0 / 3.0).abs() < 1e-12);
        assert!(mean(&[]).abs() < 1e-15 && variance(&[3.0]).abs() < 1e-15);
    }

    #[test]
    fn quantiles_lie_between_neighbours() {
        let values = sorted(&[40.0, 10.0, 30.0, 20.0]);
        let at = |p| quantile(&values, p).unwrap();
        assert!((at(0.0) - 10.0).abs() < 1e-12 && (at(1.0) - 40.0).abs() < 1e-12);
        assert!((at(0.5) - 25.0).abs() < 1e-12 && (at(0.25) - 17.5).abs() < 1e-12);
        assert_eq!(quantile(&[], 0.5), None);
    }
}
