//! How sure a person was against how often they were right, over all sessions.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};

use super::super::plots::axes::{self, Frame, Key, SMALL, plane};
use super::super::plots::draw_error::DrawError;
use super::super::plots::style::PlotStyle;
use super::calibration::JudgementCalibration;

/// A point for each answer that was given, with how often it was.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgementPlot {
    /// How sure, how often right (both in percent), and how many times.
    points: Vec<(f64, f64, usize)>,
}

impl JudgementPlot {
    /// The plot of a person's judgements.
    pub fn of(calibration: &JudgementCalibration) -> Self {
        let points = calibration
            .brier
            .groups
            .iter()
            .map(|group| (100.0 * group.probability, 100.0 * group.frequency(), group.count));
        Self { points: points.collect() }
    }

    /// Draws it.
    ///
    /// # Errors
    ///
    /// When the backend fails.
    pub fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let palette = style.palette;
        let frame = Frame {
            x: 46.0..104.0,
            y: -6.0..106.0,
            x_words: "how sure you were, %",
            y_words: "how often you were right, %",
            decimals: (0, 0),
            keys: &[
                (Key::Dot(palette.own), "your answers"),
                (Key::Dashes(palette.ink, 1.0), "as sure as right"),
            ],
        };
        let mut chart = plane(root, style, &frame)?;
        axes::dashes(&mut chart, style, [(50.0, 50.0), (100.0, 100.0)], (palette.ink, 1.0))?;
        for &(sure, right, count) in &self.points {
            axes::dot(&mut chart, style, (sure, right), palette.own)?;
            let times = if count == 1 { "once".to_owned() } else { format!("{count} times") };
            let (anchor, off) = if sure > 85.0 { (HPos::Right, -1.2) } else { (HPos::Left, 1.2) };
            let font = style.text_at(SMALL, anchor, VPos::Center);
            let label = Text::new(times, (sure + off, right), font);
            chart.draw_series([label])?;
        }
        Ok(())
    }
}
