//! Sheets as a file.

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

use super::ink::{BREADTH, Face, HEIGHT, Ink, Paper, SIDE, SOFT, WIDTH};
use super::sheet::{Faces, Sheet};
use super::structure::{Piece, Structure};
use crate::document::Document;
use crate::lettering;
use crate::plots::{Look, Palette, Plot};

/// From the bottom of a sheet to the baseline of its foot.
const FOOT: f64 = 30.0;

/// Writes sheets into a file.
pub fn written(
    document: &Document,
    papers: &[Paper],
    structure: Structure,
) -> Result<Vec<u8>, String> {
    let faces = Faces::load().ok_or("the type that comes with the program cannot be read")?;
    let mut file = File::new();
    let size = PageSettings::from_wh(WIDTH as f32, HEIGHT as f32).ok_or("a sheet without size")?;
    let mut structure = structure.unwritten();
    for (index, paper) in papers.iter().enumerate() {
        let mut page = file.start_page_with(size.clone());
        let mut surface = page.surface();
        for (ink, piece) in &paper.inks {
            let written = surface.start_tagged(content(ink, *piece));
            put(&mut surface, &faces, ink)?;
            surface.end_tagged();
            if let Some(piece) = piece {
                structure.mark(*piece, written);
            }
        }
        foot(&mut surface, &faces, &document.foot, (index + 1, papers.len()));
        surface.finish();
        page.finish();
    }
    let mut outline = Outline::new();
    for (index, paper) in papers.iter().enumerate() {
        for (head, y) in &paper.heads {
            let place = XyzDestination::new(index, Point::from_xy(0.0, *y as f32));
            outline.push_child(OutlineNode::new(head.clone(), place));
        }
    }
    file.set_outline(outline);
    file.set_tag_tree(structure.tree());
    file.set_metadata(
        Metadata::new()
            .title(document.title.clone())
            .language("en".to_owned())
            .creator(format!("Steady Draw {}", sim_core::VERSION)),
    );
    file.finish().map_err(|error| format!("the PDF cannot be made: {error:?}"))
}

/// What something is in the file: words, a plot, or a line that is there for the eye alone.
const fn content(ink: &Ink, piece: Option<Piece>) -> ContentTag<'static> {
    match (piece, ink) {
        (None, _) => ContentTag::Artifact(Artifact { kind: ArtifactType::Other, bbox: None }),
        (Some(_), Ink::Words { .. }) => ContentTag::Span(SpanTag {
            lang: None,
            alt_text: None,
            expanded: None,
            actual_text: None,
        }),
        (Some(_), _) => ContentTag::Other,
    }
}

fn put(surface: &mut Surface<'_>, faces: &Faces, ink: &Ink) -> Result<(), String> {
    match ink {
        Ink::Words { x, baseline, face, words } => {
            letters(surface, faces, (*x, *baseline), *face, words);
        }
        Ink::Line { from, to, width, colour } => {
            let mut builder = PathBuilder::new();
            builder.move_to(from.0 as f32, from.1 as f32);
            builder.line_to(to.0 as f32, to.1 as f32);
            line(surface, builder, *width, *colour);
        }
        Ink::Box { corner, size, colour } => {
            let rect =
                Rect::from_xywh(corner.0 as f32, corner.1 as f32, size.0 as f32, size.1 as f32);
            let mut builder = PathBuilder::new();
            if let Some(rect) = rect {
                builder.push_rect(rect);
            }
            line(surface, builder, 1.2, *colour);
        }
        Ink::Plot { corner, width, size, plot } => {
            drawn(surface, faces, (*corner, *width), *size, plot)?
        }
    }
    Ok(())
}

fn letters(surface: &mut Surface<'_>, faces: &Faces, at: (f64, f64), face: Face, words: &str) {
    surface.set_stroke(None);
    surface.set_fill(Some(Fill { paint: colour(face.colour).into(), ..Fill::default() }));
    let start = Point::from_xy(at.0 as f32, at.1 as f32);
    let font = faces.of(face.style);
    surface.draw_text(start, font, face.size as f32, words, false, TextDirection::LeftToRight);
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

/// Draws a plot in its own fine units, shrunk to its place.
fn drawn(
    surface: &mut Surface<'_>,
    faces: &Faces,
    (corner, width): ((f64, f64), f64),
    (units, high): (u32, u32),
    plot: &Plot,
) -> Result<(), String> {
    let look = Look::new(units, high, Palette::WHITE);
    let scale = (width / f64::from(look.fine().0)) as f32;
    let place = Transform::from_row(scale, 0.0, 0.0, scale, corner.0 as f32, corner.1 as f32);
    surface.push_transform(&place);
    let result = {
        let root = Sheet::new(surface, faces, look.fine()).into_drawing_area();
        plot.draw(&root, &look).map_err(|error| error.to_string())
    };
    surface.pop();
    result
}

/// What stands small at the foot of a sheet, with its number.
fn foot(surface: &mut Surface<'_>, faces: &Faces, words: &str, (number, of): (usize, usize)) {
    let face = Face { size: 7.75, colour: SOFT, ..Face::NOTE };
    // Read aloud between two sheets it would only disturb.
    surface.start_tagged(ContentTag::Artifact(Artifact::with_kind(ArtifactType::Footer)));
    let baseline = HEIGHT - FOOT;
    letters(surface, faces, (SIDE, baseline), face, words);
    let number = format!("page {number} of {of}");
    let wide = lettering::width(face.style, face.size, &number);
    letters(surface, faces, (SIDE + BREADTH - wide, baseline), face, &number);
    surface.end_tagged();
}
