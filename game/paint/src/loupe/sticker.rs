//! The certification sticker of an instrument.

use sim_core::time::Date;

use super::field_of_view::{Subject, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point};
use crate::palette;
use crate::text::FontStyle;

/// Width and height.
const SIZE: Point = (70.0, 32.0);

/// Draws the sticker about a point; none while the instrument is not in focus.
pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, at: Point, certified: Option<Date>) {
    let Some(date) = certified else { return };
    let corner = (at.0 - 0.5 * SIZE.0, at.1 - 0.5 * SIZE.1);
    let edge = Some((palette::INK.color(), LineWeight::THIN));
    canvas.rect(corner, SIZE, palette::PAGE.color(), edge);
    let set = |size| Lettering::new(FontStyle::Regular, subject.size(size, 1.1), palette::INK);
    label(canvas, (at.0, at.1 - 7.0), "certified", set(9.0));
    label(canvas, (at.0, at.1 + 7.0), &date.to_string(), set(11.0));
}
