//! The backend by which the plotting library draws on a page: lines, shapes and text as vectors.

use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
    FontStyle, FontTransform,
};

use super::super::plots::style::FONT_SCALE;
use super::super::text_layout::{self, Typeface};

/// Height of a capital over the size of the type, of IBM Plex Sans.
const CAPITAL: f64 = 0.70;
/// A quarter of a circle as a Bézier curve: how far its handles reach, over the radius.
const HANDLE: f32 = 0.552_285;

/// The two fonts in which everything is set.
#[derive(Debug, Clone)]
pub struct PdfFonts {
    /// For text.
    pub regular: Font,
    /// For headings.
    pub semi_bold: Font,
}

impl PdfFonts {
    /// The fonts that come with the program.
    pub fn load() -> Option<Self> {
        let font = |typeface: Typeface| Font::new(typeface.bytes().to_vec().into(), 0);
        Some(Self { regular: font(Typeface::Regular)?, semi_bold: font(Typeface::SemiBold)? })
    }

    /// The font of a typeface.
    pub fn of(&self, typeface: Typeface) -> Font {
        match typeface {
            Typeface::Regular => self.regular.clone(),
            Typeface::SemiBold => self.semi_bold.clone(),
        }
    }
}

/// A part of a page on which a plot is drawn.
pub struct PlotBackend<'a, 'b> {
    surface: &'a mut Surface<'b>,
    fonts: &'a PdfFonts,
    size: (u32, u32),
}

type Done = Result<(), DrawingErrorKind<std::convert::Infallible>>;

impl<'a, 'b> PlotBackend<'a, 'b> {
    /// A backend of that size in the units of the plot.
    pub const fn new(surface: &'a mut Surface<'b>, fonts: &'a PdfFonts, size: (u32, u32)) -> Self {
        Self { surface, fonts, size }
    }

    fn fill(&mut self, path: Option<Path>, colour: BackendColor) {
        let (Some(path), Some(fill)) = (path, fill_of(colour)) else { return };
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill));
        self.surface.draw_path(&path);
    }

    fn stroke(&mut self, path: Option<Path>, colour: BackendColor, width: u32) {
        let (Some(path), Some(opacity)) = (path, opacity(colour)) else { return };
        let stroke = Stroke {
            paint: paint_of(colour).into(),
            width: width as f32,
            opacity,
            ..Stroke::default()
        };
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(stroke));
        self.surface.draw_path(&path);
    }

    fn shape<S: BackendStyle>(&mut self, path: Option<Path>, style: &S, filled: bool) {
        if filled {
            self.fill(path, style.color());
        } else {
            self.stroke(path, style.color(), style.stroke_width());
        }
    }
}

/// A colour as the file takes it.
fn paint_of(colour: BackendColor) -> rgb::Color {
    let (red, green, blue) = colour.rgb;
    rgb::Color::new(red, green, blue)
}

/// How much a colour covers; nothing where it covers nothing.
fn opacity(colour: BackendColor) -> Option<NormalizedF32> {
    NormalizedF32::new(colour.alpha as f32).filter(|_| colour.alpha > 0.0)
}

fn fill_of(colour: BackendColor) -> Option<Fill> {
    Some(Fill { paint: paint_of(colour).into(), opacity: opacity(colour)?, ..Fill::default() })
}

/// The path through some points.
fn through(points: impl IntoIterator<Item = BackendCoord>, closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    for (index, (x, y)) in points.into_iter().enumerate() {
        if index == 0 {
            builder.move_to(x as f32, y as f32);
        } else {
            builder.line_to(x as f32, y as f32);
        }
    }
    if closed {
        builder.close();
    }
    builder.finish()
}

/// A circle.
fn round(centre: BackendCoord, radius: u32) -> Option<Path> {
    let (x, y, r) = (centre.0 as f32, centre.1 as f32, radius as f32);
    let k = HANDLE * r;
    let mut builder = PathBuilder::new();
    builder.move_to(x + r, y);
    builder.cubic_to(x + r, y + k, x + k, y + r, x, y + r);
    builder.cubic_to(x - k, y + r, x - r, y + k, x - r, y);
    builder.cubic_to(x - r, y - k, x - k, y - r, x, y - r);
    builder.cubic_to(x + k, y - r, x + r, y - k, x + r, y);
    builder.close();
    builder.finish()
}

/// The corners of a rectangle.
const fn corners(one: BackendCoord, other: BackendCoord) -> [BackendCoord; 4] {
    [one, (other.0, one.1), other, (one.0, other.1)]
}

impl DrawingBackend for PlotBackend<'_, '_> {
    type ErrorType = std::convert::Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Done {
        Ok(())
    }

    fn present(&mut self) -> Done {
        Ok(())
    }

    fn draw_pixel(&mut self, (x, y): BackendCoord, color: BackendColor) -> Done {
        self.fill(through(corners((x, y), (x + 1, y + 1)), true), color);
        Ok(())
    }

    fn draw_line<S: BackendStyle>(
        &mut self,
        from: BackendCoord,
        to: BackendCoord,
        style: &S,
    ) -> Done {
        self.stroke(through([from, to], false), style.color(), style.stroke_width());
        Ok(())
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        upper_left: BackendCoord,
        bottom_right: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Done {
        self.shape(through(corners(upper_left, bottom_right), true), style, fill);
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.stroke(through(path, false), style.color(), style.stroke_width());
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(
        &mut self,
        center: BackendCoord,
        radius: u32,
        style: &S,
        fill: bool,
    ) -> Done {
        self.shape(round(center, radius), style, fill);
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        vert: I,
        style: &S,
    ) -> Done {
        self.fill(through(vert, true), style.color());
        Ok(())
    }

    fn draw_text<T: BackendTextStyle>(&mut self, text: &str, style: &T, pos: BackendCoord) -> Done {
        let Some(fill) = fill_of(style.color()) else { return Ok(()) };
        let size = style.size() / FONT_SCALE;
        let typeface = typeface_of(style);
        let width = text_layout::width(typeface, size, text);
        let dx = match style.anchor().h_pos {
            HPos::Left => 0.0,
            HPos::Center => -0.5 * width,
            HPos::Right => -width,
        };
        let dy = match style.anchor().v_pos {
            VPos::Top => CAPITAL * size + 0.06 * size,
            VPos::Center => 0.5 * CAPITAL * size - 0.09 * size,
            VPos::Bottom => -0.26 * size,
        };
        let (x, y) = (pos.0 as f32, pos.1 as f32);
        let angle = match style.transform() {
            FontTransform::None => 0.0,
            FontTransform::Rotate90 => 90.0,
            FontTransform::Rotate180 => 180.0,
            FontTransform::Rotate270 => 270.0,
        };
        self.surface.push_transform(&Transform::from_rotate_at(angle, x, y));
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill));
        let start = Point::from_xy(x + dx as f32, y + dy as f32);
        let font = self.fonts.of(typeface);
        self.surface.draw_text(start, font, size as f32, text, false, TextDirection::LeftToRight);
        self.surface.pop();
        Ok(())
    }

    fn estimate_text_size<T: BackendTextStyle>(
        &self,
        text: &str,
        style: &T,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        let size = style.size() / FONT_SCALE;
        let width = text_layout::width(typeface_of(style), size, text);
        Ok((width.ceil() as u32, size.ceil() as u32))
    }
}

fn typeface_of<T: BackendTextStyle>(style: &T) -> Typeface {
    match style.style() {
        FontStyle::Bold => Typeface::SemiBold,
        FontStyle::Normal | FontStyle::Oblique | FontStyle::Italic => Typeface::Regular,
    }
}
