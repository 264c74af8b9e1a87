//! Information of all rules about people of each ability.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::trial::people::PeopleFigures;

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// Information by ability.
#[derive(Debug, Clone, PartialEq)]
pub struct InformationPlot {
    information: Vec<(f64, f64)>,
    at_pass_mark: Option<f64>,
}

impl InformationPlot {
    /// The plot; `None` where no rule says anything.
    pub fn of(figures: &PeopleFigures) -> Option<Self> {
        let points = figures.items.information.iter();
        let information: Vec<(f64, f64)> =
            points.map(|point| (point.ability, point.information)).collect();
        let says = information.iter().any(|point| point.1 > 0.0);
        says.then_some(Self { information, at_pass_mark: figures.items.ability_at_pass_mark })
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
            (Key::Line(palette.truth, 2.0), "information of all rules"),
            (Key::Dashes(palette.ink, 1.0), "ability that the pass mark asks for"),
        ];
        let values = self.information.iter().map(|point| point.1);
        let frame = Frame {
            x: -3.0..3.0,
            y: 0.0..axes::room(values, 0.0..2.0, 0.08).end,
            x_words: "ability, standard deviations",
            y_words: "information",
            decimals: (1, 1),
            keys: &keys,
        };
        let top = frame.y.end;
        let mut chart = plane(root, style, &frame)?;
        let line = self.information.iter().copied();
        chart.draw_series(LineSeries::new(line, style.line(palette.truth, 2.0)))?;
        if let Some(at) = self.at_pass_mark.filter(|at| at.abs() <= 3.0) {
            axes::dashes(&mut chart, style, [(at, 0.0), (at, top)], (palette.ink, 1.0))?;
        }
        Ok(())
    }
}
