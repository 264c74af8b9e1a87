//! Drawing on a sheet with its own units: fills, lines, hatching and lettering.

use resvg::tiny_skia::{
    Color, FillRule, LineCap, LineJoin, Mask, Paint, Path, PathBuilder, Pixmap, Rect, Stroke,
    Transform,
};

use super::palette::PaletteColor;
use super::text::{self, FontStyle};

/// Weight of a line, in sheet units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LineWeight(pub f32);

impl LineWeight {
    /// Rulings, hatching, shine.
    pub const FINE: Self = Self(0.8);
    /// Scale marks and inner edges.
    pub const THIN: Self = Self(1.2);
    /// Outlines.
    pub const MEDIUM: Self = Self(1.8);
    /// Outlines of what is in front.
    pub const HEAVY: Self = Self(2.8);
}

/// Which end of a string is at its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TextAlign {
    /// It begins there.
    Start,
    /// It is centred there.
    Middle,
    /// It ends there.
    End,
}

/// How a string is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lettering {
    /// Its style.
    pub style: FontStyle,
    /// Its size, sheet units.
    pub size: f32,
    /// Its colour.
    pub color: Color,
    /// Which end is at the point.
    pub align: TextAlign,
    /// Turned by so many degrees clockwise about the point.
    pub turned_deg: f32,
}

impl Lettering {
    /// Upright text of a style, size and colour that begins at its point.
    pub fn new(style: FontStyle, size: f32, hue: PaletteColor) -> Self {
        Self { style, size, color: hue.color(), align: TextAlign::Start, turned_deg: 0.0 }
    }

    /// The same, aligned otherwise.
    pub fn align(self, align: TextAlign) -> Self {
        Self { align, ..self }
    }

    /// The same, turned clockwise about its point.
    pub fn turned(self, turned_deg: f32) -> Self {
        Self { turned_deg, ..self }
    }

    /// The same in another colour.
    pub fn color(self, color: Color) -> Self {
        Self { color, ..self }
    }
}

/// A point of the sheet; y runs down.
pub type Point = (f32, f32);

/// A sheet that is drawn on.
#[derive(Debug)]
pub struct Canvas {
    pixmap: Pixmap,
    to_px: Transform,
    stack: Vec<Transform>,
    mask: Option<Mask>,
}

/// The thinnest mark, px: between two rows of pixels it still has most of its ink.
const LEAST_MARK_PX: f32 = 1.3;

impl Canvas {
    /// A clear sheet of so many pixels, `px_per_unit` pixels to its unit.
    pub fn new(width_px: u32, height_px: u32, px_per_unit: f32) -> Self {
        let (width, height) = (width_px.clamp(1, 8192), height_px.clamp(1, 8192));
        let pixmap = Pixmap::new(width, height).expect("a sheet of 1 to 8192 pixels a side exists");
        let to_px = Transform::from_scale(px_per_unit, px_per_unit);
        Self { pixmap, to_px, stack: Vec::new(), mask: None }
    }

    /// The picture.
    pub fn finish(self) -> Pixmap {
        self.pixmap
    }

    /// The picture so far, for drawings that come ready made.
    pub fn pixmap_mut(&mut self) -> &mut Pixmap {
        &mut self.pixmap
    }

    /// From sheet units to pixels.
    pub fn transform(&self) -> Transform {
        self.to_px
    }

    /// Width of the picture, px.
    pub fn width_px(&self) -> u32 {
        self.pixmap.width()
    }

    /// Pixels to a sheet unit.
    pub fn px_per_unit(&self) -> f32 {
        self.to_px.get_scale().0
    }

    /// Draws with the sheet's units moved, turned or scaled by `by`, then goes back.
    pub fn within(&mut self, by: Transform, draw: impl FnOnce(&mut Self)) {
        self.stack.push(self.to_px);
        self.to_px = self.to_px.pre_concat(by);
        draw(self);
        if let Some(before) = self.stack.pop() {
            self.to_px = before;
        }
    }

    /// Draws only inside a path, then goes back. Inner clips replace outer ones.
    pub fn clipped(&mut self, path: &Path, draw: impl FnOnce(&mut Self)) {
        let before = self.mask.take();
        self.mask = Mask::new(self.pixmap.width(), self.pixmap.height()).map(|mut mask| {
            mask.fill_path(path, FillRule::Winding, true, self.to_px);
            mask
        });
        draw(self);
        self.mask = before;
    }

    /// Covers the whole sheet.
    pub fn wash(&mut self, color: Color) {
        self.pixmap.fill(color);
    }

    /// Leaves only what lies inside a circle.
    pub fn keep_circle(&mut self, centre: Point, radius: f32) {
        let mask = Mask::new(self.pixmap.width(), self.pixmap.height());
        if let (Some(mut mask), Some(path)) = (mask, circle_path(centre, radius)) {
            mask.fill_path(&path, FillRule::Winding, true, self.to_px);
            self.pixmap.apply_mask(&mask);
        }
    }

    /// Fills a path.
    pub fn fill(&mut self, path: &Path, color: Color) {
        let paint = solid(color);
        self.pixmap.fill_path(path, &paint, FillRule::Winding, self.to_px, self.mask.as_ref());
    }

    /// Fills a path, leaving holes where it crosses itself.
    pub fn fill_even_odd(&mut self, path: &Path, color: Color) {
        let paint = solid(color);
        self.pixmap.fill_path(path, &paint, FillRule::EvenOdd, self.to_px, self.mask.as_ref());
    }

    /// Draws along a path.
    pub fn stroke(&mut self, path: &Path, color: Color, line: LineWeight) {
        self.stroke_capped(path, color, line, LineCap::Round);
    }

    /// Draws along a path whose ends are cut square: for marks that are measured.
    pub fn stroke_square(&mut self, path: &Path, color: Color, line: LineWeight) {
        self.stroke_capped(path, color, line, LineCap::Butt);
    }

    fn stroke_capped(&mut self, path: &Path, color: Color, line: LineWeight, line_cap: LineCap) {
        let stroke =
            Stroke { width: line.0, line_cap, line_join: LineJoin::Round, ..Stroke::default() };
        let paint = solid(color);
        self.pixmap.stroke_path(path, &paint, &stroke, self.to_px, self.mask.as_ref());
    }

    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, color: Color, line: LineWeight) {
        if let Some(path) = polyline_path(&[from, to]) {
            self.stroke(&path, color, line);
        }
    }

    /// A straight mark with square ends; in a small picture it is no thinner than can be seen.
    pub fn mark(&mut self, from: Point, to: Point, color: Color, line: LineWeight) {
        let line = LineWeight(line.0.max(LEAST_MARK_PX / self.px_per_unit()));
        if let Some(path) = polyline_path(&[from, to]) {
            self.stroke_square(&path, color, line);
        }
    }

    /// A line through points.
    pub fn polyline(&mut self, points: &[Point], color: Color, line: LineWeight) {
        if let Some(path) = polyline_path(points) {
            self.stroke(&path, color, line);
        }
    }

    /// A closed shape through points, filled and outlined.
    pub fn polygon(&mut self, points: &[Point], fill: Color, outline: Option<(Color, LineWeight)>) {
        if let Some(path) = polygon_path(points) {
            self.fill(&path, fill);
            if let Some((color, line)) = outline {
                self.stroke(&path, color, line);
            }
        }
    }

    /// An upright rectangle, filled and outlined.
    pub fn rect(
        &mut self,
        at: Point,
        size: Point,
        fill: Color,
        outline: Option<(Color, LineWeight)>,
    ) {
        if let Some(path) = rect_path(at, size) {
            self.fill(&path, fill);
            if let Some((color, line)) = outline {
                self.stroke(&path, color, line);
            }
        }
    }

    /// A disc, filled and outlined.
    pub fn disc(
        &mut self,
        at: Point,
        radius: f32,
        fill: Color,
        outline: Option<(Color, LineWeight)>,
    ) {
        if let Some(path) = circle_path(at, radius) {
            self.fill(&path, fill);
            if let Some((color, line)) = outline {
                self.stroke(&path, color, line);
            }
        }
    }

    /// A circle's line.
    pub fn ring(&mut self, at: Point, radius: f32, color: Color, line: LineWeight) {
        if let Some(path) = circle_path(at, radius) {
            self.stroke(&path, color, line);
        }
    }

    /// Parallel lines inside a path, `gap` apart, leaning by `lean_deg` from the level.
    pub fn hatch(&mut self, path: &Path, lean_deg: f32, gap: f32, color: Color, line: LineWeight) {
        let bounds = path.bounds();
        let centre =
            (0.5 * (bounds.left() + bounds.right()), 0.5 * (bounds.top() + bounds.bottom()));
        let reach = 0.5 * bounds.width().hypot(bounds.height());
        let (along, across) =
            (on_circle((0.0, 0.0), 1.0, lean_deg), on_circle((0.0, 0.0), 1.0, lean_deg + 90.0));
        let mut builder = PathBuilder::new();
        let count = (reach / gap.max(0.1)).ceil() as i32;
        for step in -count..=count {
            let shift = step as f32 * gap;
            let middle = (centre.0 + across.0 * shift, centre.1 + across.1 * shift);
            builder.move_to(middle.0 - along.0 * reach, middle.1 - along.1 * reach);
            builder.line_to(middle.0 + along.0 * reach, middle.1 + along.1 * reach);
        }
        if let Some(lines) = builder.finish() {
            self.clipped(path, |canvas| canvas.stroke(&lines, color, line));
        }
    }

    /// A string, its baseline at `at`.
    pub fn text(&mut self, at: Point, text: &str, set: Lettering) {
        let outline = text::outline(set.style, text);
        let Some(path) = &outline.path else { return };
        let back = match set.align {
            TextAlign::Start => 0.0,
            TextAlign::Middle => 0.5,
            TextAlign::End => 1.0,
        };
        let scale = set.size / text::OUTLINE_SIZE;
        let place = Transform::from_translate(at.0, at.1)
            .pre_rotate(set.turned_deg)
            .pre_scale(scale, scale)
            .pre_translate(-back * outline.width, 0.0);
        self.within(place, |canvas| canvas.fill(path, set.color));
    }
}

fn solid(color: Color) -> Paint<'static> {
    let mut paint = Paint::default();
    paint.set_color(color);
    paint.anti_alias = true;
    paint
}

/// The point at an angle (degrees, clockwise from the right) on a circle.
pub fn on_circle(centre: Point, radius: f32, deg: f32) -> Point {
    let turned = deg.to_radians();
    (centre.0 + radius * turned.cos(), centre.1 + radius * turned.sin())
}

/// A circle.
pub fn circle_path(centre: Point, radius: f32) -> Option<Path> {
    PathBuilder::from_circle(centre.0, centre.1, radius.max(0.01))
}

/// An ellipse with level axes.
pub fn ellipse_path(centre: Point, radii: Point) -> Option<Path> {
    let (rx, ry) = (radii.0.abs().max(0.01), radii.1.abs().max(0.01));
    Rect::from_ltrb(centre.0 - rx, centre.1 - ry, centre.0 + rx, centre.1 + ry)
        .and_then(PathBuilder::from_oval)
}

/// An upright rectangle.
pub fn rect_path(at: Point, size: Point) -> Option<Path> {
    Rect::from_xywh(at.0, at.1, size.0, size.1).map(PathBuilder::from_rect)
}

/// An upright rectangle with round corners.
pub fn round_rect_path(at: Point, size: Point, radius: f32) -> Option<Path> {
    /// Handle of the cubic that comes nearest to a quarter circle, over its radius.
    const ROUND: f32 = 0.552_285;
    let (x, y, right, bottom) = (at.0, at.1, at.0 + size.0, at.1 + size.1);
    let (r, h) = (radius, radius * (1.0 - ROUND));
    let mut builder = PathBuilder::new();
    builder.move_to(x + r, y);
    builder.line_to(right - r, y);
    builder.cubic_to(right - h, y, right, y + h, right, y + r);
    builder.line_to(right, bottom - r);
    builder.cubic_to(right, bottom - h, right - h, bottom, right - r, bottom);
    builder.line_to(x + r, bottom);
    builder.cubic_to(x + h, bottom, x, bottom - h, x, bottom - r);
    builder.line_to(x, y + r);
    builder.cubic_to(x, y + h, x + h, y, x + r, y);
    builder.close();
    builder.finish()
}

/// A line through points.
pub fn polyline_path(points: &[Point]) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let (first, rest) = points.split_first()?;
    builder.move_to(first.0, first.1);
    for point in rest {
        builder.line_to(point.0, point.1);
    }
    builder.finish()
}

/// A closed shape through points.
pub fn polygon_path(points: &[Point]) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let (first, rest) = points.split_first()?;
    builder.move_to(first.0, first.1);
    for point in rest {
        builder.line_to(point.0, point.1);
    }
    builder.close();
    builder.finish()
}

/// Part of a circle as a line of short chords, from one angle to another (degrees, clockwise from
/// the right), deviating less than a thousandth of the radius.
pub fn arc_path(centre: Point, radius: f32, from_deg: f32, to_deg: f32) -> Option<Path> {
    let steps = ((to_deg - from_deg).abs() / 2.0).ceil().clamp(2.0, 400.0) as u32;
    let points: Vec<Point> = (0..=steps)
        .map(|step| {
            let share = step as f32 / steps as f32;
            on_circle(centre, radius, from_deg + (to_deg - from_deg) * share)
        })
        .collect();
    polyline_path(&points)
}
