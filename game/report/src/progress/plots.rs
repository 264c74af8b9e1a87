//! Plots over a person's sessions: a small one for each part of the marks, and the reading errors.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};

use super::super::names::part_name;
use super::super::plots::axes::{self, Frame, Key, SMALL, plane};
use super::super::plots::draw_error::DrawError;
use super::super::plots::style::PlotStyle;
use super::overview::Progress;
use super::session::{ReadScale, SessionSummary};

/// Marks by part, in percent, session by session.
#[derive(Debug, Clone, PartialEq)]
pub struct MarksPlot {
    parts: Vec<(&'static str, Vec<Option<f64>>)>,
}

impl MarksPlot {
    /// The plot; `None` without a session.
    pub fn of(progress: &Progress) -> Option<Self> {
        let first = progress.sessions.first()?;
        let values = |index: usize| {
            let share = |one: &SessionSummary| one.parts.get(index).and_then(|share| share.percent);
            progress.sessions.iter().map(share).collect()
        };
        let parts = first.parts.iter().enumerate();
        Some(Self {
            parts: parts.map(|(index, one)| (part_name(one.part), values(index))).collect(),
        })
    }

    /// Draws it: three beside each other, or two on a narrow page.
    pub fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let across = if style.is_narrow() { 2 } else { 3 };
        let panels = root.split_evenly((self.parts.len().div_ceil(across), across));
        for ((name, values), panel) in self.parts.iter().zip(&panels) {
            self.panel(panel, style, name, values)?;
        }
        Ok(())
    }

    fn panel<DB: DrawingBackend>(
        &self,
        panel: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
        name: &str,
        values: &[Option<f64>],
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let palette = style.palette;
        let font = style.text_at(SMALL, HPos::Left, VPos::Center);
        let title = format!("{name}, %");
        panel.draw(&Text::new(title, (style.shift(12.0), style.shift(13.0)), font))?;
        let mut chart = ChartBuilder::on(panel)
            .margin_top(style.px(26.0))
            .margin_right(style.px(12.0))
            .margin_bottom(style.px(4.0))
            .x_label_area_size(style.px(20.0))
            .y_label_area_size(style.px(38.0))
            .build_cartesian_2d(0.5..values.len() as f64 + 0.5, 0.0..104.0)?;
        chart
            .configure_mesh()
            .disable_x_mesh()
            .bold_line_style(style.faint(0.16))
            .light_line_style(TRANSPARENT)
            .axis_style(style.line(palette.ink, 1.0))
            .set_all_tick_mark_size(style.px(4.0))
            .label_style(style.text(SMALL))
            .x_labels(values.len().min(8))
            .y_labels(3)
            .x_label_formatter(&|number| whole(*number))
            .y_label_formatter(&|percent| format!("{percent:.0}"))
            .draw()?;
        let points: Vec<(f64, f64)> = numbered(values);
        chart.draw_series(LineSeries::new(
            points.iter().copied(),
            style.line(palette.truth, 1.75),
        ))?;
        for point in points {
            axes::dot(&mut chart, style, point, palette.truth)?;
        }
        Ok(())
    }
}

/// Mean distance of the readings from what was visible, session by session.
#[derive(Debug, Clone, PartialEq)]
pub struct DivisionsPlot {
    scales: Vec<Vec<Option<f64>>>,
}

impl DivisionsPlot {
    /// The plot; `None` where nothing was read.
    pub fn of(progress: &Progress) -> Option<Self> {
        let off = |scale: ReadScale| {
            let one =
                |session: &SessionSummary| session.errors(scale).map(|errors| errors.mean_off);
            progress.sessions.iter().map(one).collect::<Vec<_>>()
        };
        let scales: Vec<_> = ReadScale::ALL.into_iter().map(off).collect();
        scales.iter().flatten().any(Option::is_some).then_some(Self { scales })
    }

    /// Draws it.
    pub fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let palette = style.palette;
        let [legs, pen, air] = ReadScale::ALL.map(ReadScale::words);
        let keys = [
            (Key::Dot(palette.own), legs),
            (Key::Square(palette.truth), pen),
            (Key::Line(palette.ink, 0.75), air),
            (Key::Dashes(palette.ink, 1.0), "no marks lost up to here"),
        ];
        let count = self.scales.first().map_or(1, Vec::len) as f64;
        let values = self.scales.iter().flatten().flatten().copied();
        let frame = Frame {
            x: 0.5..count + 0.5,
            y: axes::room(values, 0.0..0.8, 0.08),
            x_words: "session",
            y_words: "error, divisions",
            decimals: (0, 1),
            keys: &keys,
        };
        let mut chart = plane(root, style, &frame)?;
        let free = [(0.5, 0.5), (count + 0.5, 0.5)];
        axes::dashes(&mut chart, style, free, (palette.ink, 1.0))?;
        let strokes = [
            style.line(palette.own, 1.5),
            style.line(palette.truth, 1.5),
            style.line(palette.ink, 0.75),
        ];
        for ((index, values), stroke) in self.scales.iter().enumerate().zip(strokes) {
            let points = numbered(values);
            chart.draw_series(LineSeries::new(points.iter().copied(), stroke))?;
            for point in points {
                match index {
                    0 => axes::dot(&mut chart, style, point, palette.own)?,
                    1 => axes::square(&mut chart, style, point, palette.truth)?,
                    _ => {}
                }
            }
        }
        Ok(())
    }
}

/// The values that are known, by the number of their session.
fn numbered(values: &[Option<f64>]) -> Vec<(f64, f64)> {
    let known = values.iter().enumerate();
    known.filter_map(|(index, value)| Some((index as f64 + 1.0, (*value)?))).collect()
}

/// The number of a session on a scale; there is nothing between two sessions.
fn whole(number: f64) -> String {
    if (number - number.round()).abs() < 1e-6 { format!("{number:.0}") } else { String::new() }
}
