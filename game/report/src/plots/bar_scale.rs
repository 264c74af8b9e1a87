//! Bars that lie above one another over a scale: the scale, and a bar with its edge.

use plotters::coord::Shift;
use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, VPos};

use super::axes::SMALL;
use super::draw_error::DrawError;
use super::style::PlotStyle;

/// The scale below bars.
pub(super) struct BarScale<'a> {
    /// The least and the most value.
    pub span: (f64, f64),
    /// Distances that the marks may have, the smallest first, and how many marks are wanted at most.
    pub marks: (&'a [f64], f64),
    /// Where the marks' lines begin.
    pub top: f64,
    /// Room on each side.
    pub side: f64,
    /// What is measured, and how far below the scale it stands.
    pub caption: (&'a str, f64),
}

impl BarScale<'_> {
    /// Draws it. `x` is where a value lies, `bottom` where the scale lies, and `write` gives the words of a
    /// mark for its value and the distance of the marks.
    pub fn draw<DB: DrawingBackend>(
        &self,
        root: &DrawingArea<DB, Shift>,
        style: &PlotStyle,
        x: &dyn Fn(f64) -> f64,
        bottom: f64,
        write: &dyn Fn(f64, f64) -> String,
    ) -> Result<(), DrawError>
    where
        DB::ErrorType: 'static,
    {
        let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
        let ((least, most), (steps, wanted)) = (self.span, self.marks);
        let fits = |step: &f64| (most - least) / step <= wanted;
        let step = steps.iter().copied().find(fits).unwrap_or(5000.0);
        let first = (least / step).ceil();
        let marks = (0..20).map(|index| (first + f64::from(index)) * step);
        for value in marks.take_while(|&value| value <= most) {
            let line = [at(x(value), self.top), at(x(value), bottom + 4.0)];
            root.draw(&PathElement::new(line, style.faint(0.16)))?;
            let font = style.text_at(SMALL, HPos::Center, VPos::Top);
            root.draw(&Text::new(write(value, step), at(x(value), bottom + 6.0), font))?;
        }
        let right = f64::from(style.width) - self.side;
        root.draw(&PathElement::new(
            [at(self.side, bottom), at(right, bottom)],
            style.line(style.palette.ink, 1.0),
        ))?;
        let font = style.text_at(SMALL, HPos::Center, VPos::Top);
        let (words, below) = self.caption;
        let place = at(0.5 * f64::from(style.width), bottom + below);
        Ok(root.draw(&Text::new(words.to_owned(), place, font))?)
    }
}

/// A bar from one place to another, so far down and so high. An edge keeps one without length visible, and
/// shows its direction.
pub(super) fn bar_with_edge<DB: DrawingBackend>(
    root: &DrawingArea<DB, Shift>,
    style: &PlotStyle,
    (from, to): (f64, f64),
    (y, height): (f64, f64),
    colour: RGBColor,
) -> Result<(), DrawError>
where
    DB::ErrorType: 'static,
{
    let at = |x: f64, y: f64| (style.shift(x), style.shift(y));
    let corners = [at(from.min(to), y), at(from.max(to), y + height)];
    root.draw(&Rectangle::new(corners, colour.filled()))?;
    let edge = [at(to, y - 2.0), at(to, y + height + 2.0)];
    Ok(root.draw(&PathElement::new(edge, style.line(style.palette.ink, 2.0)))?)
}
