//! The signals that stand on a control chart.

use super::chart::{ACTION_SD, ControlChart, WARNING_SD};

/// So many in a row that all rise or all fall are a signal (MEMORY, NIST/SEMATECH e-Handbook of
/// Statistical Methods, 6.3.2).
const IN_A_ROW: usize = 6;

/// A signal that the last point of a chart gives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChartSignal {
    /// It is beyond an action limit.
    BeyondAction,
    /// It is one of two beyond the same warning limit, among the last three.
    TwoBeyondWarning,
    /// It ends six in a row that all rise or all fall.
    SixInARow,
}

impl ChartSignal {
    /// The signal in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::BeyondAction => "the last point is beyond an action limit",
            Self::TwoBeyondWarning => "two of the last three are beyond the same warning limit",
            Self::SixInARow => "the last six all rise or all fall",
        }
    }
}

impl ControlChart {
    /// The signals that stand: those that the last point gives.
    pub fn signals(&self) -> Vec<ChartSignal> {
        [
            (self.is_beyond_action(), ChartSignal::BeyondAction),
            (self.are_two_beyond_warning(), ChartSignal::TwoBeyondWarning),
            (self.is_in_a_row(), ChartSignal::SixInARow),
        ]
        .into_iter()
        .filter_map(|(stands, signal)| stands.then_some(signal))
        .collect()
    }

    /// How far the points that are held against the limits are from the centre line, in standard
    /// deviations, the last one first.
    fn latest_first(&self) -> impl Iterator<Item = f64> + '_ {
        let limits = self.limits();
        // A base period without any scatter makes every other value infinitely far.
        self.present()
            .iter()
            .rev()
            .map(move |point| (point.difference_pct - limits.centre_pct) / limits.sd_pct)
    }

    fn is_beyond_action(&self) -> bool {
        self.latest_first().next().is_some_and(|off| off.abs() > ACTION_SD)
    }

    fn are_two_beyond_warning(&self) -> bool {
        let mut latest = self.latest_first();
        let Some(last) = latest.next().filter(|off| off.abs() > WARNING_SD) else { return false };
        latest.take(2).any(|off| off * last.signum() > WARNING_SD)
    }

    fn is_in_a_row(&self) -> bool {
        let latest: Vec<f64> = self.latest_first().take(IN_A_ROW).collect();
        let all = |follows: fn(f64, f64) -> bool| {
            latest.windows(2).all(|pair| matches!(pair, [new, old] if follows(*new, *old)))
        };
        latest.len() == IN_A_ROW && (all(|new, old| new > old) || all(|new, old| new < old))
    }
}

#[cfg(test)]
mod tests {
    use super::super::chart::{BASE_CHECKS, ChartPoint};
    use super::*;
    use crate::time::Date;

    /// A chart with its centre at 0 and a standard deviation of 1, and these points after its base.
    fn signals(after: &[f64]) -> Vec<ChartSignal> {
        let first = Date::new(2024, 1, 1).unwrap();
        let one = (11.0_f64 / 12.0).sqrt();
        let base = (0..BASE_CHECKS).map(|index| if index % 2 == 0 { one } else { -one });
        let all = base.chain(after.iter().copied()).enumerate();
        let points = all.map(|(index, difference_pct)| ChartPoint {
            date: first.later(7 * index as i64),
            difference_pct,
        });
        let chart = ControlChart::of(points.collect(), None).unwrap();
        assert!((chart.limits().sd_pct - 1.0).abs() < 1e-12);
        chart.signals()
    }

    #[test]
    fn a_point_beyond_an_action_limit_is_a_signal_on_either_side() {
        assert_eq!(signals(&[3.1]), [ChartSignal::BeyondAction]);
        assert_eq!(signals(&[-3.1]), [ChartSignal::BeyondAction]);
        assert_eq!(signals(&[2.9]), []);
        assert_eq!(signals(&[3.1, 0.2]), [], "only the last point gives a signal");
    }

    #[test]
    fn two_of_three_beyond_the_same_warning_limit_are_a_signal() {
        assert_eq!(signals(&[2.1, 2.2]), [ChartSignal::TwoBeyondWarning]);
        assert_eq!(signals(&[-2.1, 0.0, -2.2]), [ChartSignal::TwoBeyondWarning]);
        assert_eq!(signals(&[2.1, 0.0, 0.0, 2.2]), [], "four points apart");
        assert_eq!(signals(&[2.1, -2.2]), [], "one beyond each limit");
        assert_eq!(signals(&[2.1, 2.2, 1.0]), [], "the last one is within");
    }

    #[test]
    fn six_in_a_row_that_rise_or_fall_are_a_signal() {
        assert_eq!(signals(&[-1.0, -0.7, -0.2, 0.1, 0.5, 0.9]), [ChartSignal::SixInARow]);
        assert_eq!(signals(&[1.0, 0.7, 0.2, -0.1, -0.5, -0.9]), [ChartSignal::SixInARow]);
        assert_eq!(signals(&[-0.7, -0.2, 0.1, 0.5, 0.9]), [], "five");
        assert_eq!(signals(&[-1.0, -0.7, -0.2, -0.2, 0.5, 0.9]), [], "two are the same");
    }
}
