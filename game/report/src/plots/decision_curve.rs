//! What every pass mark would do: who passes with volumes that are off, and who fails with good ones.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::trial::people::PeopleFigures;
use sim_core::trial::people::estimate::Share;
use sim_core::trial::people::pass_mark::COSTLY_PCT;
use sim_core::trial::people::volumes::VolumeFigures;

use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// A share at a pass mark, and its interval, percent.
type Shown = (f64, [f64; 3]);

/// False passes and false fails by pass mark.
#[derive(Debug, Clone, PartialEq)]
pub struct DecisionCurvePlot {
    passed_off: Vec<Shown>,
    good_failed: Vec<Shown>,
    own: Option<f64>,
    proposed: Option<f64>,
}

impl DecisionCurvePlot {
    /// The plot; `None` where no volume follows from any sitting.
    pub fn of(figures: &PeopleFigures) -> Option<Self> {
        let line = |share: fn(&VolumeFigures) -> Share| -> Vec<Shown> {
            let shown = |(mark, volumes): (f64, &VolumeFigures)| {
                let share = share(volumes);
                let interval = share.interval;
                let percent = [interval.share, interval.low, interval.high].map(|one| 100.0 * one);
                (share.of > 0).then_some((mark, percent))
            };
            let points = figures.curve.iter();
            points.filter_map(|point| shown((point.pass_mark, costly(&point.volumes)?))).collect()
        };
        (figures.with_volume > 0).then(|| Self {
            passed_off: line(|volumes| volumes.passed_off),
            good_failed: line(|volumes| volumes.good_failed),
            own: figures.pass_mark,
            proposed: figures.proposed.map(|proposed| proposed.pass_mark.value),
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
        let keys = [
            (Key::Line(palette.own, 2.0), "of those who pass: off by more than 5 %"),
            (Key::Dashes(palette.truth, 2.0), "of good volumes: fail"),
            (Key::Line(palette.ink, 1.0), "pass mark"),
            (Key::Square(palette.truth), "least loss"),
        ];
        let frame = Frame {
            x: 0.0..100.0,
            y: 0.0..101.0,
            x_words: "pass mark",
            y_words: "people, %",
            decimals: (0, 0),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        let thin = |which: usize, line: &[Shown]| -> Vec<(f64, f64)> {
            line.iter().filter_map(|(mark, share)| Some((*mark, *share.get(which)?))).collect()
        };
        for (line, colour) in [(&self.passed_off, palette.own), (&self.good_failed, palette.truth)]
        {
            for bound in [1, 2] {
                let stroke = style.line(colour, 0.5);
                chart.draw_series(LineSeries::new(thin(bound, line), stroke))?;
            }
        }
        let passed_off = thin(0, &self.passed_off);
        chart.draw_series(LineSeries::new(passed_off, style.line(palette.own, 2.0)))?;
        axes::dashes(&mut chart, style, thin(0, &self.good_failed), (palette.truth, 2.0))?;
        if let Some(mark) = self.own {
            let line = [(mark, 0.0), (mark, 101.0)];
            chart.draw_series(LineSeries::new(line, style.line(palette.ink, 1.0)))?;
        }
        if let Some(mark) = self.proposed {
            axes::square(&mut chart, style, (mark, 3.0), palette.truth)?;
        }
        Ok(())
    }
}

/// The figures for the error that a false pass costs.
fn costly(volumes: &[VolumeFigures]) -> Option<&VolumeFigures> {
    volumes.iter().find(|one| (one.off_by_more_than_pct - COSTLY_PCT).abs() < 1e-9)
}
