//! What lies on a sheet of paper, in points (1/72 in) from its left upper corner.

use plotters::style::RGBColor;

use super::structure::Piece;
use crate::lettering::Style;
use crate::plots::Plot;

/// Width of A4, pt.
pub const WIDTH: f64 = 595.28;
/// Height of A4, pt.
pub const HEIGHT: f64 = 841.89;
/// Room at the left and right edge, pt.
pub const SIDE: f64 = 46.0;
/// Room at the top, pt.
pub const TOP: f64 = 50.0;
/// Room at the bottom, pt: the foot stands in it.
pub const BOTTOM: f64 = 58.0;
/// Width of what is set, pt.
pub const BREADTH: f64 = WIDTH - 2.0 * SIDE;

/// Text and lines.
pub const BLACK: RGBColor = RGBColor(0x18, 0x20, 0x28);
/// Quiet text.
pub const SOFT: RGBColor = RGBColor(0x48, 0x50, 0x58);
/// Rules between rows.
pub const RULE: RGBColor = RGBColor(0xa0, 0xa0, 0xa0);
/// Beside findings, and about the caution.
pub const ACCENT: RGBColor = RGBColor(0x96, 0x40, 0x1c);

/// A sheet of paper.
#[derive(Debug, Clone, Default)]
pub struct Paper {
    /// What lies on it, each with the piece that it belongs to; lines and frames belong to none.
    pub inks: Vec<(Ink, Option<Piece>)>,
    /// Heads of sections, with their height.
    pub heads: Vec<(String, f64)>,
}

/// One thing on a sheet.
#[derive(Debug, Clone)]
pub enum Ink {
    /// Words in one line, by the left end of their baseline.
    Words {
        /// From the left.
        x: f64,
        /// From the top.
        baseline: f64,
        /// The type.
        face: Face,
        /// What is written.
        words: String,
    },
    /// A straight line.
    Line {
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
    Box {
        /// Left upper corner.
        corner: (f64, f64),
        /// Width and height.
        size: (f64, f64),
        /// Its colour.
        colour: RGBColor,
    },
    /// A plot.
    Plot {
        /// Left upper corner.
        corner: (f64, f64),
        /// Width on the paper.
        width: f64,
        /// Width and height in the plot's own units.
        size: (u32, u32),
        /// The plot.
        plot: Box<Plot>,
    },
}

/// Type, size and colour of words.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    /// The style.
    pub style: Style,
    /// The size, pt.
    pub size: f64,
    /// The colour.
    pub colour: RGBColor,
}

impl Face {
    /// Text.
    pub const TEXT: Self = Self { style: Style::Regular, size: 9.5, colour: BLACK };
    /// Text that counts.
    pub const STRONG: Self = Self { style: Style::SemiBold, ..Self::TEXT };
    /// Notes and sources.
    pub const NOTE: Self = Self { style: Style::Regular, size: 8.25, colour: SOFT };
    /// Cells of tables.
    pub const CELL: Self = Self { style: Style::Regular, size: 9.0, colour: BLACK };
    /// Heads and sums of tables.
    pub const CELL_STRONG: Self = Self { style: Style::SemiBold, ..Self::CELL };
    /// The title.
    pub const TITLE: Self = Self { style: Style::SemiBold, size: 18.0, colour: BLACK };
    /// Heads of sections.
    pub const HEADING: Self = Self { style: Style::SemiBold, size: 12.5, colour: BLACK };
    /// Heads of parts.
    pub const SUBHEADING: Self = Self { style: Style::SemiBold, size: 9.5, colour: BLACK };
    /// The result.
    pub const RESULT: Self = Self { style: Style::SemiBold, size: 11.5, colour: BLACK };

    /// From one baseline to the next.
    pub fn lead(self) -> f64 {
        1.38 * self.size
    }

    /// From the top of a line to its baseline.
    pub fn rise(self) -> f64 {
        1.03 * self.size
    }
}
