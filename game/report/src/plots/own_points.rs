//! A trainee's own points and line, without the true values: what a field book has. With them stand
//! the last line, the range of flows that a calibration covers, and how far a point may lie from the
//! line.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::prelude::*;

use sim_core::calibration::{
    HIGHEST_FLOW_STD_M3_MIN, LARGEST_OFF_LINE_M3_MIN, LOWEST_FLOW_STD_M3_MIN,
};

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Larger numbers are slips of the pen, and would leave no room for the others.
const LARGEST: f64 = 1e4;
/// Room about the points, over their span.
const ROOM: f64 = 0.08;
/// Least span of a scale.
const LEAST_SPAN: f64 = 0.1;

/// Flows so far from the range that a calibration covers are shown without it, std m3/min.
const FAR: f64 = 0.5;

/// Points and lines on two axes.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnPointsPlot {
    points: Vec<(f64, f64)>,
    line: Option<(f64, f64)>,
    last: Option<(f64, f64)>,
    axes: [String; 2],
}

impl OwnPointsPlot {
    /// The plot of points (x, y) and of a line given by slope and intercept, if there is one. `axes` names
    /// x and y with their units. `None` where no point is a number that can be shown.
    pub fn new(
        points: impl IntoIterator<Item = (f64, f64)>,
        line: Option<(f64, f64)>,
        axes: [&str; 2],
    ) -> Option<Self> {
        let shown = |&(x, y): &(f64, f64)| x.abs() < LARGEST && y.abs() < LARGEST;
        let points: Vec<(f64, f64)> = points.into_iter().filter(shown).collect();
        let line = line.filter(|(slope, intercept)| slope.is_finite() && intercept.is_finite());
        let axes = axes.map(str::to_owned);
        (!points.is_empty()).then_some(Self { points, line, last: None, axes })
    }

    /// The same with the line of the last calibration, given by slope and intercept, if there is one.
    pub fn with_last(self, last: Option<(f64, f64)>) -> Self {
        Self { last, ..self }
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
        let flows = self.points.iter().map(|point| point.0).chain(self.limits());
        let x = span(flows.collect::<Vec<f64>>().into_iter());
        let on = |line: Option<(f64, f64)>| {
            let ends =
                [x.start, x.end].map(|x| line.map(|(slope, intercept)| slope * x + intercept));
            ends.into_iter().flatten().filter(|y| y.abs() < LARGEST)
        };
        let heights = self.points.iter().map(|point| point.1);
        let y = span(heights.chain(on(self.last)).collect::<Vec<f64>>().into_iter());
        let mut keys = vec![(Key::Dot(palette.own), "your points")];
        if self.line.is_some() {
            keys.push((Key::Dashes(palette.own, 2.0), "your line"));
            keys.push((Key::Line(palette.own, 0.7), "farthest that a point may lie from it"));
        }
        if self.last.is_some() {
            keys.push((Key::Dashes(palette.truth, 1.4), "last line"));
        }
        if self.limits().next().is_some() {
            keys.push((Key::Line(palette.ink, 1.2), "range to be covered"));
        }
        let [x_words, y_words] = &self.axes;
        let frame = Frame {
            x: x.clone(),
            y: y.clone(),
            x_words,
            y_words,
            decimals: (decimals(&x), decimals(&y)),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        let ink = style.line(palette.ink, 1.2);
        let limits =
            self.limits().map(|flow| PathElement::new([(flow, y.start), (flow, y.end)], ink));
        chart.draw_series(limits)?;
        if let Some(last) = self.last {
            let ends = axes::line_inside(last, &x, &y);
            axes::dashes(&mut chart, style, ends, (palette.truth, 1.4))?;
        }
        if let Some(line @ (slope, intercept)) = self.line {
            for off in [-LARGEST_OFF_LINE_M3_MIN, LARGEST_OFF_LINE_M3_MIN] {
                let ends = axes::line_inside((slope, intercept - slope * off), &x, &y);
                let fine = style.line(palette.own, 0.7);
                chart.draw_series([PathElement::new(ends, fine)])?;
            }
            let ends = axes::line_inside(line, &x, &y);
            axes::dashes(&mut chart, style, ends, (palette.own, 2.0))?;
        }
        for &point in &self.points {
            axes::dot(&mut chart, style, point, palette.own)?;
        }
        Ok(())
    }
}

impl OwnPointsPlot {
    /// The ends of the range of flows that a calibration covers, where the points are anywhere near it.
    fn limits(&self) -> impl Iterator<Item = f64> {
        let near = |flow: f64| {
            (LOWEST_FLOW_STD_M3_MIN - FAR..=HIGHEST_FLOW_STD_M3_MIN + FAR).contains(&flow)
        };
        let shown = self.points.iter().all(|point| near(point.0));
        let limits = [LOWEST_FLOW_STD_M3_MIN, HIGHEST_FLOW_STD_M3_MIN];
        limits.into_iter().filter(move |_| shown)
    }
}

/// From a little under the least to a little over the most.
fn span(values: impl Iterator<Item = f64> + Clone) -> Range<f64> {
    let least = values.clone().fold(f64::INFINITY, f64::min);
    let most = values.fold(f64::NEG_INFINITY, f64::max);
    let room = (ROOM * (most - least)).max(0.5 * LEAST_SPAN);
    least - room..most + room
}

/// Decimals that tell the numbers of a scale apart.
fn decimals(span: &Range<f64>) -> usize {
    match span.end - span.start {
        wide if wide > 10.0 => 0,
        wide if wide > 1.0 => 1,
        _ => 2,
    }
}

#[cfg(test)]
mod tests {
    use super::{decimals, span};

    #[test]
    fn one_point_alone_lies_inside_its_scales() {
        assert!(span([1.2].into_iter()).contains(&1.2));
        assert_eq!(decimals(&span([1.2].into_iter())), 2);
    }
}
