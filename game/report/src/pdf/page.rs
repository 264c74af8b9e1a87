//! A page and what is placed on it, in points (1/72 in) from its upper left corner.

use plotters::style::RGBColor;

use super::super::paper::PaperSize;
use super::super::plots::Plot;
use super::super::text_layout::Typeface;
use super::tags::TagId;

/// Left and right margin, pt.
pub const SIDE: f64 = 46.0;
/// Top margin, pt.
pub const TOP: f64 = 50.0;
/// Bottom margin, pt: the footer is in it.
pub const BOTTOM: f64 = 58.0;

/// The size of a page and of the area inside its margins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PageSize {
    /// Width of the page, pt.
    pub width: f64,
    /// Height of the page, pt.
    pub height: f64,
}

impl PageSize {
    /// The page of a size of paper.
    pub const fn of(paper: PaperSize) -> Self {
        let (width, height) = paper.points();
        Self { width, height }
    }

    /// Width between the margins, pt.
    pub const fn breadth(self) -> f64 {
        self.width - 2.0 * SIDE
    }

    /// Height between the margins, pt.
    pub const fn depth(self) -> f64 {
        self.height - TOP - BOTTOM
    }
}

/// Text and lines.
pub const BLACK: RGBColor = RGBColor(0x18, 0x20, 0x28);
/// Quiet text.
pub const SOFT: RGBColor = RGBColor(0x48, 0x50, 0x58);
/// Rules between rows.
pub const RULE: RGBColor = RGBColor(0xa0, 0xa0, 0xa0);
/// Beside findings, and about the caution.
pub const ACCENT: RGBColor = RGBColor(0x96, 0x40, 0x1c);

/// A page.
#[derive(Debug, Clone, Default)]
pub struct Page {
    /// What is placed on it, each with the tag that it belongs to; rules and frames belong to none.
    pub items: Vec<(PageItem, Option<TagId>)>,
    /// Headings of sections, with their distance from the top.
    pub headings: Vec<(String, f64)>,
}

/// One thing on a page.
#[derive(Debug, Clone)]
pub enum PageItem {
    /// Words in one line, by the left end of their baseline.
    Words {
        /// From the left.
        x: f64,
        /// From the top.
        baseline: f64,
        /// The font.
        font: Font,
        /// The words.
        words: String,
    },
    /// A straight line.
    Rule {
        /// From here.
        from: (f64, f64),
        /// To there.
        to: (f64, f64),
        /// Its width.
        width: f64,
        /// Its colour.
        colour: RGBColor,
    },
    /// An empty rectangle.
    Frame {
        /// Upper left corner.
        corner: (f64, f64),
        /// Width and height.
        size: (f64, f64),
        /// Its colour.
        colour: RGBColor,
    },
    /// A plot.
    Plot {
        /// Upper left corner.
        corner: (f64, f64),
        /// Width on the page.
        width: f64,
        /// Width and height in the plot's own units.
        size: (u32, u32),
        /// The plot.
        plot: Box<Plot>,
    },
}

/// Typeface, size and colour of words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Font {
    /// The typeface.
    pub typeface: Typeface,
    /// The size, pt.
    pub size: f64,
    /// The colour.
    pub colour: RGBColor,
}

impl Font {
    /// Body text.
    pub const TEXT: Self = Self { typeface: Typeface::Regular, size: 9.5, colour: BLACK };
    /// Notes and sources.
    pub const NOTE: Self = Self { typeface: Typeface::Regular, size: 8.25, colour: SOFT };
    /// Cells of tables.
    pub const CELL: Self = Self { typeface: Typeface::Regular, size: 9.0, colour: BLACK };
    /// Heads and totals of tables.
    pub const CELL_STRONG: Self = Self { typeface: Typeface::SemiBold, ..Self::CELL };
    /// The title.
    pub const TITLE: Self = Self { typeface: Typeface::SemiBold, size: 18.0, colour: BLACK };
    /// Headings of sections.
    pub const HEADING: Self = Self { typeface: Typeface::SemiBold, size: 12.5, colour: BLACK };
    /// Headings of parts of sections.
    pub const SUBHEADING: Self = Self { typeface: Typeface::SemiBold, size: 9.5, colour: BLACK };
    /// The result.
    pub const RESULT: Self = Self { typeface: Typeface::SemiBold, size: 11.5, colour: BLACK };
    /// The footer.
    pub const FOOTER: Self = Self { typeface: Typeface::Regular, size: 7.75, colour: SOFT };

    /// From one baseline to the next.
    pub fn lead(self) -> f64 {
        1.38 * self.size
    }

    /// From the top of a line to its baseline.
    pub fn rise(self) -> f64 {
        1.03 * self.size
    }
}
