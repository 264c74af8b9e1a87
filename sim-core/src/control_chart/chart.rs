//! The chart itself: its points, and the limits that the first of them give.

use crate::time::Date;

/// Flow checks of the base period (CHOSEN: a year of monthly checks).
pub const BASE_CHECKS: usize = 12;
/// Distance of the warning limits from the centre line, standard deviations (MEMORY, NIST/SEMATECH
/// e-Handbook of Statistical Methods, 6.3).
pub const WARNING_SD: f64 = 2.0;
/// Distance of the action limits from the centre line, standard deviations (the same).
pub const ACTION_SD: f64 = 3.0;

/// A flow check on the chart.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartPoint {
    /// When it was made.
    pub date: Date,
    /// Its percent difference: how much more flow the calibration line gave than the standard.
    pub difference_pct: f64,
}

/// The centre line and the scatter about it, from which all limits follow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChartLimits {
    /// The centre line: the mean of the base period, percent.
    pub centre_pct: f64,
    /// The sample standard deviation of the base period, percent.
    pub sd_pct: f64,
}

impl ChartLimits {
    /// Mean and sample standard deviation s of the checks of a base period,
    /// s² = Σ (x - mean)² / (n - 1).
    fn of(base: &[ChartPoint]) -> Self {
        let count = base.len() as f64;
        let centre_pct = base.iter().map(|point| point.difference_pct).sum::<f64>() / count;
        let squares = base.iter().map(|point| {
            let off = point.difference_pct - centre_pct;
            off * off
        });
        Self { centre_pct, sd_pct: (squares.sum::<f64>() / (count - 1.0)).sqrt() }
    }

    /// The lower and the upper warning limit, percent.
    pub fn warning_pct(&self) -> [f64; 2] {
        self.at(WARNING_SD)
    }

    /// The lower and the upper action limit, percent.
    pub fn action_pct(&self) -> [f64; 2] {
        self.at(ACTION_SD)
    }

    fn at(&self, sds: f64) -> [f64; 2] {
        [self.centre_pct - sds * self.sd_pct, self.centre_pct + sds * self.sd_pct]
    }
}

/// The flow checks of a sampler over time, with the limits of its own past.
#[derive(Debug, Clone, PartialEq)]
pub struct ControlChart {
    points: Vec<ChartPoint>,
    limits: ChartLimits,
    /// Index of the first point after the base period and after the last calibration.
    since: usize,
}

impl ControlChart {
    /// The chart of these checks, in the order of their dates; `calibrated` is the day of the last
    /// calibration, before which nothing tells about the present line. `None` where there are too
    /// few checks for a base period, or a number is not finite.
    pub fn of(mut points: Vec<ChartPoint>, calibrated: Option<Date>) -> Option<Self> {
        points.sort_by_key(|point| point.date);
        let base = points.get(..BASE_CHECKS)?;
        if points.iter().any(|point| !point.difference_pct.is_finite()) {
            return None;
        }
        let limits = ChartLimits::of(base);
        let before = |point: &&ChartPoint| calibrated.is_some_and(|day| point.date < day);
        let since = points.iter().take_while(before).count().max(BASE_CHECKS);
        Some(Self { points, limits, since })
    }

    /// Every point in the order of the dates.
    pub fn points(&self) -> &[ChartPoint] {
        &self.points
    }

    /// The centre line and its limits.
    pub const fn limits(&self) -> ChartLimits {
        self.limits
    }

    /// The points after the base period and since the last calibration: what is held against the
    /// limits.
    pub fn present(&self) -> &[ChartPoint] {
        self.points.get(self.since..).unwrap_or(&[])
    }

    /// The point before those.
    pub(super) fn last_before(&self) -> Option<ChartPoint> {
        self.points.get(self.since.checked_sub(1)?).copied()
    }
}
