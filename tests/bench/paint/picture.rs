//! Finding edges and lines in a picture by their colours, as an eye does.

use std::cell::Cell;

use paint::contrast;
use paint::palette::{self, PaletteColor};

thread_local! {
    /// Whether pictures are read as they are drawn in high contrast.
    static RAISED: Cell<bool> = const { Cell::new(false) };
}

/// Reads pictures that are drawn in high contrast.
pub fn in_high_contrast<T>(read: impl FnOnce() -> T) -> T {
    RAISED.set(true);
    let value = read();
    RAISED.set(false);
    value
}

/// A square picture, each pixel as red, green and blue, 0 to 255.
pub struct Picture {
    side: usize,
    pixels: Vec<[f64; 3]>,
}

/// A line crossed by a walk: where its middle lies on it, px, and how much ink it has, px of width.
#[derive(Debug, Clone, Copy)]
pub struct Crossing {
    pub at: f64,
    pub ink: f64,
}

impl Picture {
    /// Reads a picture from its bytes: four a pixel, red first.
    pub fn new(data: &[u8]) -> Self {
        let pixels: Vec<[f64; 3]> = data
            .chunks_exact(4)
            .map(|pixel| [f64::from(pixel[0]), f64::from(pixel[1]), f64::from(pixel[2])])
            .collect();
        let side = pixels.len().isqrt();
        assert_eq!(side * side, pixels.len());
        Self { side, pixels }
    }

    /// Side, px.
    pub fn side(&self) -> f64 {
        self.side as f64
    }

    /// The colour at a point between pixels; (0.5, 0.5) is the middle of the first one.
    pub fn at(&self, x: f64, y: f64) -> [f64; 3] {
        let most = self.side as f64 - 1.001;
        let (x, y) = ((x - 0.5).clamp(0.0, most), (y - 0.5).clamp(0.0, most));
        let (left, top) = (x.floor() as usize, y.floor() as usize);
        let (right_share, foot_share) = (x - left as f64, y - top as f64);
        let pixel = |x: usize, y: usize| self.pixels[y * self.side + x];
        let (a, b) = (pixel(left, top), pixel(left + 1, top));
        let (c, d) = (pixel(left, top + 1), pixel(left + 1, top + 1));
        [0, 1, 2].map(|n| {
            let above = a[n] + (b[n] - a[n]) * right_share;
            let below = c[n] + (d[n] - c[n]) * right_share;
            above + (below - above) * foot_share
        })
    }

    /// Every pixel whose colour is within `reach` of a hue: its middle.
    pub fn like(&self, hue: PaletteColor, reach: f64) -> impl Iterator<Item = (f64, f64)> {
        let wanted = rgb(hue);
        self.pixels.iter().enumerate().filter_map(move |(index, pixel)| {
            let (x, y) = ((index % self.side) as f64 + 0.5, (index / self.side) as f64 + 0.5);
            (apart(*pixel, wanted) < reach).then_some((x, y))
        })
    }

    /// Lines of a hue on chart paper that a straight walk crosses, `steps` to a pixel.
    pub fn crossings(&self, from: (f64, f64), to: (f64, f64), hue: PaletteColor) -> Vec<Crossing> {
        const STEPS_PER_PX: f64 = 4.0;
        let length = (to.0 - from.0).hypot(to.1 - from.1);
        let count = (length * STEPS_PER_PX) as usize;
        let mut found = Vec::new();
        let (mut ink, mut moment) = (0.0, 0.0);
        for step in 0..=count {
            let on = step as f64 / STEPS_PER_PX;
            let share = on / length;
            let at = (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share);
            let dark = inked(self.at(at.0, at.1), hue);
            if dark > 0.12 {
                ink += dark / STEPS_PER_PX;
                moment += on * dark / STEPS_PER_PX;
            } else if ink > 0.0 {
                found.push(Crossing { at: moment / ink, ink });
                (ink, moment) = (0.0, 0.0);
            }
        }
        found
    }
}

/// How much of a pixel is covered by a hue on chart paper, 0 to 1; 0 for other colours.
fn inked(pixel: [f64; 3], hue: PaletteColor) -> f64 {
    let (paper, ink) = (rgb(palette::CHART_PAPER), rgb(hue));
    let way = [0, 1, 2].map(|n| ink[n] - paper[n]);
    let off = [0, 1, 2].map(|n| pixel[n] - paper[n]);
    let whole: f64 = way.iter().map(|part| part * part).sum();
    let share = way.iter().zip(off).map(|(a, b)| a * b).sum::<f64>() / whole;
    let beside = [0, 1, 2].map(|n| off[n] - share * way[n]);
    let stray = beside.iter().map(|part| part * part).sum::<f64>().sqrt();
    // In high contrast the edges of a copper line are not quite on the way from paper to ink.
    let most = if RAISED.get() && hue == palette::COPPER { 50.0 } else { 26.0 };
    if stray < most { share.clamp(0.0, 1.0) } else { 0.0 }
}

/// Brightness of a colour.
pub fn brightness(pixel: [f64; 3]) -> f64 {
    0.2126 * pixel[0] + 0.7152 * pixel[1] + 0.0722 * pixel[2]
}

/// How far two colours lie apart.
pub fn apart(a: [f64; 3], b: [f64; 3]) -> f64 {
    (0..3).map(|n| (a[n] - b[n]) * (a[n] - b[n])).sum::<f64>().sqrt()
}

/// A hue as red, green and blue.
pub fn rgb(hue: PaletteColor) -> [f64; 3] {
    let hue = if RAISED.get() { contrast::raised(hue) } else { hue };
    [f64::from(hue.red), f64::from(hue.green), f64::from(hue.blue)]
}
