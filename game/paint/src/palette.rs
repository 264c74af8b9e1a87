//! The colours of every picture. The same names and values as `assets/palette.ron`; a test holds
//! the two together.

use resvg::tiny_skia::Color;

/// A colour of the palette, sRGB.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PaletteColor {
    /// Red.
    pub red: u8,
    /// Green.
    pub green: u8,
    /// Blue.
    pub blue: u8,
}

impl PaletteColor {
    const fn of(rgb: u32) -> Self {
        Self { red: (rgb >> 16) as u8, green: (rgb >> 8) as u8, blue: rgb as u8 }
    }

    /// The opaque colour.
    pub fn color(self) -> Color {
        Color::from_rgba8(self.red, self.green, self.blue, 255)
    }

    /// The colour with an opacity of 0 to 1.
    pub fn faded(self, opacity: f32) -> Color {
        let opacity = if opacity.is_finite() { opacity.clamp(0.0, 1.0) } else { 1.0 };
        Color::from_rgba8(self.red, self.green, self.blue, (opacity * 255.0).round() as u8)
    }

    /// The colour `share` (0 to 1) of the way towards another.
    pub fn towards(self, other: Self, share: f32) -> Self {
        let mix =
            |a: u8, b: u8| (f32::from(a) + (f32::from(b) - f32::from(a)) * share).round() as u8;
        Self {
            red: mix(self.red, other.red),
            green: mix(self.green, other.green),
            blue: mix(self.blue, other.blue),
        }
    }

    /// Contrast with another colour, 1 to 21, as WCAG 2.2 defines it.
    pub fn contrast(self, other: Self) -> f64 {
        let (a, b) = (self.luminance(), other.luminance());
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    fn luminance(self) -> f64 {
        let linear = |channel: u8| {
            let share = f64::from(channel) / 255.0;
            if share <= 0.040_45 { share / 12.92 } else { ((share + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * linear(self.red) + 0.7152 * linear(self.green) + 0.0722 * linear(self.blue)
    }
}

macro_rules! hues {
    ($($(#[$doc:meta])* $name:ident $key:literal $rgb:literal;)*) => {
        $($(#[$doc])* pub const $name: PaletteColor = PaletteColor::of($rgb);)*

        /// Every colour with its name in `assets/palette.ron`.
        pub const ALL: &[(&str, PaletteColor)] = &[$(($key, $name)),*];
    };
}

hues! {
    /// The sheet everything is drawn on.
    PAPER "paper" 0x00f5_f0e3;
    /// Paper in shade, and quiet panels.
    PAPER_SHADE "paper_shade" 0x00e9_e1cc;
    /// Pages, panels, and the inside of what is cut away.
    PAGE "page" 0x00fc_f9f1;
    /// Faint squares of the sheet; never text.
    GRID "grid" 0x00e6_dfcc;
    /// Lines and text.
    INK "ink" 0x0022_2d38;
    /// Second lines, hatching, quiet text.
    INK_SOFT "ink_soft" 0x0051_5e69;
    /// Far things; never text or marks that are read.
    INK_FAINT "ink_faint" 0x009a_a3a6;
    /// Sheet metal.
    STEEL "steel" 0x00dc_e1df;
    /// Sheet metal in shade.
    STEEL_SHADE "steel_shade" 0x00bc_c5c6;
    /// Fittings.
    STEEL_DARK "steel_dark" 0x008d_999d;
    /// Glass.
    GLASS "glass" 0x00ea_f2f1;
    /// Water in the manometer.
    WATER "water" 0x003b_7b8b;
    /// Water's edge, and sea.
    WATER_DEEP "water_deep" 0x0023_5764;
    /// Arrows of the air.
    AIR "air" 0x003b_7b8b;
    /// The accent: focus, pointers, what is live.
    COPPER "copper" 0x00b1_4e27;
    /// Cut faces of sheet metal, switch levers.
    COPPER_WASH "copper_wash" 0x00e9_c9ae;
    /// Wood.
    WOOD "wood" 0x00ea_d9b8;
    /// Wood in shade.
    WOOD_SHADE "wood_shade" 0x00cf_b78c;
    /// Tube, cords, plugs.
    RUBBER "rubber" 0x003b_444c;
    /// Gaskets.
    GASKET "gasket" 0x008d_6747;
    /// Cautions: line and text.
    CAUTION "caution" 0x0096_301c;
    /// Cautions: fill.
    CAUTION_WASH "caution_wash" 0x00f1_d9a0;
    /// Chart, scales and dials.
    CHART_PAPER "chart_paper" 0x00ff_fdf5;
    /// Ruling of the chart.
    CHART_INK "chart_ink" 0x004f_7a61;
    /// The pen's trace.
    PEN_INK "pen_ink" 0x0051_357f;
    /// What the trainee writes.
    HAND_INK "hand_ink" 0x0027_4b63;
    /// Wash of the sky.
    SKY "sky" 0x00df_e8e7;
    /// Near hills.
    HILL "hill" 0x00e0_dcc8;
    /// Far hills.
    HILL_FAR "hill_far" 0x00e9_e6d8;
    /// Roof deck.
    DECK "deck" 0x00dd_d4bd;
    /// Brass.
    BRASS "brass" 0x00e2_c581;
    /// Filter.
    FILTER "filter" 0x00ff_fefa;
    /// A lit lamp.
    LAMP_LIT "lamp_lit" 0x00e8_a33a;
}
