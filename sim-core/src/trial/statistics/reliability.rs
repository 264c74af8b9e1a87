//! Reliability of a sum of items: how much of its variance would come again.

use super::moments::variance;

/// Cronbach's alpha over rows of items, one row for each person:
///
/// ```text
/// alpha = k/(k - 1) (1 - Σ s_i²/s²)
/// ```
///
/// k is the number of items, s_i² the variance of item i and s² that of the sums. Every row must
/// have the same length. `None` for fewer than two items or rows, or if all sums are equal.
///
/// Source: L. J. Cronbach, Psychometrika 16 (1951) 297-334 (MEMORY).
pub fn alpha(rows: &[&[f64]]) -> Option<f64> {
    let items = rows.first()?.len();
    if items < 2 || rows.len() < 2 || rows.iter().any(|row| row.len() != items) {
        return None;
    }
    let column = |item: usize| -> Vec<f64> {
        rows.iter().filter_map(|row| row.get(item)).copied().collect()
    };
    let of_items: f64 = (0..items).map(|item| variance(&column(item))).sum();
    let sums: Vec<f64> = rows.iter().map(|row| row.iter().sum()).collect();
    let of_sums = variance(&sums);
    let k = items as f64;
    (of_sums > 1e-12).then(|| k / (k - 1.0) * (1.0 - of_items / of_sums))
}

/// Formula 20 of Kuder and Richardson for items that are kept or broken:
///
/// ```text
/// KR-20 = k/(k - 1) (1 - Σ p_i (1 - p_i)/s²)
/// ```
///
/// p_i is the share that kept item i, and s² the variance of the numbers of items kept, here with n
/// as divisor as in the numerator, so that it equals alpha. Every row must have the same length.
///
/// Source: G. F. Kuder and M. W. Richardson, Psychometrika 2 (1937) 151-160 (MEMORY).
pub fn kr20(rows: &[&[bool]]) -> Option<f64> {
    let items = rows.first()?.len();
    if items < 2 || rows.len() < 2 || rows.iter().any(|row| row.len() != items) {
        return None;
    }
    let mut kept = vec![0_u64; items];
    let (mut sum, mut squares) = (0_u64, 0_u64);
    for row in rows {
        let mut score = 0;
        for (count, &item) in kept.iter_mut().zip(*row) {
            *count += u64::from(item);
            score += u64::from(item);
        }
        sum += score;
        squares += score * score;
    }
    let n = rows.len() as f64;
    let of_items: f64 = kept.iter().map(|&count| count as f64 / n * (1.0 - count as f64 / n)).sum();
    let mean = sum as f64 / n;
    let of_sums = squares as f64 / n - mean * mean;
    let k = items as f64;
    (of_sums > 1e-12).then(|| k / (k - 1.0) * (1.0 - of_items / of_sums))
}

/// Standard error of measurement, s sqrt(1 - reliability): how far a person's marks scatter from
/// sitting to sitting. A reliability below 0 counts as 0.
pub fn standard_error_of_measurement(sd: f64, reliability: f64) -> f64 {
    sd * (1.0 - reliability.clamp(0.0, 1.0)).sqrt()
}

/// The same from pairs of parallel sittings, without any assumption on items: sqrt(Σ d²/2n), d
/// being the difference of both. `None` without a pair.
pub fn measurement_error_of_pairs(pairs: &[(f64, f64)]) -> Option<f64> {
    if pairs.is_empty() {
        return None;
    }
    let squares: f64 = pairs.iter().map(|(one, other)| (one - other) * (one - other)).sum();
    Some((squares / (2.0 * pairs.len() as f64)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    const KEPT: [[bool; 3]; 4] =
        [[true, true, true], [true, true, false], [true, false, false], [false, false, false]];

    #[test]
    fn kr20_by_hand() {
        // p = 3/4, 2/4, 1/4: Σ pq = 0.1875 + 0.25 + 0.1875 = 0.625. Scores 3, 2, 1, 0: s² = 1.25.
        let rows: Vec<&[bool]> = KEPT.iter().map(|row| &row[..]).collect();
        assert!((kr20(&rows).unwrap() - 0.75).abs() < 1e-12);
    }

    #[test]
    fn alpha_of_ones_and_zeros_is_kr20() {
        let numbers = KEPT.map(|row| row.map(|kept| if kept { 1.0 } else { 0.0 }));
        let rows: Vec<&[f64]> = numbers.iter().map(|row| &row[..]).collect();
        assert!((alpha(&rows).unwrap() - 0.75).abs() < 1e-12);
    }

    #[test]
    fn what_tells_nobody_apart_has_no_reliability() {
        let rows: [&[bool]; 3] = [&[true, false], &[true, false], &[true, false]];
        assert_eq!(kr20(&rows), None);
        assert_eq!(alpha(&[&[1.0, 2.0], &[1.0, 2.0]]), None);
        assert_eq!(alpha(&[]), None);
        assert_eq!(kr20(&[&[true, false], &[true]]), None);
    }

    #[test]
    fn both_errors_of_measurement_by_hand() {
        assert!((standard_error_of_measurement(10.0, 0.84) - 4.0).abs() < 1e-12);
        assert!((standard_error_of_measurement(10.0, -0.3) - 10.0).abs() < 1e-12);
        let found = measurement_error_of_pairs(&[(70.0, 74.0), (80.0, 80.0)]).unwrap();
        assert!((found - 2.0).abs() < 1e-12);
    }
}
