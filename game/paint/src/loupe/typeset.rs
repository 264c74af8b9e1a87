//! Rows of a printed page, set one below the other.

use super::super::canvas::{Canvas, Lettering, LineWeight, TextAlign};
use super::super::palette::{self, PaletteColor};
use super::super::text::{self, FontStyle};

/// One line of a page.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Row {
    /// The heading.
    Heading(String),
    /// A line of text.
    Text(String),
    /// A name and its value.
    Pair(String, String),
    /// A name and two values, each in its column.
    Cells(String, [String; 2]),
    /// What the two columns are.
    ColumnHeads(String, [String; 2]),
    /// A quiet heading.
    Small(String),
    /// A rule across.
    Rule,
}

/// How much of a line at a height is shown: in the loupe its rim cuts no line, but fades it.
pub(super) type Shown = fn(f32, f32) -> f32;

/// Sets the rows from `at` downwards, on a canvas if there is one, and returns their height.
pub(super) fn set(
    canvas: Option<(&mut Canvas, Shown)>,
    rows: &[Row],
    size: f32,
    measure: f32,
    at: (f32, f32),
) -> f32 {
    let (x, y) = at;
    let mut page = Page { canvas, x, y, size, measure };
    for row in rows {
        page.row(row);
    }
    page.y + 0.4 * size - at.1
}

/// A page while it is set.
struct Page<'c> {
    canvas: Option<(&'c mut Canvas, Shown)>,
    /// Left edge.
    x: f32,
    /// The baseline that was set last.
    y: f32,
    size: f32,
    measure: f32,
}

impl Page<'_> {
    fn row(&mut self, row: &Row) {
        let (size, measure) = (self.size, self.measure);
        match row {
            Row::Heading(words) => {
                self.y += 1.1 * size;
                self.put(
                    words,
                    0.0,
                    TextAlign::Start,
                    (FontStyle::SemiBold, 1.4 * size, palette::INK),
                );
                self.y += 0.5 * size;
            }
            Row::Text(words) => {
                for line in text::wrapped(FontStyle::Regular, size, words, measure) {
                    self.y += 1.3 * size;
                    self.put(
                        &line,
                        0.0,
                        TextAlign::Start,
                        (FontStyle::Regular, size, palette::INK),
                    );
                }
                self.y += 0.15 * size;
            }
            Row::Pair(name, value) => self.pair(name, value),
            Row::Cells(name, values) => {
                self.columns(name, values, (FontStyle::SemiBold, size, palette::INK));
            }
            Row::ColumnHeads(name, values) => {
                self.columns(name, values, (FontStyle::Italic, size, palette::COPPER));
            }
            Row::Small(words) => {
                self.y += 1.5 * size;
                let set = (FontStyle::Italic, 0.95 * size, palette::COPPER);
                self.put(words, 0.0, TextAlign::Start, set);
            }
            Row::Rule => {
                self.y += 0.6 * size;
                if let Some((canvas, shown)) = &mut self.canvas {
                    let color = palette::INK_SOFT.faded(shown(self.y, self.y));
                    let ends = ((self.x, self.y), (self.x + measure, self.y));
                    canvas.line(ends.0, ends.1, color, LineWeight::FINE);
                }
            }
        }
    }

    /// A name at the left and its value at the right, in as many lines as it needs. Where large type
    /// would break a number, the value is below the name.
    fn pair(&mut self, name: &str, value: &str) {
        let (size, measure) = (self.size, self.measure);
        self.y += 1.28 * size;
        self.put(name, 0.0, TextAlign::Start, (FontStyle::Italic, size, palette::INK_SOFT));
        let beside = measure - text::width(FontStyle::Italic, size, name) - size;
        let (below, lines) = value_lines(value, size, beside, measure);
        for (index, line) in lines.iter().enumerate() {
            self.y += if index == 0 && !below { 0.0 } else { 1.2 * size };
            self.put(line, measure, TextAlign::End, (FontStyle::SemiBold, size, palette::INK));
        }
    }

    /// A name and two values that end in columns. Where large type leaves no room for all three, the
    /// values are below the name.
    fn columns(&mut self, name: &str, values: &[String; 2], set: (FontStyle, f32, PaletteColor)) {
        let (size, measure) = (self.size, self.measure);
        let wide = |words: &str| text::width(set.0, size, words);
        let [first, second] = values;
        let column =
            wide(first).max(wide(second)).max(text::width(FontStyle::SemiBold, size, "0.00000"));
        let ends = [measure - column - size, measure];
        self.y += 1.28 * size;
        self.put(name, 0.0, TextAlign::Start, (FontStyle::Italic, size, palette::INK_SOFT));
        let beside = text::width(FontStyle::Italic, size, name) + 0.5 * size;
        if beside > measure - 2.0 * column - size {
            self.y += 1.2 * size;
        }
        for (value, end) in values.iter().zip(ends) {
            self.put(value, end, TextAlign::End, set);
        }
    }

    /// Words at the present baseline, so far from the left edge.
    fn put(
        &mut self,
        words: &str,
        x: f32,
        align: TextAlign,
        (style, size, hue): (FontStyle, f32, PaletteColor),
    ) {
        let Some((canvas, shown)) = &mut self.canvas else { return };
        let color = hue.faded(shown(self.y - 0.75 * size, self.y + 0.25 * size));
        let set = Lettering::new(style, size, hue).align(align).color(color);
        canvas.text((self.x + x, self.y), words, set);
    }
}

/// The lines of a value, and whether they are below its name: they are where a word of it is wider than
/// the room beside the name.
fn value_lines(value: &str, size: f32, beside: f32, measure: f32) -> (bool, Vec<String>) {
    let style = FontStyle::SemiBold;
    let below = value.split_whitespace().any(|word| text::width(style, size, word) > beside);
    (below, text::wrapped(style, size, value, if below { measure } else { beside }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_is_not_broken_where_large_type_leaves_no_room_beside_its_name() {
        for (name, value) in [("serial number", "OC-318"), ("calibrated on", "2025-11-04")] {
            for size in [8.0, 10.0, 12.0, 14.0, 16.0, 18.0] {
                let beside = 140.0 - text::width(FontStyle::Italic, size, name) - size;
                let (below, lines) = value_lines(value, size, beside, 140.0);
                assert_eq!(lines, [value], "at {size}");
                assert_eq!(below, text::width(FontStyle::SemiBold, size, value) > beside);
            }
        }
    }
}
