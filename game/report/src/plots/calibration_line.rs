//! Corrected chart reading against flow: the points and line of the field book beside the true ones.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};
use sim_core::calibration::{HIGHEST_FLOW_STD_M3_MIN, LOWEST_FLOW_STD_M3_MIN};
use sim_core::marking::compared::{Compared, LineCompared};

use super::axes::{self, Frame, Key, SMALL, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Flows shown unless a point needs more, m3/min.
const FLOWS: std::ops::Range<f64> = 0.95..1.85;
/// Corrected chart readings shown where there is no point.
const READINGS: std::ops::Range<f64> = 35.0..55.0;
/// Less than this from bottom to top, and the scale needs tenths, chart divisions.
const TENTHS: f64 = 10.0;
/// The most that is shown, whatever somebody wrote: m3/min and chart divisions.
const MOST: (f64, f64) = (4.0, 140.0);

/// Points and lines.
#[derive(Debug, Clone, PartialEq)]
pub struct CalibrationLinePlot {
    own_points: Vec<(f64, f64)>,
    true_points: Vec<(f64, f64)>,
    own_line: Option<(f64, f64)>,
    true_line: Option<(f64, f64)>,
}

impl CalibrationLinePlot {
    /// The plot of a session; `None` where the trainee has neither points nor a line.
    pub fn of(compared: &Compared) -> Option<Self> {
        let pair = |pair: sim_core::marking::compared::FlowTermPair| {
            (pair.flow_std_m3_min, pair.chart_term)
        };
        let own = |point: &sim_core::marking::compared::PointCompared| {
            point.written.or(point.redone).map(pair)
        };
        let shown = |&(flow, term): &(f64, f64)| {
            (0.0..MOST.0).contains(&flow) && (0.0..MOST.1).contains(&term)
        };
        let line = |line: Option<LineCompared>| line.map(|line| (line.slope, line.intercept));
        let plot = Self {
            own_points: compared.points.iter().filter_map(own).filter(shown).collect(),
            true_points: compared
                .points
                .iter()
                .filter_map(|p| p.truth.map(pair))
                .filter(shown)
                .collect(),
            own_line: line(compared.own_line.or(compared.redone_line)),
            true_line: line(compared.true_line),
        };
        (!plot.own_points.is_empty() || plot.own_line.is_some()).then_some(plot)
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
        let points = || self.own_points.iter().chain(&self.true_points);
        let x = axes::room(points().map(|point| point.0), FLOWS, 0.06);
        let at_ends = self
            .true_line
            .into_iter()
            .flat_map(|line| [x.start, x.end].map(|x| axes::along(line, x)));
        let y = readings(points().map(|point| point.1).chain(at_ends));
        let keys = [
            (Key::Dot(palette.own), "your points"),
            (Key::Dashes(palette.own, 2.0), "your line"),
            (Key::Square(palette.truth), "true values"),
            (Key::Line(palette.truth, 2.5), "true line"),
            (Key::Dashes(palette.ink, 1.0), "flow limits"),
        ];
        let frame = Frame {
            x: x.clone(),
            y: y.clone(),
            x_words: "flow at 298 K and 760 mmHg, m³/min",
            y_words: "corrected chart reading, divisions",
            decimals: (1, usize::from(y.end - y.start < TENTHS)),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        for limit in [LOWEST_FLOW_STD_M3_MIN, HIGHEST_FLOW_STD_M3_MIN] {
            axes::dashes(
                &mut chart,
                style,
                [(limit, y.start), (limit, y.end)],
                (palette.ink, 1.0),
            )?;
            let font = style.text_at(SMALL, HPos::Left, VPos::Bottom);
            let place = (limit + 0.006 * (x.end - x.start), y.start + 0.01 * (y.end - y.start));
            chart.draw_series([Text::new(format!("{limit}"), place, font)])?;
        }
        if let Some(line) = self.true_line {
            let ends = axes::line_inside(line, &x, &y);
            chart.draw_series(LineSeries::new(ends, style.line(palette.truth, 2.5)))?;
        }
        if let Some(line) = self.own_line {
            axes::dashes(&mut chart, style, axes::line_inside(line, &x, &y), (palette.own, 2.0))?;
        }
        for &point in &self.true_points {
            axes::square(&mut chart, style, point, palette.truth)?;
        }
        for &point in &self.own_points {
            axes::dot(&mut chart, style, point, palette.own)?;
        }
        Ok(())
    }
}

/// The corrected chart readings that are shown. A chart with a linear scale has readings of 4 to 8, one
/// with a square-root scale of 30 to 60: what is shown follows the points.
fn readings(values: impl Iterator<Item = f64>) -> std::ops::Range<f64> {
    let values: Vec<f64> = values.filter(|value| value.is_finite()).collect();
    if values.is_empty() {
        return READINGS;
    }
    let middle = values.iter().sum::<f64>() / values.len() as f64;
    axes::room(values, middle - 0.5..middle + 0.5, 0.06)
}

#[cfg(test)]
mod tests {
    use super::{READINGS, readings};

    #[test]
    fn points_fill_the_plane_whatever_the_chart_is_divided_by() {
        for (low, high) in [(4.5_f64, 7.8_f64), (31.0, 60.0)] {
            let shown = readings([low, high, f64::NAN].into_iter());
            assert!(shown.start < low && shown.end > high, "{shown:?}");
            assert!(high - low > 0.8 * (shown.end - shown.start), "{shown:?}");
        }
        assert_eq!(readings([7.0].into_iter()), 6.5..7.5);
        assert_eq!(readings(std::iter::empty()), READINGS);
    }
}
