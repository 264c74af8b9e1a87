//! What manometer and pen showed over a session, and when their readings were written.

use plotters::coord::Shift;
use plotters::prelude::*;
use sim_core::marking::readings::Instrument;
use sim_core::marking::{Marks, ReadingJudged};
use sim_core::session::history::GaugeSample;

use super::super::bench_time_line::BenchTimeLine;
use super::axes::{self, Frame, Key, plane};
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// A gap in the time on the bench, min: nothing was looked at there, and no line is drawn.
const GAP_MIN: f64 = 0.5;

/// Lines of a plot: two that were visible, and two of the truth.
const LINES: usize = 4;

/// Which instrument.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TraceOf {
    /// Both legs of the manometer.
    Manometer,
    /// The pen.
    Pen,
}

/// What an instrument showed.
#[derive(Debug, Clone, PartialEq)]
pub struct TracePlot {
    of: TraceOf,
    /// Each line, in pieces without gaps: minutes and value.
    lines: Vec<Vec<Vec<(f64, f64)>>>,
    /// What was written, and when.
    written: Vec<(f64, f64)>,
    minutes: f64,
}

impl TracePlot {
    /// The plot of a session; `None` where the instrument showed nothing.
    pub fn of(
        of: TraceOf,
        samples: &[GaugeSample],
        line: &BenchTimeLine,
        marks: &Marks,
    ) -> Option<Self> {
        let mut lines = vec![vec![Vec::new()]; LINES];
        for sample in samples {
            let minute = line.minutes_at(sample.tick);
            let values = match of {
                TraceOf::Manometer => {
                    let half = 0.5 * sample.truth.orifice_inh2o;
                    let hung = sample.seen.legs_in.map(|[left, right]| [left, right, half, -half]);
                    hung.map_or([None; LINES], |values| values.map(Some))
                }
                TraceOf::Pen => {
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
            Instrument::LegUp | Instrument::LegDown | Instrument::Display => {
                of == TraceOf::Manometer
            }
            Instrument::Pen => of == TraceOf::Pen,
            Instrument::Barometer | Instrument::Thermometer | Instrument::ElapsedTimeMeter => false,
        };
        let written = marks.readings.iter().filter(is_of).map(|reading| {
            // Legs are written without their sign; on the scale one is below zero.
            let value = match reading.instrument {
                Instrument::LegDown => -reading.written.abs(),
                // A display shows what two legs share.
                Instrument::Display => 0.5 * reading.written,
                _ => reading.written,
            };
            (line.minutes_at(reading.tick), value)
        });
        let plot = Self { of, lines, written: written.collect(), minutes: line.minutes() };
        plot.lines.iter().any(|pieces| !pieces.is_empty()).then_some(plot)
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
        let shown = self.lines.iter().flatten().flatten().map(|point| point.1);
        let values = shown.chain(self.written.iter().map(|point| point.1));
        let (least, y_words, keys): (_, _, &[(Key, &str)]) = match self.of {
            TraceOf::Manometer => (
                -1.0..1.0,
                "meniscus, in",
                &[
                    (Key::Line(palette.ink, 1.75), "leg with the tubing"),
                    (Key::Line(palette.ink, 0.75), "other leg"),
                    (Key::Dashes(palette.truth, 1.5), "fault-free"),
                    (Key::Dot(palette.own), "written"),
                ],
            ),
            TraceOf::Pen => (
                0.0..10.0,
                "pen, divisions",
                &[
                    (Key::Line(palette.ink, 1.75), "pen"),
                    (Key::Dashes(palette.truth, 1.5), "fault-free"),
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
        let mut chart = plane(root, style, &frame)?;
        let (seen, truth) = self.lines.split_at(LINES / 2);
        let strokes = [style.line(palette.ink, 1.75), style.line(palette.ink, 0.75)];
        for (pieces, stroke) in seen.iter().zip(strokes) {
            for piece in pieces {
                chart.draw_series(LineSeries::new(piece.iter().copied(), stroke))?;
            }
        }
        for piece in truth.iter().flatten() {
            axes::dashes(&mut chart, style, piece.iter().copied(), (palette.truth, 1.5))?;
        }
        let radius = style.px(3.25);
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
