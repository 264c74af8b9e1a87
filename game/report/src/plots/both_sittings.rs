//! The marks of both sittings of each person: how much would come again.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::trial::people::PeopleFigures;

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Marks of both sittings.
#[derive(Debug, Clone, PartialEq)]
pub struct BothSittingsPlot {
    totals: Vec<(f64, f64)>,
    pass_mark: Option<f64>,
}

impl BothSittingsPlot {
    /// The plot; `None` where nobody was marked twice.
    pub fn of(figures: &PeopleFigures) -> Option<Self> {
        let totals = figures.reliability.totals_of_both.clone();
        (!totals.is_empty()).then_some(Self { totals, pass_mark: figures.pass_mark })
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
        let keys = [
            (Key::Dot(palette.own), "a person"),
            (Key::Line(palette.truth, 1.25), "the same marks in both"),
            (Key::Dashes(palette.ink, 1.0), "pass mark"),
        ];
        let frame = Frame {
            x: 0.0..101.0,
            y: 0.0..101.0,
            x_words: "marks in the first sitting",
            y_words: "marks in the second",
            decimals: (0, 0),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        let same = [(0.0, 0.0), (100.0, 100.0)];
        chart.draw_series(LineSeries::new(same, style.line(palette.truth, 1.25)))?;
        if let Some(mark) = self.pass_mark {
            for line in [[(mark, 0.0), (mark, 101.0)], [(0.0, mark), (101.0, mark)]] {
                axes::dashes(&mut chart, style, line, (palette.ink, 1.0))?;
            }
        }
        let dots = self.totals.iter();
        let filled = palette.own.filled();
        chart.draw_series(dots.map(|&point| Circle::new(point, style.px(2.5), filled)))?;
        Ok(())
    }
}
