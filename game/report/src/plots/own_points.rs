//! A trainee's own points and hand-drawn line, without the true values: what a field book has.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::prelude::*;

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Larger numbers are slips of the pen, and would leave no room for the others.
const LARGEST: f64 = 1e4;
/// Room about the points, over their span.
const ROOM: f64 = 0.08;
/// Least span of a scale.
const LEAST_SPAN: f64 = 0.1;

/// Points and a line on two axes.
#[derive(Debug, Clone, PartialEq)]
pub struct OwnPointsPlot {
    points: Vec<(f64, f64)>,
    line: Option<(f64, f64)>,
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
        (!points.is_empty()).then(|| Self { points, line, axes: axes.map(str::to_owned) })
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
        let x = span(self.points.iter().map(|point| point.0));
        let y = span(self.points.iter().map(|point| point.1));
        let keys =
            [(Key::Dot(palette.own), "your points"), (Key::Dashes(palette.own, 2.0), "your line")];
        let shown = if self.line.is_some() { 2 } else { 1 };
        let [x_words, y_words] = &self.axes;
        let frame = Frame {
            x: x.clone(),
            y: y.clone(),
            x_words,
            y_words,
            decimals: (decimals(&x), decimals(&y)),
            keys: keys.get(..shown).unwrap_or_default(),
        };
        let mut chart = plane(root, style, &frame)?;
        if let Some(line) = self.line {
            let ends = axes::line_inside(line, &x, &y);
            axes::dashes(&mut chart, style, ends, (palette.own, 2.0))?;
        }
        for &point in &self.points {
            axes::dot(&mut chart, style, point, palette.own)?;
        }
        Ok(())
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
