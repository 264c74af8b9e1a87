//! What plots have in common: a plane with its scales, and the key to marks and lines above it.

use std::ops::Range;

use plotters::coord::Shift;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};

use super::super::number_format::NumberFormat;
use super::super::text_layout::{self, Typeface};
use super::draw_error::DrawError;
use super::style::PlotStyle;

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
    style: &PlotStyle,
    frame: &Frame<'_>,
) -> Result<Plane<'a, DB>, DrawError>
where
    DB::ErrorType: 'static,
{
    let top = keys(root, style, frame.keys)?;
    let mut chart = ChartBuilder::on(root)
        .margin_top(style.px(top + 10.0))
        .margin_right(style.px(14.0))
        .margin_bottom(style.px(6.0))
        .margin_left(style.px(6.0))
        .x_label_area_size(style.px(42.0))
        .y_label_area_size(style.px(58.0))
        .build_cartesian_2d(frame.x.clone(), frame.y.clone())?;
    let ink = style.palette.ink;
    chart
        .configure_mesh()
        .bold_line_style(style.faint(0.16))
        .light_line_style(TRANSPARENT)
        .axis_style(style.line(ink, 1.0))
        .set_all_tick_mark_size(style.px(5.0))
        .label_style(style.text(SMALL))
        .axis_desc_style(style.text(SMALL))
        .x_labels(if style.is_narrow() { 6 } else { 11 })
        .y_labels(if style.height < 250 { 6 } else { 9 })
        .x_label_formatter(&|value| written(*value, frame.decimals.0))
        .y_label_formatter(&|value| written(*value, frame.decimals.1))
        .x_desc(frame.x_words)
        .y_desc(frame.y_words)
        .draw()?;
    Ok(chart)
}

/// A number on a scale; zero has no sign. What these decimals do not hold is not written: rounded, it would
/// stand at a place that is not its own.
pub fn written(value: f64, decimals: usize) -> String {
    let text = NumberFormat::Plain(decimals).write(value);
    let held = text.parse::<f64>().is_ok_and(|rounded| (rounded - value).abs() < 1e-6);
    if held { text } else { String::new() }
}

/// Draws the key and says how high it is.
pub fn keys<DB: DrawingBackend>(
    root: &DrawingArea<DB, Shift>,
    style: &PlotStyle,
    keys: &[(Key, &str)],
) -> Result<f64, DrawError>
where
    DB::ErrorType: 'static,
{
    let (left, right) = (14.0, f64::from(style.width) - 10.0);
    let (mut x, mut line) = (left, 0.0);
    for (key, words) in keys {
        let wide = KEY_MARK + text_layout::width(Typeface::Regular, SMALL, words) + 18.0;
        if x > left && x + wide > right {
            (x, line) = (left, line + 1.0);
        }
        let y = 8.0 + KEY_LINE * (line + 0.5);
        mark(root, style, *key, (x, y))?;
        let font = style.text_at(SMALL, HPos::Left, VPos::Center);
        let place = (style.shift(x + KEY_MARK), style.shift(y));
        root.draw(&Text::new((*words).to_owned(), place, font))?;
        x += wide;
    }
    Ok(if keys.is_empty() { 4.0 } else { 8.0 + KEY_LINE * (line + 1.0) })
}

fn mark<DB: DrawingBackend>(
    root: &DrawingArea<DB, Shift>,
    style: &PlotStyle,
    key: Key,
    (x, y): (f64, f64),
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
    match key {
        Key::Dot(colour) => {
            root.draw(&Circle::new(at(x + 9.0, y), style.px(4.5), colour.filled()))?
        }
        Key::Square(colour) => {
            let corners = [at(x + 4.0, y - 5.0), at(x + 14.0, y + 5.0)];
            root.draw(&frame(corners, style.line(colour, 2.0)))?;
        }
        Key::Line(colour, width) => {
            let ends = [at(x, y), at(x + 20.0, y)];
            root.draw(&PathElement::new(ends, style.line(colour, width)))?;
        }
        Key::Dashes(colour, width) => {
            for from in [0.0, 8.0, 16.0] {
                let ends = [at(x + from, y), at(x + from + 5.0, y)];
                root.draw(&PathElement::new(ends, style.line(colour, width)))?;
            }
        }
    }
    Ok(())
}

/// A dashed line through points of a plane.
pub fn dashes<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    style: &PlotStyle,
    points: impl IntoIterator<Item = (f64, f64), IntoIter: Clone>,
    (colour, width): (RGBColor, f64),
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let stroke = style.line(colour, width);
    chart.draw_series(DashedLineSeries::new(points, style.px(7.0), style.px(5.0), stroke))?;
    Ok(())
}

/// An empty square about a point of a plane.
pub fn square<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    style: &PlotStyle,
    point: (f64, f64),
    colour: RGBColor,
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let half = style.shift(5.0);
    let corners = [(-half, -half), (half, half)];
    let shape = EmptyElement::at(point) + frame(corners, style.line(colour, 2.0));
    chart.draw_series([shape])?;
    Ok(())
}

/// An empty rectangle. That of the plotting library always has a line of one pixel.
pub fn frame(corners: [(i32, i32); 2], style: ShapeStyle) -> PathElement<(i32, i32)> {
    let [(left, top), (right, bottom)] = corners;
    let path =
        [(left, top), (right, top), (right, bottom), (left, bottom), (left, top), (right, top)];
    PathElement::new(path, style)
}

/// A full dot at a point of a plane.
pub fn dot<DB: DrawingBackend>(
    chart: &mut Plane<'_, DB>,
    style: &PlotStyle,
    point: (f64, f64),
    colour: RGBColor,
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    chart.draw_series([Circle::new(point, style.px(4.5), colour.filled())])?;
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

/// The height of a line, by slope and intercept.
pub fn along((slope, intercept): (f64, f64), x: f64) -> f64 {
    slope * x + intercept
}

/// The ends of a line as far as it lies inside the plane; nothing where it does not.
pub fn line_inside(line: (f64, f64), x: &Range<f64>, y: &Range<f64>) -> Vec<(f64, f64)> {
    let (slope, intercept) = line;
    let crossing = |level: f64| (level - intercept) / slope;
    let mut ends: Vec<f64> = vec![x.start, x.end];
    ends.extend([crossing(y.start), crossing(y.end)].into_iter().filter(|at| x.contains(at)));
    ends.retain(|&at| {
        let height = along(line, at);
        height >= y.start - 1e-9 && height <= y.end + 1e-9
    });
    ends.sort_by(f64::total_cmp);
    match ends.as_slice() {
        [first, .., last] => vec![(*first, along(line, *first)), (*last, along(line, *last))],
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::line_inside;

    #[test]
    fn a_scale_says_no_number_twice() {
        let said = [0.5, 1.0, 1.5, 2.0, 2.5, 3.0].map(|session| super::written(session, 0));
        assert_eq!(said, ["", "1", "", "2", "", "3"]);
        let said = [-0.0, 0.1 + 0.2, -0.25].map(|value| super::written(value, 1));
        assert_eq!(said, ["0.0", "0.3", ""]);
    }

    #[test]
    fn a_line_is_shown_as_far_as_it_lies_inside() {
        assert_eq!(line_inside((1.0, 0.0), &(0.0..1.0), &(0.0..0.5)), [(0.0, 0.0), (0.5, 0.5)]);
        assert_eq!(line_inside((0.0, 2.0), &(0.0..1.0), &(0.0..1.0)), []);
        assert_eq!(line_inside((0.0, 0.5), &(0.0..1.0), &(0.0..1.0)), [(0.0, 0.5), (1.0, 0.5)]);
    }
}
