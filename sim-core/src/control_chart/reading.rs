//! What a control chart shows.

use serde::{Deserialize, Serialize};

use super::chart::ControlChart;
use super::course::Course;
use crate::time::Date;

/// Two courses are both right if what one leaves is at most so many times what the other leaves
/// (CHOSEN: within a quarter nobody can tell them apart by eye).
const AS_GOOD: f64 = 1.25;

/// What a control chart shows about the sampler.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ChartReading {
    /// No signal stands.
    InControl,
    /// The sampler moves away from its centre line, a little from check to check.
    Drift,
    /// It has moved at once, and stands at a new level.
    Jump,
    /// The last point alone is off.
    OutOfLimits,
}

impl ChartReading {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Self; 4] = [Self::InControl, Self::Drift, Self::Jump, Self::OutOfLimits];

    /// As it stands in the field book.
    pub const fn words(self) -> &'static str {
        match self {
            Self::InControl => "in control",
            Self::Drift => "drift",
            Self::Jump => "jump",
            Self::OutOfLimits => "out of limits",
        }
    }
}

impl ControlChart {
    /// What the chart shows: in control without a signal; otherwise the course that leaves the least.
    pub fn reading(&self) -> ChartReading {
        if self.signals().is_empty() {
            return ChartReading::InControl;
        }
        let best = self
            .courses()
            .into_iter()
            .min_by(|(_, one), (_, other)| one.left.total_cmp(&other.left));
        best.map_or(ChartReading::InControl, |(reading, _)| reading)
    }

    /// Whether somebody may read the chart in this way: as it shows, or as a course that is as good.
    pub fn supports(&self, reading: ChartReading) -> bool {
        if self.signals().is_empty() {
            return reading == ChartReading::InControl;
        }
        let courses = self.courses();
        let least = courses.iter().map(|(_, course)| course.left).fold(f64::INFINITY, f64::min);
        courses.iter().any(|(one, course)| *one == reading && course.left <= AS_GOOD * least)
    }

    /// The last day on which the sampler was seen as it had been, and the first on which it was seen
    /// changed, if the chart is read as a jump.
    pub fn jumped_between(&self) -> Option<[Date; 2]> {
        let first = self.jump()?.first;
        Some([self.before(first)?.date, self.present().get(first)?.date])
    }

    /// Every course with how it is read.
    fn courses(&self) -> Vec<(ChartReading, Course)> {
        [
            (ChartReading::OutOfLimits, self.one_off()),
            (ChartReading::Jump, self.jump()),
            (ChartReading::Drift, self.drift()),
        ]
        .into_iter()
        .filter_map(|(reading, course)| Some((reading, course?)))
        .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::super::chart::{BASE_CHECKS, ChartPoint};
    use super::*;

    const BASE: [f64; BASE_CHECKS] =
        [-1.9, -1.3, -2.4, -1.6, -2.1, -1.1, -1.8, -2.6, -1.5, -2.0, -1.4, -1.9];

    fn chart(after: &[f64]) -> ControlChart {
        let first = Date::new(2024, 5, 28).unwrap();
        let all = BASE.iter().chain(after).enumerate();
        let points = all.map(|(index, &difference_pct)| ChartPoint {
            date: first.later(28 * index as i64),
            difference_pct,
        });
        ControlChart::of(points.collect(), None).unwrap()
    }

    #[test]
    fn each_course_is_read_as_what_it_is() {
        for (after, reading) in [
            (&[-1.7, -2.2, -1.2, -1.9][..], ChartReading::InControl),
            (&[-1.7, -2.2, -1.2, 0.9], ChartReading::OutOfLimits),
            (&[-1.7, -2.2, 1.1, 0.9, 1.3], ChartReading::Jump),
            (&[-1.6, -1.1, -1.0, -0.4, 0.0, 0.3], ChartReading::Drift),
            (&[-2.2, -2.8, -3.0, -3.3, -4.0, -4.1], ChartReading::Drift),
            (&[-4.8, -5.1], ChartReading::Jump),
        ] {
            let chart = chart(after);
            assert_eq!(chart.reading(), reading, "{after:?}");
            let others = ChartReading::ALL.into_iter().filter(|other| *other != reading);
            assert!(chart.supports(reading));
            for other in others {
                assert!(!chart.supports(other), "{after:?} as {other:?}");
            }
        }
    }

    #[test]
    fn a_jump_is_dated_by_the_checks_on_both_sides() {
        let chart = chart(&[-1.7, -2.2, 1.1, 0.9, 1.3]);
        let [before, after] = chart.jumped_between().unwrap();
        assert_eq!(after.days_since(before), 28);
        assert_eq!(before, chart.points()[BASE_CHECKS + 1].date);
    }

    #[test]
    fn what_was_before_the_last_calibration_says_nothing_about_the_present_line() {
        let jumped = chart(&[1.1, 0.9, 1.3, -1.8, -1.5]);
        assert_eq!(jumped.reading(), ChartReading::InControl);
        let day = jumped.points()[BASE_CHECKS + 3].date;
        let points = chart(&[1.1, 0.9, 1.3, 1.2, 0.8]).points().to_vec();
        let since = ControlChart::of(points, Some(day)).unwrap();
        assert_eq!(since.present().len(), 2);
        assert_eq!(since.reading(), ChartReading::Jump, "it had jumped before that day");
    }

    #[test]
    fn too_few_checks_or_no_number_make_no_chart() {
        let points = chart(&[]).points().to_vec();
        assert!(ControlChart::of(points[1..].to_vec(), None).is_none());
        let mut nothing = points;
        nothing[3].difference_pct = f64::NAN;
        assert!(ControlChart::of(nothing, None).is_none());
    }
}
