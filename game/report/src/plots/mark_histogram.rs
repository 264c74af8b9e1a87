//! How the marks of people are distributed, each group by a line of its own.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::trial::people::distribution::{BAR, GroupFigures};
use sim_core::trial::people::{PeopleFigures, PersonGroup};

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Marks of people.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkHistogramPlot {
    /// Share of each bar, percent of all people, by group.
    groups: Vec<(PersonGroup, Vec<f64>)>,
    pass_mark: Option<f64>,
}

impl MarkHistogramPlot {
    /// The plot; `None` where nobody was marked.
    pub fn of(figures: &PeopleFigures) -> Option<Self> {
        let all = figures.marks.people;
        let shares = |group: &GroupFigures| {
            let bars = group.marks.histogram.iter();
            (group.group, bars.map(|&count| 100.0 * count as f64 / all as f64).collect())
        };
        (all > 0).then(|| Self {
            groups: figures.groups.iter().map(shares).collect(),
            pass_mark: figures.pass_mark,
        })
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
        let mut keys: Vec<(Key, &str)> = Vec::new();
        for (group, _) in &self.groups {
            keys.push(match group {
                PersonGroup::Trained => (Key::Line(palette.truth, 2.0), "trained people"),
                PersonGroup::Careless => (Key::Dashes(palette.own, 2.0), "careless people"),
            });
        }
        keys.push((Key::Line(palette.ink, 1.0), "pass mark"));
        let shares = self.groups.iter().flat_map(|(_, shares)| shares.iter().copied());
        let frame = Frame {
            x: 0.0..100.0,
            y: 0.0..axes::room(shares, 0.0..4.0, 0.08).end,
            x_words: "marks",
            y_words: "people in 2.5 marks, %",
            decimals: (0, 0),
            keys: &keys,
        };
        let top = frame.y.end;
        let mut chart = plane(root, style, &frame)?;
        for (group, shares) in &self.groups {
            let line = stairs(shares);
            match group {
                PersonGroup::Trained => {
                    chart.draw_series(LineSeries::new(line, style.line(palette.truth, 2.0)))?;
                }
                PersonGroup::Careless => {
                    axes::dashes(&mut chart, style, line, (palette.own, 2.0))?;
                }
            }
        }
        if let Some(mark) = self.pass_mark {
            let line = [(mark, 0.0), (mark, top)];
            chart.draw_series(LineSeries::new(line, style.line(palette.ink, 1.0)))?;
        }
        Ok(())
    }
}

/// The outline of bars.
fn stairs(shares: &[f64]) -> Vec<(f64, f64)> {
    let step = |(index, &share): (usize, &f64)| {
        let from = BAR * index as f64;
        [(from, share), (from + BAR, share)]
    };
    shares.iter().enumerate().flat_map(step).collect()
}

#[cfg(test)]
mod tests {
    use super::stairs;

    #[test]
    fn a_bar_is_as_wide_as_its_marks() {
        assert_eq!(stairs(&[1.0, 3.0]), [(0.0, 1.0), (2.5, 1.0), (2.5, 3.0), (5.0, 3.0)]);
    }
}
