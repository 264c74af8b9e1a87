//! How far the points lie from the trainee's line, enlarged, with the limit drawn.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};
use sim_core::calibration::LARGEST_OFF_LINE_M3_MIN;
use sim_core::marking::compared::Compared;

use super::axes::{self, Frame, Key, SMALL, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Distances shown where none is larger, m3/min.
const LEAST: f64 = 0.05;

/// Height of a row of numbers above the plane's marks, over the largest distance.
const ROW: f64 = 0.2;
/// Room beside the plane, in units of the page.
const BESIDE: f64 = 78.0;
/// Two numbers nearer than this are put into different rows.
const APART: f64 = 12.0;

/// Distances from the trainee's line.
#[derive(Debug, Clone, PartialEq)]
pub struct ResidualPlot {
    /// Number, flow and distance of each point as it follows from the trainee's readings.
    own: Vec<(u8, (f64, f64))>,
    /// The same of the true values.
    truth: Vec<(f64, f64)>,
}

impl ResidualPlot {
    /// The plot of a session; `None` where there is no line.
    pub fn of(compared: &Compared) -> Option<Self> {
        let own = compared.points.iter().filter_map(|point| {
            Some((point.number, (point.redone?.flow_std_m3_min, point.off_line_m3_min?)))
        });
        let truth = compared
            .points
            .iter()
            .filter_map(|point| Some((point.truth?.flow_std_m3_min, point.truth_off_line_m3_min?)));
        let plot = Self { own: own.collect(), truth: truth.collect() };
        (!plot.own.is_empty()).then_some(plot)
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
        let all = || self.own.iter().map(|(_, point)| point).chain(&self.truth);
        let x = axes::room(all().map(|point| point.0), 0.95..1.85, 0.06);
        let farthest = all().map(|point| point.1.abs()).fold(LEAST, f64::max);
        let reach = if farthest > LEAST { 1.1 * farthest } else { LEAST };
        let numbers =
            in_rows(&self.own, APART * (x.end - x.start) / (f64::from(style.width) - BESIDE));
        let rows = numbers.iter().map(|(.., row)| row + 1).max().unwrap_or(1);
        let limit = format!("limit ±{LARGEST_OFF_LINE_M3_MIN} m³/min");
        let keys = [
            (Key::Dot(palette.own), "your points"),
            (Key::Square(palette.truth), "true values"),
            (Key::Dashes(palette.ink, 1.0), limit.as_str()),
        ];
        let frame = Frame {
            x: x.clone(),
            y: -reach..(1.0 + ROW * rows as f64) * reach,
            x_words: "flow at 298 K and 760 mmHg, m³/min",
            y_words: "distance from your line, m³/min",
            decimals: (1, if reach > 0.2 { 1 } else { 2 }),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        chart.draw_series(LineSeries::new(
            [(x.start, 0.0), (x.end, 0.0)],
            style.line(palette.own, 1.0),
        ))?;
        for level in [-LARGEST_OFF_LINE_M3_MIN, LARGEST_OFF_LINE_M3_MIN] {
            axes::dashes(
                &mut chart,
                style,
                [(x.start, level), (x.end, level)],
                (palette.ink, 1.0),
            )?;
        }
        for &(flow, off) in &self.truth {
            axes::square(&mut chart, style, (flow, off), palette.truth)?;
        }
        for &(_, (flow, off)) in &self.own {
            let stem = [(flow, 0.0), (flow, off)];
            chart.draw_series(LineSeries::new(stem, style.line(palette.own, 1.25)))?;
            axes::dot(&mut chart, style, (flow, off), palette.own)?;
        }
        // The numbers are above all of it, where no mark covers them.
        for (number, flow, row) in numbers {
            let font = style.text_at(SMALL, HPos::Center, VPos::Center);
            let height = (1.0 + ROW * (row as f64 + 0.5)) * reach;
            chart.draw_series([Text::new(number.to_string(), (flow, height), font)])?;
        }
        Ok(())
    }
}

/// The numbers of points with their flows, each in the lowest row in which none is nearer than
/// `apart`, m3/min.
fn in_rows(points: &[(u8, (f64, f64))], apart: f64) -> Vec<(u8, f64, usize)> {
    let mut sorted: Vec<(u8, f64)> =
        points.iter().map(|&(number, (flow, _))| (number, flow)).collect();
    sorted.sort_by(|one, other| one.1.total_cmp(&other.1));
    let mut lasts: Vec<f64> = Vec::new();
    let row = |(number, flow): (u8, f64)| {
        let free = lasts.iter().position(|last| flow - last >= apart);
        let row = free.unwrap_or(lasts.len());
        match lasts.get_mut(row) {
            Some(last) => *last = flow,
            None => lasts.push(flow),
        }
        (number, flow, row)
    };
    sorted.into_iter().map(row).collect()
}

#[cfg(test)]
mod tests {
    use super::in_rows;

    #[test]
    fn numbers_that_would_touch_stand_in_different_rows() {
        let points = [(1, (1.50, 0.0)), (2, (1.48, 0.0)), (3, (1.40, 0.0)), (4, (1.47, 0.0))];
        let rows = in_rows(&points, 0.04);
        assert_eq!(rows, [(3, 1.40, 0), (4, 1.47, 0), (2, 1.48, 1), (1, 1.50, 2)]);
        assert!(in_rows(&points, 0.005).iter().all(|(.., row)| *row == 0));
    }
}
