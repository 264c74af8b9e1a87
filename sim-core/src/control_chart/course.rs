//! The course of a chart since its base period: one point off, a jump or a drift, whichever leaves the
//! least.

use super::chart::{ChartPoint, ControlChart};

/// Fewest points after a jump, and after the beginning of a drift: with fewer there is no course to see.
const AFTER_JUMP: usize = 2;
const AFTER_DRIFT: usize = 3;

/// A course that points can take, and what it leaves of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Course {
    /// Index, among the present points, of the first one that the change concerns.
    pub first: usize,
    /// The sum of the squares of what is left, percent squared.
    pub left: f64,
}

/// What a course leaves, without the course itself.
fn squares(left: impl Iterator<Item = f64>) -> f64 {
    left.map(|off| off * off).sum()
}

impl ControlChart {
    /// The present points as distances from the centre line, percent.
    fn off(&self) -> Vec<f64> {
        let centre = self.limits().centre_pct;
        self.present().iter().map(|point| point.difference_pct - centre).collect()
    }

    /// Only the last point is off.
    pub(super) fn one_off(&self) -> Option<Course> {
        let off = self.off();
        let first = off.len().checked_sub(1)?;
        Some(Course { first, left: squares(off.iter().take(first).copied()) })
    }

    /// The best jump: on the centre line before, at another level since.
    pub(super) fn jump(&self) -> Option<Course> {
        let off = self.off();
        let firsts = 0..(off.len() + 1).checked_sub(AFTER_JUMP)?;
        least(firsts.map(|first| {
            let (before, after) = off.split_at(first);
            let level = after.iter().sum::<f64>() / after.len() as f64;
            let left = squares(before.iter().copied());
            Course { first, left: left + squares(after.iter().map(|one| one - level)) }
        }))
    }

    /// The best drift: on the centre line before, and then along a straight line that begins there.
    pub(super) fn drift(&self) -> Option<Course> {
        let off = self.off();
        let firsts = 0..(off.len() + 1).checked_sub(AFTER_DRIFT)?;
        least(firsts.map(|first| {
            let (before, after) = off.split_at(first);
            let days = self.days_since_before(first);
            let (mut of_days, mut of_both) = (0.0, 0.0);
            for (day, one) in days.iter().zip(after) {
                of_days += day * day;
                of_both += day * one;
            }
            let a_day = if of_days > 0.0 { of_both / of_days } else { 0.0 };
            let drifted = after.iter().zip(&days).map(|(one, day)| one - a_day * day);
            Course { first, left: squares(before.iter().copied()) + squares(drifted) }
        }))
    }

    /// Days from the point before `first` to each of those since.
    fn days_since_before(&self, first: usize) -> Vec<f64> {
        let present = self.present();
        let Some(from) = self.before(first).or_else(|| present.first().copied()) else {
            return Vec::new();
        };
        let since = present.get(first..).unwrap_or(&[]);
        since.iter().map(|point| point.date.days_since(from.date) as f64).collect()
    }

    /// The point before one of the present ones.
    pub(super) fn before(&self, index: usize) -> Option<ChartPoint> {
        match index.checked_sub(1) {
            Some(before) => self.present().get(before).copied(),
            None => self.last_before(),
        }
    }
}

fn least(courses: impl Iterator<Item = Course>) -> Option<Course> {
    courses.min_by(|one, other| one.left.total_cmp(&other.left))
}
