//! The control chart of a sampler: its flow checks over time between the limits of its own past, with
//! the calibrations and repairs.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::control_chart::{ChartLimits, ControlChart};
use sim_core::scenario::setup::{PastWork, SamplerHistory};
use sim_core::time::Date;

use super::axes::{self, Key, SMALL};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Larger differences are slips of the pen, and would leave no room for the others, percent.
const LARGEST_PCT: f64 = 40.0;
/// Room below the points for the words beside calibrations and repairs, over the height of the points.
const FOR_WORDS: f64 = 0.6;
/// Room before the first visit for the word beside it, over the time from the first to the last.
const FOR_FIRST_WORD: f64 = 0.09;
/// Days of the longest month.
const DAYS: f64 = 31.0;

/// A control chart.
#[derive(Debug, Clone, PartialEq)]
pub struct ControlChartPlot {
    /// Past checks: month and percent difference.
    past: Vec<(f64, f64)>,
    /// Today's check as the trainee entered it.
    own: Option<(f64, f64)>,
    /// Today's check as it truly is, for a report.
    truth: Option<(f64, f64)>,
    /// Calibrations and repairs.
    visits: Vec<(f64, &'static str)>,
    limits: ChartLimits,
}

impl ControlChartPlot {
    /// The chart of a history on a day; `true_pct` is the true percent difference of that day, where
    /// it may be shown.
    pub fn of(
        history: &SamplerHistory,
        chart: &ControlChart,
        (today, true_pct): (Date, Option<f64>),
    ) -> Self {
        let shown = |&(_, difference_pct): &(f64, f64)| difference_pct.abs() <= LARGEST_PCT;
        let points = |of_today: bool| {
            chart
                .points()
                .iter()
                .filter(move |point| (point.date == today) == of_today)
                .map(|point| (month(point.date), point.difference_pct))
                .filter(shown)
        };
        let visits = history.visits().iter().filter_map(|visit| {
            let words = match visit.work {
                PastWork::Calibration { .. } => "calibration",
                PastWork::Repair { .. } => "repair",
                PastWork::FlowCheck { .. } | PastWork::Note { .. } => return None,
            };
            Some((month(visit.date), words))
        });
        Self {
            past: points(false).collect(),
            own: points(true).next_back(),
            truth: true_pct.map(|pct| (month(today), pct)).filter(shown),
            visits: visits.collect(),
            limits: chart.limits(),
        }
    }

    /// Every difference and limit that has to be inside.
    fn heights(&self) -> Range<f64> {
        let limits = self.limits.action_pct();
        let points = self.past.iter().chain(&self.own).chain(&self.truth).map(|point| point.1);
        let all = || points.clone().chain(limits);
        let (low, high) = (all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max));
        let span = (high - low).max(0.5);
        low - FOR_WORDS * span..high + 0.08 * span
    }

    /// From the first visit to a little after the last point.
    fn months(&self) -> Range<f64> {
        let visits = self.visits.iter().map(|visit| visit.0);
        let points = self.past.iter().chain(&self.own).chain(&self.truth).map(|point| point.0);
        let all = || visits.clone().chain(points.clone());
        let (first, last) = (all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max));
        let span = (last - first).max(1.0);
        first - FOR_FIRST_WORD * span..last + 0.03 * span
    }

    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let palette = style.palette;
        let (x, y) = (self.months(), self.heights());
        let mut keys = vec![(Key::Dot(palette.ink), "past checks")];
        keys.extend(self.own.map(|_| (Key::Dot(palette.own), "your check of today")));
        keys.extend(self.truth.map(|_| (Key::Square(palette.truth), "true value of today")));
        keys.extend([
            (Key::Line(palette.ink, 0.75), "centre line"),
            (Key::Dashes(palette.ink, 1.0), "warning limits"),
            (Key::Line(palette.ink, 2.25), "action limits"),
        ]);
        let top = axes::keys(root, style, &keys)?;
        let mut chart = ChartBuilder::on(root)
            .margin_top(style.px(top + 10.0))
            .margin_right(style.px(14.0))
            .margin_bottom(style.px(6.0))
            .margin_left(style.px(6.0))
            .x_label_area_size(style.px(42.0))
            .y_label_area_size(style.px(58.0))
            .build_cartesian_2d(x.clone(), y.clone())?;
        chart
            .configure_mesh()
            .disable_mesh()
            .axis_style(style.line(palette.ink, 1.0))
            .set_all_tick_mark_size(style.px(5.0))
            .label_style(style.text(SMALL))
            .axis_desc_style(style.text(SMALL))
            .x_labels(if style.is_narrow() { 4 } else { 7 })
            .y_labels(7)
            .x_label_formatter(&|month| year_and_month(*month))
            .y_label_formatter(&|value| axes::written(*value, 0))
            .x_desc("month of the visit")
            .y_desc("percent difference, %")
            .draw()?;
        let across = |level: f64| [(x.start, level), (x.end, level)];
        let centre = across(self.limits.centre_pct);
        chart.draw_series(LineSeries::new(centre, style.line(palette.ink, 0.75)))?;
        for level in self.limits.warning_pct() {
            axes::dashes(&mut chart, style, across(level), (palette.ink, 1.0))?;
        }
        for level in self.limits.action_pct() {
            chart.draw_series(LineSeries::new(across(level), style.line(palette.ink, 2.25)))?;
        }
        for &(month, words) in &self.visits {
            let line = [(month, y.start), (month, y.end)];
            chart.draw_series(LineSeries::new(line, style.faint(0.4)))?;
            let place = EmptyElement::at((month, y.start));
            let beside = (style.shift(-14.0), style.shift(-40.0));
            chart.draw_series([place + Text::new(words, beside, style.upwards(SMALL))])?;
        }
        let line = self.past.iter().chain(&self.own).copied();
        chart.draw_series(LineSeries::new(line, style.faint(0.5)))?;
        for &point in &self.past {
            axes::dot(&mut chart, style, point, palette.ink)?;
        }
        if let Some(truth) = self.truth {
            axes::square(&mut chart, style, truth, palette.truth)?;
        }
        if let Some(own) = self.own {
            axes::dot(&mut chart, style, own, palette.own)?;
        }
        Ok(())
    }
}

/// A day as a number of months.
fn month(date: Date) -> f64 {
    let (year, month, day) = date.parts();
    f64::from(year) * 12.0 + f64::from(month) - 1.0 + (f64::from(day) - 1.0) / DAYS
}

/// The beginning of a month, as a date is written; nothing for another time.
fn year_and_month(months: f64) -> String {
    let whole = months.round();
    if (months - whole).abs() > 1e-6 {
        return String::new();
    }
    let year = (whole / 12.0).floor();
    format!("{year:.0}-{:02.0}", whole - 12.0 * year + 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn months_are_written_as_dates_are() {
        let [may, january] =
            [(2024, 5), (2025, 1)].map(|(year, of)| month(Date::new(year, of, 1).expect("a day")));
        assert_eq!([may, january].map(year_and_month), ["2024-05", "2025-01"]);
        assert_eq!(year_and_month(may + 0.5), "");
    }
}
