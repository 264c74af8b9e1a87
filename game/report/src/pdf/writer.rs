//! Pages written into a PDF file.

use krilla::Document as File;
use krilla::color::rgb;
use krilla::destination::XyzDestination;
use krilla::geom::{PathBuilder, Point, Rect, Transform};
use krilla::metadata::Metadata;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, Stroke};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, SpanTag};
use krilla::text::TextDirection;
use plotters::prelude::IntoDrawingArea as _;
use plotters::style::RGBColor;

use super::super::document::Document;
use super::super::plots::{Plot, PlotColors, PlotStyle};
use super::super::text_layout;
use super::page::{Font, Page, PageItem, PageSize, SIDE};
use super::plot_backend::{PdfFonts, PlotBackend};
use super::tags::{TagId, Tags};

/// From the bottom of a page to the baseline of its footer.
const FOOTER: f64 = 30.0;
/// Least room between the words of a footer and the number of the page.
const FOOTER_GAP: f64 = 12.0;

/// Writes pages into a file.
///
/// # Errors
///
/// When the fonts cannot be read, a plot cannot be drawn, or the file cannot be made.
pub fn written(
    document: &Document,
    (pages, tags): (&[Page], Tags),
    size: PageSize,
) -> Result<Vec<u8>, String> {
    let fonts = PdfFonts::load().ok_or("the fonts that come with the program cannot be read")?;
    let mut file = File::new();
    let settings = PageSettings::from_wh(size.width as f32, size.height as f32)
        .ok_or("a page needs a width and a height")?;
    let mut tags = tags.unwritten();
    for (index, page) in pages.iter().enumerate() {
        let mut sheet = file.start_page_with(settings.clone());
        let mut surface = sheet.surface();
        for (item, tag) in &page.items {
            let written = surface.start_tagged(content(item, *tag));
            put(&mut surface, &fonts, item)?;
            surface.end_tagged();
            if let Some(tag) = tag {
                tags.mark(*tag, written);
            }
        }
        footer(&mut surface, &fonts, size, &document.footer, (index + 1, pages.len()));
        surface.finish();
        sheet.finish();
    }
    let mut outline = Outline::new();
    for (index, page) in pages.iter().enumerate() {
        for (heading, y) in &page.headings {
            let place = XyzDestination::new(index, Point::from_xy(0.0, *y as f32));
            outline.push_child(OutlineNode::new(heading.clone(), place));
        }
    }
    file.set_outline(outline);
    file.set_tag_tree(tags.tree());
    file.set_metadata(
        Metadata::new()
            .title(document.title.clone())
            .language("en".to_owned())
            .creator(format!("Steady Draw {}", sim_core::VERSION)),
    );
    file.finish().map_err(|error| format!("the PDF cannot be made: {error:?}"))
}

/// What something is in the file: words, a plot, or a rule that is there for the eye alone.
const fn content(item: &PageItem, tag: Option<TagId>) -> ContentTag<'static> {
    match (tag, item) {
        (None, _) => ContentTag::Artifact(Artifact { kind: ArtifactType::Other, bbox: None }),
        (Some(_), PageItem::Words { .. }) => ContentTag::Span(SpanTag {
            lang: None,
            alt_text: None,
            expanded: None,
            actual_text: None,
        }),
        (Some(_), _) => ContentTag::Other,
    }
}

fn put(surface: &mut Surface<'_>, fonts: &PdfFonts, item: &PageItem) -> Result<(), String> {
    match item {
        PageItem::Words { x, baseline, font, words } => {
            letters(surface, fonts, (*x, *baseline), *font, words);
        }
        PageItem::Rule { from, to, width, colour } => {
            let mut builder = PathBuilder::new();
            builder.move_to(from.0 as f32, from.1 as f32);
            builder.line_to(to.0 as f32, to.1 as f32);
            line(surface, builder, *width, *colour);
        }
        PageItem::Frame { corner, size, colour } => {
            let rect =
                Rect::from_xywh(corner.0 as f32, corner.1 as f32, size.0 as f32, size.1 as f32);
            let mut builder = PathBuilder::new();
            if let Some(rect) = rect {
                builder.push_rect(rect);
            }
            line(surface, builder, 1.2, *colour);
        }
        PageItem::Plot { corner, width, size, plot } => {
            drawn(surface, fonts, (*corner, *width), *size, plot)?
        }
    }
    Ok(())
}

fn letters(surface: &mut Surface<'_>, fonts: &PdfFonts, at: (f64, f64), font: Font, words: &str) {
    surface.set_stroke(None);
    surface.set_fill(Some(Fill { paint: colour(font.colour).into(), ..Fill::default() }));
    let start = Point::from_xy(at.0 as f32, at.1 as f32);
    let file = fonts.of(font.typeface);
    surface.draw_text(start, file, font.size as f32, words, false, TextDirection::LeftToRight);
}

fn line(surface: &mut Surface<'_>, builder: PathBuilder, width: f64, of: RGBColor) {
    let Some(path) = builder.finish() else { return };
    surface.set_fill(None);
    let paint = colour(of).into();
    surface.set_stroke(Some(Stroke { paint, width: width as f32, ..Stroke::default() }));
    surface.draw_path(&path);
}

fn colour(RGBColor(red, green, blue): RGBColor) -> rgb::Color {
    rgb::Color::new(red, green, blue)
}

/// Draws a plot in its own fine units, scaled to its place.
fn drawn(
    surface: &mut Surface<'_>,
    fonts: &PdfFonts,
    (corner, width): ((f64, f64), f64),
    (units, high): (u32, u32),
    plot: &Plot,
) -> Result<(), String> {
    let look = PlotStyle::new(units, high, PlotColors::WHITE);
    let scale = (width / f64::from(look.fine().0)) as f32;
    let place = Transform::from_row(scale, 0.0, 0.0, scale, corner.0 as f32, corner.1 as f32);
    surface.push_transform(&place);
    let result = {
        let root = PlotBackend::new(surface, fonts, look.fine()).into_drawing_area();
        plot.draw(&root, &look).map_err(|error| error.to_string())
    };
    surface.pop();
    result
}

/// The footer of a page, with its number.
fn footer(
    surface: &mut Surface<'_>,
    fonts: &PdfFonts,
    size: PageSize,
    words: &str,
    (number, of): (usize, usize),
) {
    let font = Font::FOOTER;
    // Read aloud between two pages it would only disturb.
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Footer)));
    let baseline = size.height - FOOTER;
    let number = format!("page {number} of {of}");
    let wide = text_layout::width(font.typeface, font.size, &number);
    let room = size.breadth() - wide - FOOTER_GAP;
    let words = text_layout::shortened(font.typeface, font.size, words, room);
    letters(surface, fonts, (SIDE, baseline), font, &words);
    letters(surface, fonts, (SIDE + size.breadth() - wide, baseline), font, &number);
    surface.end_tagged();
}
