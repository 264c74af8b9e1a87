//! What manometer and pen showed over a session, and the moments at which they were read.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::marking::readings::Instrument;
use sim_core::marking::{Marks, ReadingJudged};
use sim_core::session::history::GaugeSample;

use super::DrawError;
use super::axes::{self, Frame, Key, plane};
use super::look::Look;
use crate::report::time_line::TimeLine;

/// A jump of the time on the bench, min: there nothing was looked at, and no line is drawn.
const GAP_MIN: f64 = 0.5;

/// Lines of a plot: two that were seen, and two of the truth.
const LINES: usize = 4;

/// Which instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Read {
    /// Both legs of the manometer.
    Manometer,
    /// The pen.
    Pen,
}

/// What an instrument showed.
#[derive(Debug, Clone, PartialEq)]
pub struct TracePlot {
    of: Read,
    /// Each line, in pieces without gaps: minutes and value.
    lines: Vec<Vec<Vec<(f64, f64)>>>,
    /// What was written, and when.
    written: Vec<(f64, f64)>,
    minutes: f64,
}

impl TracePlot {
    /// The plot of a session; `None` where the instrument showed nothing.
    pub fn of(of: Read, samples: &[GaugeSample], line: &TimeLine, marks: &Marks) -> Option<Self> {
        let mut lines = vec![vec![Vec::new()]; LINES];
        for sample in samples {
            let minute = line.minutes_at(sample.tick);
            let values = match of {
                Read::Manometer => {
                    let half = 0.5 * sample.truth.orifice_inh2o;
                    let hung = sample.seen.legs_in.map(|[left, right]| [left, right, half, -half]);
                    hung.map_or([None; LINES], |values| values.map(Some))
                }
                Read::Pen => {
                    let undisturbed = sample.seen.pen.map(|_| sample.truth.undisturbed_pen);
                    [sample.seen.pen, None, undisturbed, None]
                }
            };
            for (pieces, value) in lines.iter_mut().zip(values) {
                add(pieces, minute, value);
            }
        }
        for pieces in &mut lines {
            pieces.retain(|piece| piece.len() > 1);
        }
        let is_of = |reading: &&ReadingJudged| match reading.instrument {
            Instrument::LegUp | Instrument::LegDown => of == Read::Manometer,
            Instrument::Pen => of == Read::Pen,
            Instrument::Barometer | Instrument::Thermometer => false,
        };
        let written = marks.readings.iter().filter(is_of).map(|reading| {
            // Legs are written without their sign; on the scale one stands below zero.
            let down = reading.instrument == Instrument::LegDown;
            let value = if down { -reading.written.abs() } else { reading.written };
            (line.minutes_at(reading.tick), value)
        });
        let plot = Self { of, lines, written: written.collect(), minutes: line.minutes() };
        plot.lines.iter().any(|pieces| !pieces.is_empty()).then_some(plot)
    }

    pub(super) fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        look: &Look,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let palette = look.palette;
        let shown = self.lines.iter().flatten().flatten().map(|point| point.1);
        let values = shown.chain(self.written.iter().map(|point| point.1));
        let (least, y_words, keys): (_, _, &[(Key, &str)]) = match self.of {
            Read::Manometer => (
                -1.0..1.0,
                "menisci, in",
                &[
                    (Key::Line(palette.ink, 1.75), "leg with the tube"),
                    (Key::Line(palette.ink, 0.75), "other leg"),
                    (Key::Dashes(palette.truth, 1.5), "without any fault"),
                    (Key::Dot(palette.own), "written"),
                ],
            ),
            Read::Pen => (
                0.0..10.0,
                "pen, divisions",
                &[
                    (Key::Line(palette.ink, 1.75), "pen"),
                    (Key::Dashes(palette.truth, 1.5), "without any fault"),
                    (Key::Dot(palette.own), "written"),
                ],
            ),
        };
        let y = axes::room(values, least, 0.08);
        let frame = Frame {
            x: 0.0..self.minutes.max(1.0),
            y,
            x_words: "minutes on the bench",
            y_words,
            decimals: (0, 0),
            keys,
        };
        let mut chart = plane(root, look, &frame)?;
        let (seen, truth) = self.lines.split_at(LINES / 2);
        let styles = [look.line(palette.ink, 1.75), look.line(palette.ink, 0.75)];
        for (pieces, style) in seen.iter().zip(styles) {
            for piece in pieces {
                chart.draw_series(LineSeries::new(piece.iter().copied(), style))?;
            }
        }
        for piece in truth.iter().flatten() {
            axes::dashes(&mut chart, look, piece.iter().copied(), (palette.truth, 1.5))?;
        }
        let radius = look.px(3.25);
        let written = self.written.iter();
        chart
            .draw_series(written.map(|&point| Circle::new(point, radius, palette.own.filled())))?;
        Ok(())
    }
}

/// Adds a value to the last piece, or begins another where there was a gap.
fn add(pieces: &mut Vec<Vec<(f64, f64)>>, minute: f64, value: Option<f64>) {
    let last = pieces.last().and_then(|piece| piece.last());
    let gap = value.is_none() || last.is_some_and(|(before, _)| minute - before > GAP_MIN);
    if gap && last.is_some() {
        pieces.push(Vec::new());
    }
    if let (Some(value), Some(piece)) = (value, pieces.last_mut()) {
        piece.push((minute, value));
    }
}
