//! The control chart of the sampler: today's check is entered, and the chart is read.

use super::arithmetic;
use super::memory::Memory;
use super::{Observation, Practice};
use crate::control_chart::{ChartPoint, ChartReading, ControlChart};
use crate::field_book::Field;
use crate::scenario::setup::SamplerHistory;
use crate::session::action::Decision;

/// Enters today's percent difference on the control chart, and decides what the chart shows. Without a
/// history, or without a difference, there is nothing to do.
pub(super) fn keeps_chart(
    difference_pct: Option<f64>,
    observed: &Observation<'_>,
    memory: &mut Memory,
) {
    let papers = &observed.papers;
    let (Some(history), Some(difference_pct)) =
        (papers.work_order.history.as_ref(), difference_pct)
    else {
        return;
    };
    let difference_pct = arithmetic::rounded(difference_pct, 1);
    memory.writes(Field::HistoryPoint, format!("{difference_pct:+.1}"));
    let today = ChartPoint { date: papers.station.date, difference_pct };
    let Some(chart) = history.chart(Some(today)) else { return };
    let limit_pct = papers.work_order.flow_check.map_or(f64::INFINITY, |check| check.within_pct);
    let within = difference_pct.abs() <= limit_pct;
    let shows = match memory.habits.chart_reading {
        Practice::Kept => chart.reading(),
        Practice::Skipped if within => ChartReading::InControl,
        Practice::Skipped => ChartReading::OutOfLimits,
    };
    memory.thinks(thought(&chart, shows));
    memory.decides(decision(shows, history, &chart), "");
}

/// What follows from what is seen: a new calibration, and since when the flows are in doubt.
fn decision(shows: ChartReading, history: &SamplerHistory, chart: &ControlChart) -> Decision {
    let in_doubt_since = match shows {
        ChartReading::Jump => history.jumped_on(chart),
        _ => None,
    };
    let calibrate_again = shows != ChartReading::InControl;
    Decision::HistoryRead { shows, calibrate_again, in_doubt_since }
}

fn thought(chart: &ControlChart, shows: ChartReading) -> String {
    let limits = chart.limits();
    let signals: Vec<&str> = chart.signals().into_iter().map(|signal| signal.words()).collect();
    let seen = if signals.is_empty() { "no signal stands".to_owned() } else { signals.join("; ") };
    let [[warning_low, warning_high], [low, high]] = [limits.warning_pct(), limits.action_pct()];
    format!(
        "The control chart has its centre line at {:+.1} %, its warning limits at {warning_low:+.1} and \
         {warning_high:+.1} % and its action limits at {low:+.1} and {high:+.1} %: {seen}. It shows: {}.",
        limits.centre_pct,
        shows.words()
    )
}
