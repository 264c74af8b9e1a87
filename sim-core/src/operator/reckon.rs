//! The sums, as they are done with a pencil.

use crate::scenario::setup::Pair;
use crate::units::ZERO_CELSIUS_K;

/// Standard temperature, K (READ, 40 CFR Part 50 App. B, 2.2).
const STANDARD_K: f64 = 298.0;
/// Standard pressure, mmHg (READ, 40 CFR Part 50 App. B, 2.2).
const STANDARD_MMHG: f64 = 760.0;

/// sqrt(P/760 298/T), P in mmHg, T from degrees Celsius.
pub(super) fn root_factor(pressure_mmhg: f64, temperature_c: f64) -> f64 {
    (pressure_mmhg / STANDARD_MMHG * STANDARD_K / (temperature_c + ZERO_CELSIUS_K)).max(0.0).sqrt()
}

/// Flow at standard conditions, m3/min: (sqrt(dH) f - b)/m, f the root factor.
pub(super) fn flow(delta_h_in: f64, factor: f64, standard: Pair) -> f64 {
    (delta_h_in.max(0.0).sqrt() * factor - standard.intercept) / standard.slope
}

/// A number with so many decimals.
pub(super) fn rounded(value: f64, decimals: u32) -> f64 {
    let scale = f64::from(10_u32.saturating_pow(decimals));
    (value * scale).round() / scale
}

/// A straight line through (flow, chart term).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Line {
    /// Slope.
    pub slope: f64,
    /// Intercept.
    pub intercept: f64,
    /// Correlation coefficient.
    pub correlation: f64,
    /// Largest distance of a point from the line along the flow, m3/min.
    pub worst: f64,
}

/// Least squares, centred; `None` for fewer than three points or points at one flow.
pub(super) fn line(points: &[(f64, f64)]) -> Option<Line> {
    if points.len() < 3 {
        return None;
    }
    let n = points.len() as f64;
    let mean = |pick: fn(&(f64, f64)) -> f64| points.iter().map(pick).sum::<f64>() / n;
    let (mean_x, mean_y) = (mean(|p| p.0), mean(|p| p.1));
    let sum = |of: fn(f64, f64) -> f64| {
        points.iter().map(|&(x, y)| of(x - mean_x, y - mean_y)).sum::<f64>()
    };
    let (xx, xy, yy) = (sum(|x, _| x * x), sum(|x, y| x * y), sum(|_, y| y * y));
    let slope = xy / xx;
    let intercept = mean_y - slope * mean_x;
    let correlation = xy / (xx * yy).sqrt();
    let off = |&(x, y): &(f64, f64)| ((y - intercept) / slope - x).abs();
    let worst = points.iter().map(off).fold(0.0, f64::max);
    let line = Line { slope, intercept, correlation, worst };
    [slope, intercept, correlation, worst].iter().all(|v| v.is_finite()).then_some(line)
}

#[cfg(test)]
mod tests {
    use super::{line, root_factor, rounded};

    #[test]
    fn a_line_worked_by_hand() {
        let fitted = line(&[(1.0, 33.0), (1.2, 40.0), (1.4, 46.0), (1.6, 53.0)]).unwrap();
        // Sxx = 0.2, Sxy = 6.6, Syy = 218; means 1.3 and 43.
        assert!((fitted.slope - 33.0).abs() < 1e-9);
        assert!((fitted.intercept - 0.1).abs() < 1e-9);
        assert!((fitted.correlation - 6.6 / (0.2_f64 * 218.0).sqrt()).abs() < 1e-12);
    }

    #[test]
    fn points_at_one_flow_have_no_line() {
        assert_eq!(line(&[(1.0, 33.0), (1.0, 40.0), (1.0, 46.0)]), None);
    }

    #[test]
    fn the_factor_is_one_at_standard_conditions() {
        assert!((root_factor(760.0, 24.85) - 1.0).abs() < 1e-12);
        assert!((rounded(1.23456, 3) - 1.235).abs() < 1e-12);
    }
}
