//! The straight line of least squares.

use super::student_t::{LARGEST_CONFIDENCE, student_t_two_sided};

/// A straight line `y = slope * x + intercept` fitted by least squares of y on x, with the
/// statistics of the fit.
///
/// Calculated by the centred two-pass method: the means first, then the sums of squares about them,
///
/// ```text
/// Sxx = sum (x - xm)^2     Sxy = sum (x - xm)(y - ym)     Syy = sum (y - ym)^2
/// slope = Sxy / Sxx        intercept = ym - slope xm      r = Sxy / sqrt(Sxx Syy)
/// SSE = sum (y - slope x - intercept)^2                   s = sqrt(SSE / (n - 2))
/// SE(slope) = s / sqrt(Sxx)                SE(intercept) = s sqrt(1/n + xm^2 / Sxx)
/// ```
///
/// Source: least squares as certified in the Statistical Reference Datasets of NIST, linear
/// regression (READ).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FittedLine {
    /// Slope, y units over x units.
    pub slope: f64,
    /// Intercept, y units.
    pub intercept: f64,
    /// Correlation coefficient, -1 to 1.
    pub r: f64,
    /// Fraction of the variation of y that the line explains, 0 to 1.
    pub r2: f64,
    /// Residual standard deviation over n - 2 degrees of freedom, y units.
    pub residual_sd: f64,
    /// Standard error of the slope.
    pub se_slope: f64,
    /// Standard error of the intercept.
    pub se_intercept: f64,
    /// Sum of squares that the line explains.
    pub sum_squares_regression: f64,
    /// Sum of squares of the residuals.
    pub sum_squares_residual: f64,
    /// Mean of x.
    pub x_mean: f64,
    /// Sum of squares of x about its mean.
    pub sxx: f64,
    /// Number of points.
    pub points: u32,
}

/// Why a line cannot be fitted, or an interval cannot be given. The message says what to do.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum LineError {
    /// A line with its scatter needs three points.
    #[error(
        "a line needs at least {} points, but there are {found}: take more",
        FittedLine::FEWEST_POINTS
    )]
    TooFewPoints {
        /// How many there are.
        found: usize,
    },
    /// More points than can be counted.
    #[error("there are {found} points: use fewer than 4 000 000 000")]
    TooManyPoints {
        /// How many there are.
        found: usize,
    },
    /// A coordinate is infinite or not a number.
    #[error("point {number} is not finite: check its readings")]
    NotFinite {
        /// Its number, from 1.
        number: usize,
    },
    /// All points have the same x.
    #[error("all points have the same x: take points at different flows")]
    AllXEqual,
    /// All points have the same y, so that there is no correlation.
    #[error(
        "all points have the same y, so the reading does not follow the flow: check the recorder"
    )]
    AllYEqual,
    /// The sums of squares leave the range of numbers.
    #[error(
        "the values are too large, too small or too close together to fit a line: check their units"
    )]
    OutOfRange,
    /// No such confidence.
    #[error(
        "the confidence {confidence} is out of range: use one above 0 and up to {LARGEST_CONFIDENCE}"
    )]
    Confidence {
        /// What was asked for.
        confidence: f64,
    },
}

/// An interval about a value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PredictionInterval {
    /// Lower end.
    pub low: f64,
    /// The value itself.
    pub middle: f64,
    /// Upper end.
    pub high: f64,
}

impl FittedLine {
    /// The fewest points that give a line with its scatter.
    pub const FEWEST_POINTS: usize = 3;

    /// Fits the line to points (x, y).
    ///
    /// # Errors
    ///
    /// With fewer than three points, a coordinate that is not finite, all x or all y equal, or
    /// values so large or small that their squares leave the range of numbers.
    pub fn fit(points: &[(f64, f64)]) -> Result<Self, LineError> {
        let found = points.len();
        if found < Self::FEWEST_POINTS {
            return Err(LineError::TooFewPoints { found });
        }
        let count = u32::try_from(found).map_err(|_| LineError::TooManyPoints { found })?;
        if let Some(at) = points.iter().position(|(x, y)| !x.is_finite() || !y.is_finite()) {
            return Err(LineError::NotFinite { number: at + 1 });
        }
        refuse_level(points)?;
        let n = f64::from(count);
        let x_mean = mean(points.iter().map(|&(x, _)| x), n);
        let y_mean = mean(points.iter().map(|&(_, y)| y), n);
        let (mut sxx, mut sxy, mut syy) = (0.0, 0.0, 0.0);
        for &(x, y) in points {
            sxx += (x - x_mean) * (x - x_mean);
            sxy += (x - x_mean) * (y - y_mean);
            syy += (y - y_mean) * (y - y_mean);
        }
        let slope = sxy / sxx;
        let intercept = y_mean - slope * x_mean;
        // Residuals about the means, not about the intercept: the intercept may be far away.
        let sum_squares_residual = points.iter().fold(0.0, |sum, &(x, y)| {
            let residual = (y - y_mean) - slope * (x - x_mean);
            sum + residual * residual
        });
        let residual_sd = (sum_squares_residual / (n - 2.0)).sqrt();
        let line = Self {
            slope,
            intercept,
            r: (sxy / (sxx.sqrt() * syy.sqrt())).clamp(-1.0, 1.0),
            r2: (1.0 - sum_squares_residual / syy).clamp(0.0, 1.0),
            residual_sd,
            se_slope: residual_sd / sxx.sqrt(),
            se_intercept: residual_sd * (1.0 / n + x_mean * x_mean / sxx).sqrt(),
            sum_squares_regression: slope * sxy,
            sum_squares_residual,
            x_mean,
            sxx,
            points: count,
        };
        if line.all_finite() { Ok(line) } else { Err(LineError::OutOfRange) }
    }

    /// The line's y at an x.
    pub fn y_at(&self, x: f64) -> f64 {
        self.slope * x + self.intercept
    }

    /// Distance of a point (x, y) from the line along x, in x units: `(y - intercept) / slope - x`.
    /// Positive when the line gives more than the point. Not finite for a level line.
    pub fn off_along_x(&self, (x, y): (f64, f64)) -> f64 {
        (y - self.intercept) / self.slope - x
    }

    /// Distance of the farthest of several points from the line along x; zero without points.
    pub fn farthest_along_x(&self, points: &[(f64, f64)]) -> f64 {
        points.iter().map(|&point| self.off_along_x(point).abs()).fold(0.0, f64::max)
    }

    /// How far points (x, y) are above the line, in y units.
    pub fn residuals(&self, points: &[(f64, f64)]) -> Vec<f64> {
        points.iter().map(|&(x, y)| y - self.y_at(x)).collect()
    }

    /// Where one more reading at `x` would fall with a confidence of, say, 0.95:
    /// `y(x) +- t s sqrt(1 + 1/n + (x - xm)^2 / Sxx)`, t Student's with n - 2 degrees of freedom.
    ///
    /// # Errors
    ///
    /// When the confidence is not above 0 and up to [`LARGEST_CONFIDENCE`], or `x` is so far away
    /// that the interval is not finite.
    pub fn prediction_interval(
        &self,
        x: f64,
        confidence: f64,
    ) -> Result<PredictionInterval, LineError> {
        let t = student_t_two_sided(confidence, self.points.saturating_sub(2))
            .ok_or(LineError::Confidence { confidence })?;
        let off = x - self.x_mean;
        let spread = (1.0 + 1.0 / f64::from(self.points) + off * off / self.sxx).sqrt();
        let half = t * self.residual_sd * spread;
        let middle = self.y_at(x);
        let interval = PredictionInterval { low: middle - half, middle, high: middle + half };
        if interval.low.is_finite() && interval.high.is_finite() {
            Ok(interval)
        } else {
            Err(LineError::OutOfRange)
        }
    }

    fn all_finite(&self) -> bool {
        [
            self.slope,
            self.intercept,
            self.r,
            self.r2,
            self.residual_sd,
            self.se_slope,
            self.se_intercept,
            self.sum_squares_regression,
            self.sum_squares_residual,
            self.x_mean,
            self.sxx,
        ]
        .iter()
        .all(|value| value.is_finite())
    }
}

/// Refuses points that all have the same x, or all the same y.
fn refuse_level(points: &[(f64, f64)]) -> Result<(), LineError> {
    let level = |values: &mut dyn Iterator<Item = f64>| {
        let (low, high) = values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (value.min(low), value.max(high))
        });
        low >= high
    };
    if level(&mut points.iter().map(|&(x, _)| x)) {
        Err(LineError::AllXEqual)
    } else if level(&mut points.iter().map(|&(_, y)| y)) {
        Err(LineError::AllYEqual)
    } else {
        Ok(())
    }
}

/// The mean, with a second pass that corrects the rounding of the first sum.
fn mean(values: impl Iterator<Item = f64> + Clone, n: f64) -> f64 {
    let first = values.clone().sum::<f64>() / n;
    first + values.map(|value| value - first).sum::<f64>() / n
}

#[cfg(test)]
mod tests {
    use super::*;

    fn refused(points: &[(f64, f64)]) -> LineError {
        FittedLine::fit(points).unwrap_err()
    }

    #[test]
    fn a_line_through_its_points_has_no_scatter() {
        let line = FittedLine::fit(&[(1.0, 5.0), (2.0, 7.0), (3.0, 9.0)]).unwrap();
        for (found, expected) in [(line.slope, 2.0), (line.intercept, 3.0), (line.r, 1.0)] {
            assert!((found - expected).abs() < 1e-14);
        }
        assert!(line.residual_sd < 1e-14);
        let interval = line.prediction_interval(2.5, 0.95).unwrap();
        assert!((interval.middle - 8.0).abs() < 1e-13);
    }

    #[test]
    fn a_falling_line_has_a_negative_r() {
        let line = FittedLine::fit(&[(1.0, 3.0), (2.0, 2.1), (3.0, 1.0)]).unwrap();
        assert!(line.slope < 0.0 && line.r < -0.99);
    }

    #[test]
    fn what_gives_no_line_is_refused() {
        assert_eq!(refused(&[(1.0, 1.0), (2.0, 2.0)]), LineError::TooFewPoints { found: 2 });
        assert_eq!(refused(&[(0.1, 1.0), (0.1, 2.0), (0.1, 3.0)]), LineError::AllXEqual);
        assert_eq!(refused(&[(1.0, 0.7), (2.0, 0.7), (3.0, 0.7)]), LineError::AllYEqual);
        assert_eq!(
            refused(&[(1.0, 1.0), (f64::NAN, 2.0), (3.0, 3.0)]),
            LineError::NotFinite { number: 2 }
        );
        assert_eq!(refused(&[(1e300, 1.0), (2e300, 2.0), (3e300, 4.0)]), LineError::OutOfRange);
        assert_eq!(refused(&[(1e-300, 1.0), (2e-300, 2.0), (3e-300, 4.0)]), LineError::OutOfRange);
    }
}
