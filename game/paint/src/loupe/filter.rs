//! The filter of a run: in the hand against the light, on its holder, folded, or in its envelope.

use resvg::tiny_skia::Transform;
use sim_core::rig::parts::{FilterSide, Grip, PartPlace, RigPart, Seat};
use sim_core::session::view::run::{FilterView, Holes, RunView};

use super::field_of_view::{CENTRE, RADIUS, Subject, caption, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, TextAlign, rect_path, round_rect_path};
use crate::palette;
use crate::text::FontStyle;

/// Half the sheet's width and depth in the hand.
const HALF: Point = (92.0, 72.0);
/// Width of the margin that no air passes.
const MARGIN: f32 = 11.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, run: &RunView) {
    let seen = &run.filter;
    match subject.view.mounting.place(RigPart::Filter) {
        PartPlace::Case => envelope(canvas, subject, run),
        PartPlace::Holder => on_holder(canvas, subject, run),
        place => {
            let against_light = place == PartPlace::Hand && seen.holes.is_some();
            backdrop(canvas, place, against_light);
            if seen.folded_out.is_some() {
                folded(canvas, seen);
            } else {
                sheet(canvas, CENTRE, HALF, seen, against_light);
                number(canvas, seen);
            }
            if let (PartPlace::Hand, Some(grip)) = (place, seen.grip) {
                fingers(canvas, grip);
            }
            caption(canvas, subject, words(seen, against_light));
        }
    }
}

fn words(seen: &FilterView, against_light: bool) -> &'static str {
    match (seen.folded_out, against_light, seen.up) {
        (Some(FilterSide::Smooth), ..) => "folded, smooth side out",
        (Some(FilterSide::Rough), ..) => "folded, rough side out",
        (None, true, _) => "held against the light",
        (None, false, FilterSide::Rough) => "rough side up",
        (None, false, FilterSide::Smooth) => "smooth side up",
    }
}

/// Wood of the roof, paper in the hand, or the sky behind it.
fn backdrop(canvas: &mut Canvas, place: PartPlace, against_light: bool) {
    if !against_light {
        let hue = if place == PartPlace::Hand { palette::PAPER_SHADE } else { palette::WOOD };
        return canvas.wash(hue.color());
    }
    canvas.wash(palette::SKY.color());
    for ray in 0..24_u8 {
        let deg = 15.0 * f32::from(ray) + 7.0;
        let from = crate::canvas::on_circle(CENTRE, 112.0, deg);
        let to = crate::canvas::on_circle(CENTRE, RADIUS, deg);
        canvas.line(from, to, palette::BRASS.color(), LineWeight::MEDIUM);
    }
}

/// The sheet face on: its nap, the grey of its dust within the margins, and its holes.
fn sheet(canvas: &mut Canvas, middle: Point, half: Point, seen: &FilterView, light: bool) {
    let corner = (middle.0 - half.0, middle.1 - half.1);
    let size = (2.0 * half.0, 2.0 * half.1);
    let hue = if light { palette::PAPER_SHADE } else { palette::FILTER };
    canvas.rect(corner, size, hue.color(), Some((palette::INK.color(), LineWeight::MEDIUM)));
    let inner = (corner.0 + MARGIN, corner.1 + MARGIN);
    let room = (size.0 - 2.0 * MARGIN, size.1 - 2.0 * MARGIN);
    let dusty = seen.up == FilterSide::Rough;
    let grey = if dusty { seen.grey } else { 0.15 * seen.grey };
    if grey > 0.0 {
        canvas.rect(inner, room, palette::INK_SOFT.faded(0.75 * grey as f32), None);
    }
    if seen.damp {
        canvas.rect(inner, room, palette::WATER.faded(0.16), None);
    }
    nap(canvas, inner, room, seen.up);
    holes(canvas, middle, half, seen, light);
}

/// Fibres: many and crossed on the rough side, few on the smooth one.
fn nap(canvas: &mut Canvas, corner: Point, room: Point, up: FilterSide) {
    let (count, length) = if up == FilterSide::Rough { (260_u32, 7.0) } else { (46, 4.0) };
    for fibre in 0..count {
        let spread = |of: u32| {
            let mut mixed = fibre.wrapping_mul(0x9e37_79b1) ^ of.wrapping_mul(0x85eb_ca6b);
            mixed = (mixed ^ (mixed >> 15)).wrapping_mul(0x2c1b_3c6d);
            f32::from(((mixed ^ (mixed >> 12)) % 9973) as u16) / 9973.0
        };
        let at = (
            corner.0 + length + spread(1) * (room.0 - 2.0 * length),
            corner.1 + length + spread(2) * (room.1 - 2.0 * length),
        );
        let to = crate::canvas::on_circle(at, length, 360.0 * spread(3));
        canvas.line(at, to, palette::INK_FAINT.color(), LineWeight::FINE);
    }
}

/// Light through pinholes, or a tear.
fn holes(canvas: &mut Canvas, middle: Point, half: Point, seen: &FilterView, light: bool) {
    match seen.holes {
        Some(Holes::Pinholes) => {
            for (x, y) in [(-0.42, -0.3), (-0.36, -0.22), (0.1, 0.34), (0.52, -0.05)] {
                let at = (middle.0 + x * half.0, middle.1 + y * half.1);
                canvas.disc(at, 5.0, palette::BRASS.faded(0.55), None);
                canvas.disc(at, 2.0, palette::PAGE.color(), None);
            }
        }
        Some(Holes::Tear) => {
            let at = |x: f32, y: f32| (middle.0 + x * half.0, middle.1 + y * half.1);
            let tear = [
                at(0.28, -1.0),
                at(0.22, -0.66),
                at(0.34, -0.4),
                at(0.24, -0.1),
                at(0.4, -0.38),
                at(0.36, -0.7),
                at(0.44, -1.0),
            ];
            let through = if light { palette::SKY } else { palette::STEEL_DARK };
            canvas.polygon(&tear, through.color(), Some((palette::INK.color(), LineWeight::THIN)));
        }
        _ => {}
    }
}

/// The number on the sheet's edge.
fn number(canvas: &mut Canvas, seen: &FilterView) {
    let Some(number) = &seen.number else { return };
    let set = Lettering::new(FontStyle::SemiBold, 10.0, palette::HAND_INK).align(TextAlign::End);
    let at = (CENTRE.0 + HALF.0 - 5.0, CENTRE.1 + HALF.1 - 2.4);
    canvas.text(at, number, set);
}

/// Folded in half, the fold at the left.
fn folded(canvas: &mut Canvas, seen: &FilterView) {
    let Some(out) = seen.folded_out else { return };
    let outside = FilterView { up: out, ..seen.clone() };
    sheet(canvas, CENTRE, (0.55 * HALF.0, HALF.1), &outside, false);
    let x = CENTRE.0 - 0.55 * HALF.0;
    let fold = [(x + 3.0, CENTRE.1 - HALF.1), (x + 3.0, CENTRE.1 + HALF.1)];
    canvas.line(fold[0], fold[1], palette::INK_SOFT.color(), LineWeight::THIN);
}

/// Fingers: two pairs at the edges, or a hand under the sheet with its thumb on the face.
fn fingers(canvas: &mut Canvas, grip: Grip) {
    let skin = palette::COPPER_WASH.color();
    let finger = |canvas: &mut Canvas, at: Point, turned: f32, length: f32| {
        let place = Transform::from_translate(at.0, at.1).pre_rotate(turned);
        canvas.within(place, |canvas| {
            if let Some(path) = round_rect_path((-9.0, -length), (18.0, length + 70.0), 9.0) {
                canvas.fill(&path, skin);
                canvas.stroke(&path, palette::INK.color(), LineWeight::MEDIUM);
            }
            if let Some(nail) = round_rect_path((-5.0, -length + 3.0), (10.0, 11.0), 4.0) {
                canvas.fill(&nail, palette::PAGE.color());
                canvas.stroke(&nail, palette::INK_SOFT.color(), LineWeight::THIN);
            }
        });
    };
    match grip {
        Grip::Edges => {
            for side in [-1.0, 1.0] {
                let edge = CENTRE.0 + side * HALF.0;
                finger(canvas, (edge, CENTRE.1 + 4.0), -90.0 * side, 7.0);
            }
        }
        Grip::Face => {
            finger(canvas, (CENTRE.0 + 34.0, CENTRE.1 + HALF.1), -12.0, 62.0);
        }
    }
}

/// On the holder: over the screen and its gasket, even or shifted; a frame covers its margins.
fn on_holder(canvas: &mut Canvas, subject: &Subject, run: &RunView) {
    let seen = &run.filter;
    canvas.wash(palette::PAPER_SHADE.color());
    let slab = |canvas: &mut Canvas, half: Point, hue: palette::PaletteColor, line: LineWeight| {
        let corner = (CENTRE.0 - half.0, CENTRE.1 - half.1);
        if let Some(path) = round_rect_path(corner, (2.0 * half.0, 2.0 * half.1), 6.0) {
            canvas.fill(&path, hue.color());
            canvas.stroke(&path, palette::INK.color(), line);
        }
    };
    slab(canvas, (104.0, 84.0), palette::STEEL, LineWeight::HEAVY);
    slab(canvas, (86.0, 66.0), palette::GASKET, LineWeight::MEDIUM);
    slab(canvas, (72.0, 52.0), palette::PAGE, LineWeight::MEDIUM);
    if let Some(mouth) = rect_path((CENTRE.0 - 72.0, CENTRE.1 - 52.0), (144.0, 104.0)) {
        for lean in [45.0, -45.0] {
            canvas.hatch(&mouth, lean, 6.0, palette::INK_FAINT.color(), LineWeight::FINE);
        }
    }
    let shifted = if seen.seat == Some(Seat::Shifted) { 15.0 } else { 0.0 };
    let middle = (CENTRE.0 + shifted, CENTRE.1 - 0.4 * shifted);
    sheet(canvas, middle, (80.0, 60.0), seen, false);
    for on_top in 1..=run.added_filters {
        // Laid by hand, each lies a little askew on the one below it.
        let aside = 6.0 * f32::from(on_top);
        sheet(canvas, (middle.0 + aside, middle.1 - aside), (80.0, 60.0), &clean(), false);
    }
    if subject.view.mounting.place(RigPart::Frame) == PartPlace::Holder {
        frame(canvas);
    }
    let words = match (seen.seat, seen.up) {
        _ if run.added_filters == 1 => "two filters on each other",
        _ if run.added_filters > 1 => "three filters on each other",
        (Some(Seat::Shifted), _) => "off centre: one margin is bare",
        (Some(Seat::Centred), FilterSide::Rough) => "margins even, rough side up",
        (Some(Seat::Centred), FilterSide::Smooth) => "margins even, smooth side up",
        (None, FilterSide::Rough) => "rough side up",
        (None, FilterSide::Smooth) => "smooth side up",
    };
    caption(canvas, subject, words);
}

/// A clean sheet, rough side up.
const fn clean() -> FilterView {
    FilterView {
        number: None,
        up: FilterSide::Rough,
        holes: None,
        seat: None,
        grip: None,
        grey: 0.0,
        damp: false,
        folded_out: None,
        in_envelope: false,
    }
}

/// The frame over the margins.
fn frame(canvas: &mut Canvas) {
    let mut builder = resvg::tiny_skia::PathBuilder::new();
    let outer = round_rect_path((CENTRE.0 - 98.0, CENTRE.1 - 78.0), (196.0, 156.0), 8.0);
    let inner = rect_path((CENTRE.0 - 68.0, CENTRE.1 - 48.0), (136.0, 96.0));
    for path in [outer, inner].into_iter().flatten() {
        builder.push_path(&path);
    }
    if let Some(path) = builder.finish() {
        canvas.fill_even_odd(&path, palette::STEEL_SHADE.color());
        canvas.stroke(&path, palette::INK.color(), LineWeight::MEDIUM);
    }
}

/// The envelope with what is written on it; before a sample lies in it, the folder of fresh sheets.
fn envelope(canvas: &mut Canvas, subject: &Subject, run: &RunView) {
    canvas.wash(palette::WOOD.color());
    let (corner, size) = ((CENTRE.0 - 96.0, CENTRE.1 - 62.0), (192.0, 124.0));
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    if run.fresh_filters > 0 {
        for sheet in 0..run.fresh_filters.min(4) {
            let out = 5.0 * f32::from(sheet);
            let at = (corner.0 + 12.0 + out, corner.1 - 10.0 - out);
            canvas.rect(at, (size.0 - 40.0, 40.0), palette::FILTER.color(), ink);
        }
    }
    canvas.rect(corner, size, palette::PAGE.color(), ink);
    let flap = [corner, (corner.0 + 0.5 * size.0, corner.1 + 34.0), (corner.0 + size.0, corner.1)];
    canvas.polyline(&flap, palette::INK.color(), LineWeight::THIN);
    let mut lines: Vec<(String, FontStyle)> = Vec::new();
    // The laboratory weighed the filter of the run, whatever lies on top of it.
    if let Some(number) = run.sample.as_ref().or(run.filter.number.as_ref()) {
        lines.push((number.clone(), FontStyle::SemiBold));
    }
    if let Some(masses) = run.masses {
        lines.push((format!("before {:.4} g", masses.before_g), FontStyle::Regular));
        lines.push((format!("after {:.4} g", masses.after_g), FontStyle::Regular));
    } else if run.fresh_filters > 0 {
        let words = match run.fresh_filters {
            1 => "1 fresh filter".to_owned(),
            count => format!("{count} fresh filters"),
        };
        lines.push((words, FontStyle::Regular));
    }
    let size = subject.size(13.0, 1.25);
    for (number, (words, style)) in lines.into_iter().enumerate() {
        let at = (CENTRE.0, CENTRE.1 + 1.5 * size * number as f32);
        label(canvas, at, &words, Lettering::new(style, size, palette::HAND_INK));
    }
    caption(canvas, subject, "envelope");
}
