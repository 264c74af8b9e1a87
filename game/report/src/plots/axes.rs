//! What plots have in common: a plane with its scales, and the key to marks and lines above it.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};

use super::DrawError;
use super::look::Look;
use crate::lettering::{self, Style};

/// Size of the text of plots.
pub const SMALL: f64 = 12.0;
/// Height of a line of the key.
const KEY_LINE: f64 = 20.0;
/// Room for a mark in the key.
const KEY_MARK: f64 = 26.0;

/// A plane with scales.
pub type Plane<'a, DB> = ChartContext<'a, DB, Cartesian2d<RangedCoordf64, RangedCoordf64>>;

/// What a plane shows and says beside its scales.
pub struct Frame<'f> {
    /// From left to right.
    pub x: Range<f64>,
    /// From bottom to top.
    pub y: Range<f64>,
    /// Below the plane.
    pub x_words: &'f str,
    /// Beside the plane.
    pub y_words: &'f str,
    /// Decimals on both scales.
    pub decimals: (usize, usize),
    /// What marks and lines mean.
    pub keys: &'f [(Key, &'f str)],
}

/// A mark or a line in the key.
#[derive(Debug, Clone, Copy)]
pub enum Key {
    /// A full dot.
    Dot(RGBColor),
    /// An empty square.
    Square(RGBColor),
    /// A line of a width.
    Line(RGBColor, f64),
    /// A dashed line of a width.
    Dashes(RGBColor, f64),
}

/// A plane with its scales and its key.
pub fn plane<'a, DB: DrawingBackend + 'a>(
    root: &DrawingArea<DB, Shift>,
    look: &Look,
    frame: &Frame<'_>,
) -> Result<Plane<'a, DB>, DrawError>
where
    DB::ErrorType: 'static,
{
    let top = keys(root, look, frame.keys)?;
    let mut chart = ChartBuilder::on(root)
        .margin_top(look.px(top + 10.0))
        .margin_right(look.px(14.0))
        .margin_bottom(look.px(6.0))
        .margin_left(look.px(6.0))
        .x_label_area_size(look.px(42.0))
        .y_label_area_size(look.px(58.0))
        .build_cartesian_2d(frame.x.clone(), frame.y.clone())?;
    let ink = look.palette.ink;
    chart
        .configure_mesh()
        .bold_line_style(look.faint(0.16))
        .light_line_style(TRANSPARENT)
        .axis_style(look.line(ink, 1.0))
        .set_all_tick_mark_size(look.px(5.0))
        .label_style(look.text(SMALL))
        .axis_desc_style(look.text(SMALL))
        .x_labels(if look.is_narrow() { 6 } else { 11 })
        .y_labels(if look.height < 250 { 6 } else { 9 })
        .x_label_formatter(&|value| written(*value, frame.decimals.0))
        .y_label_formatter(&|value| written(*value, frame.decimals.1))
        .x_desc(frame.x_words)
        .y_desc(frame.y_words)
        .draw()?;
    Ok(chart)
}

/// A number on a scale; nothing has no sign.
fn written(value: f64, decimals: usize) -> String {
    crate::figures::Digits::Plain(decimals).write(value)
}

/// Draws the key and says how high it is.
fn keys<DB: DrawingBackend>(
    root: &DrawingArea<DB, Shift>,
    look: &Look,
    keys: &[(Key, &str)],
) -> Result<f64, DrawError>
where
    DB::ErrorType: 'static,
{
    let (left, right) = (14.0, f64::from(look.width) - 10.0);
    let (mut x, mut line) = (left, 0.0);
    for (key, words) in keys {
        let wide = KEY_MARK + lettering::width(Style::Regular, SMALL, words) + 18.0;
        if x > left && x + wide > right {
            (x, line) = (left, line + 1.0);
        }
        let y = 8.0 + KEY_LINE * (line + 0.5);
        mark(root, look, *key, (x, y))?;
        let style = look.text_at(SMALL, HPos::Left, VPos::Center);
        let place = (look.shift(x + KEY_MARK), look.shift(y));
        root.draw(&Text::new((*words).to_owned(), place, style))?;
        x += wide;
    }
    Ok(if keys.is_empty() { 4.0 } else { 8.0 + KEY_LINE * (line + 1.0) })
}

fn mark<DB: DrawingBackend>(
    root: &DrawingArea<DB, Shift>,
    look: &Look,
    key: Key,
    (x, y): (f64, f64),
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let at = |x: f64, y: f64| (look.shift(x), look.shift(y));
    match key {
        Key::Dot(colour) => {
            root.draw(&Circle::new(at(x + 9.0, y), look.px(4.5), colour.filled()))?
        }
        Key::Square(colour) => {
            let corners = [at(x + 4.0, y - 5.0), at(x + 14.0, y + 5.0)];
            root.draw(&frame(corners, look.line(colour, 2.0)))?;
        }
        Key::Line(colour, width) => {
            let ends = [at(x, y), at(x + 20.0, y)];
            root.draw(&PathElement::new(ends, look.line(colour, width)))?;
        }
        Key::Dashes(colour, width) => {
            for from in [0.0, 8.0, 16.0] {
                let ends = [at(x + from, y), at(x + from + 5.0, y)];
                root.draw(&PathElement::new(ends, look.line(colour, width)))?;
            }
        }
    }
    Ok(())
}

/// A dashed line through points of a plane.
pub fn dashes<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    look: &Look,
    points: impl IntoIterator<Item = (f64, f64), IntoIter: Clone>,
    (colour, width): (RGBColor, f64),
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let style = look.line(colour, width);
    chart.draw_series(DashedLineSeries::new(points, look.px(7.0), look.px(5.0), style))?;
    Ok(())
}

/// An empty square about a point of a plane.
pub fn square<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    look: &Look,
    point: (f64, f64),
    colour: RGBColor,
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let half = look.shift(5.0);
    let corners = [(-half, -half), (half, half)];
    let shape = EmptyElement::at(point) + frame(corners, look.line(colour, 2.0));
    chart.draw_series([shape])?;
    Ok(())
}

/// An empty rectangle. The plotting library draws its own with a line of one pixel, whatever is asked.
pub fn frame(corners: [(i32, i32); 2], style: ShapeStyle) -> PathElement<(i32, i32)> {
    let [(left, top), (right, bottom)] = corners;
    let path =
        [(left, top), (right, top), (right, bottom), (left, bottom), (left, top), (right, top)];
    PathElement::new(path, style)
}

/// A full dot at a point of a plane.
pub fn dot<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    look: &Look,
    point: (f64, f64),
    colour: RGBColor,
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    chart.draw_series([Circle::new(point, look.px(4.5), colour.filled())])?;
    Ok(())
}

/// The range of some values, with room on both sides, and never narrower than `least`.
pub fn room(values: impl IntoIterator<Item = f64>, least: Range<f64>, share: f64) -> Range<f64> {
    let finite = values.into_iter().filter(|value| value.is_finite());
    let (low, high) = finite
        .fold((least.start, least.end), |(low, high), value| (low.min(value), high.max(value)));
    let room = share * (high - low);
    let low = if low < least.start { low - room } else { low };
    let high = if high > least.end { high + room } else { high };
    low..high
}
