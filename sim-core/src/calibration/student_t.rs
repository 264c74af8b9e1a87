//! Quantiles of Student's distribution.

use crate::math;

/// The largest two-sided confidence that is supported: beyond it, the tail is lost in rounding.
pub const LARGEST_CONFIDENCE: f64 = 0.9999;

/// Up to here the exact finite sum is used; beyond, the expansion for many degrees of freedom,
/// whose first neglected term is then below 1e-10.
const MOST_SUMMED: u32 = 1000;

/// The t for which a fraction `confidence` of Student's distribution is between -t and t.
///
/// `degrees` is the number of degrees of freedom, at least 1. The relative error is below 1e-9 for
/// every number of degrees. `None` when there are no degrees of freedom, or the confidence is not
/// above 0 and up to [`LARGEST_CONFIDENCE`].
///
/// With theta = atan(t / sqrt(degrees)) the fraction is a finite sum of powers of cos(theta)
/// (Abramowitz and Stegun, Handbook of Mathematical Functions, 26.7.3 and 26.7.4, MEMORY; checked
/// against computed quantiles), solved for theta by bisection.
pub fn student_t_two_sided(confidence: f64, degrees: u32) -> Option<f64> {
    if degrees == 0 || !(confidence > 0.0 && confidence <= LARGEST_CONFIDENCE) {
        return None;
    }
    if degrees > MOST_SUMMED {
        return Some(many_degrees(confidence, f64::from(degrees)));
    }
    let theta = solve(math::PI / 2.0, confidence, |theta| share_within(theta, degrees));
    Some(f64::from(degrees).sqrt() * math::tan(theta))
}

/// Fraction of the distribution between -t and t, with theta = atan(t / sqrt(degrees)).
fn share_within(theta: f64, degrees: u32) -> f64 {
    let (sin, cos) = (math::sin(theta), math::cos(theta));
    let odd = degrees % 2 == 1;
    // Odd:  2/pi [theta + sin (cos + 2/3 cos^3 + 2 4/(3 5) cos^5 + ...)], up to cos^(degrees - 2).
    // Even: sin [1 + 1/2 cos^2 + 1 3/(2 4) cos^4 + ...], up to cos^(degrees - 2).
    let (mut power, mut term, mut sum) = if odd { (1, cos, 0.0) } else { (0, 1.0, 0.0) };
    while power + 2 <= degrees {
        sum += term;
        let next = f64::from(power);
        term *= cos * cos * (next + 1.0) / (next + 2.0);
        power += 2;
    }
    if odd { (theta + sin * sum) * 2.0 / math::PI } else { sin * sum }
}

/// For many degrees of freedom: the normal quantile and its first three corrections
/// (Abramowitz and Stegun, 26.7.5, MEMORY; checked where it meets the finite sum).
fn many_degrees(confidence: f64, degrees: f64) -> f64 {
    let z = solve(6.0, confidence, normal_share_within);
    let z2 = z * z;
    let first = z * (z2 + 1.0) / 4.0;
    let second = z * ((5.0 * z2 + 16.0) * z2 + 3.0) / 96.0;
    let third = z * (((3.0 * z2 + 19.0) * z2 + 17.0) * z2 - 15.0) / 384.0;
    z + (first + (second + third / degrees) / degrees) / degrees
}

/// Fraction of the normal distribution between -z and z, by the series of positive terms
/// `sqrt(2/pi) e^(-z^2/2) (z + z^3/3 + z^5/(3 5) + ...)` (Abramowitz and Stegun, 26.2.11, MEMORY).
fn normal_share_within(z: f64) -> f64 {
    let (mut term, mut sum, mut odd) = (z, 0.0, 1.0);
    while term > sum * 1e-17 {
        sum += term;
        odd += 2.0;
        term *= z * z / odd;
    }
    (2.0 / math::PI).sqrt() * math::exp(-z * z / 2.0) * sum
}

/// The x between 0 and `end` at which a rising function reaches `target`, by bisection until the
/// interval cannot be halved any more.
fn solve(end: f64, target: f64, rising: impl Fn(f64) -> f64) -> f64 {
    let (mut low, mut high) = (0.0, end);
    for _ in 0..200 {
        let middle = (low + high) / 2.0;
        if middle <= low || middle >= high {
            break;
        }
        if rising(middle) < target {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_two_forms_meet() {
        for confidence in [0.1, 0.5, 0.95, 0.99, LARGEST_CONFIDENCE] {
            let summed = student_t_two_sided(confidence, MOST_SUMMED).unwrap();
            let expanded = many_degrees(confidence, f64::from(MOST_SUMMED));
            assert!((summed / expanded - 1.0).abs() < 1e-10, "{confidence}: {summed} {expanded}");
        }
    }

    #[test]
    fn one_two_and_endless_degrees_have_closed_forms() {
        let close = |found: f64, expected: f64| (found / expected - 1.0).abs() < 1e-10;
        for confidence in [0.001, 0.5, 0.9, 0.95, 0.999, LARGEST_CONFIDENCE] {
            let tan = math::tan(math::PI * confidence / 2.0);
            assert!(close(student_t_two_sided(confidence, 1).unwrap(), tan));
            let root = confidence * (2.0 / (1.0 - confidence * confidence)).sqrt();
            assert!(close(student_t_two_sided(confidence, 2).unwrap(), root));
        }
        // The normal quantile for 0.975, to the digits of any table (MEMORY).
        let endless = student_t_two_sided(0.95, u32::MAX).unwrap();
        assert!((endless - 1.959963985).abs() < 2e-9, "{endless}");
    }

    #[test]
    fn what_has_no_answer_is_refused() {
        assert_eq!(student_t_two_sided(0.95, 0), None);
        for confidence in [0.0, -1.0, 1.0, 0.99999, f64::NAN] {
            assert_eq!(student_t_two_sided(confidence, 3), None);
        }
    }
}
