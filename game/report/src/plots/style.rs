//! How plots look: size, colours and type. The same plot is drawn for a telephone, a page, a window
//! and paper.

use plotters::prelude::*;
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{FontTransform, TextStyle};

/// Plots are drawn so many times finer than they are shown: the plotting library counts in whole
/// pixels.
const FINE: u32 = 8;

/// What the plotting library takes a font size by, against that of the page.
pub const FONT_SCALE: f64 = 1.24;

/// The type of all plots.
pub const FAMILY: &str = "IBM Plex Sans, Liberation Sans, sans-serif";

/// Size and colours of a plot.
#[derive(Debug, Clone, PartialEq)]
pub struct PlotStyle {
    /// Width, in units of a page in which text has 13.
    pub width: u32,
    /// Height, in the same units.
    pub height: u32,
    /// The colours.
    pub palette: PlotColors,
}

/// Colours of plots. No colour alone carries meaning: marks and lines differ in shape as well.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PlotColors {
    /// The background.
    pub paper: RGBColor,
    /// Lines and text.
    pub ink: RGBColor,
    /// What the trainee did.
    pub own: RGBColor,
    /// What is true.
    pub truth: RGBColor,
    /// A light fill of bars.
    pub wash: RGBColor,
}

impl PlotColors {
    /// As on the report's page.
    pub const PAGE: Self = Self {
        paper: RGBColor(0xfc, 0xf9, 0xf1),
        ink: RGBColor(0x22, 0x2d, 0x38),
        own: RGBColor(0xb1, 0x4e, 0x27),
        truth: RGBColor(0x23, 0x57, 0x64),
        wash: RGBColor(0xe0, 0xd6, 0xbd),
    };
    /// The same on white paper.
    pub const WHITE: Self = Self { paper: RGBColor(0xff, 0xff, 0xff), ..Self::PAGE };
}

impl PlotStyle {
    /// A plot of that size.
    pub const fn new(width: u32, height: u32, palette: PlotColors) -> Self {
        Self { width, height, palette }
    }

    /// The size in which it is drawn.
    pub const fn fine(&self) -> (u32, u32) {
        (self.width * FINE, self.height * FINE)
    }

    /// Whether it is as narrow as on a telephone.
    pub const fn is_narrow(&self) -> bool {
        self.width < 480
    }

    /// A length as it is drawn.
    pub fn px(&self, length: f64) -> u32 {
        (length * f64::from(FINE)).round().max(0.0) as u32
    }

    /// The same with a sign.
    pub fn shift(&self, length: f64) -> i32 {
        (length * f64::from(FINE)).round() as i32
    }

    /// Text of a size, by its left upper corner.
    pub fn text(&self, size: f64) -> TextStyle<'static> {
        let drawn = size * FONT_SCALE * f64::from(FINE);
        (FAMILY, drawn).into_font().color(&self.palette.ink)
    }

    /// The same in bold.
    pub fn bold(&self, size: f64) -> TextStyle<'static> {
        let drawn = size * FONT_SCALE * f64::from(FINE);
        (FAMILY, drawn, FontStyle::Bold).into_font().color(&self.palette.ink)
    }

    /// Text that is anchored at its point in this way.
    pub fn text_at(&self, size: f64, h_pos: HPos, v_pos: VPos) -> TextStyle<'static> {
        self.text(size).pos(Pos::new(h_pos, v_pos))
    }

    /// Text that reads upwards.
    pub fn upwards(&self, size: f64) -> TextStyle<'static> {
        self.text_at(size, HPos::Center, VPos::Top).transform(FontTransform::Rotate270)
    }

    /// A line of a width.
    pub fn line(&self, colour: RGBColor, width: f64) -> ShapeStyle {
        colour.stroke_width(self.px(width).max(1))
    }

    /// A faint line of the ink.
    pub fn faint(&self, strength: f64) -> ShapeStyle {
        self.palette.ink.mix(strength).stroke_width(self.px(1.0))
    }
}
