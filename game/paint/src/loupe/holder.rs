//! The filter holder from above: what lies on it, its gasket, its four nuts, and beside each nut
//! how high it is.

use resvg::tiny_skia::Transform;
use sim_core::rig::flow::mounting::SNUG_QUARTERS;
use sim_core::rig::parts::{Gasket, PartPlace, RigPart};
use sim_core::session::action::WasherSeat;
use sim_core::session::view::NutView;

use super::field_of_view::{CENTRE, Subject, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, rect_path, round_rect_path};
use crate::live_parts::stopper;
use crate::palette;
use crate::text::FontStyle;

/// Half the holder's width and depth.
const HALF: Point = (84.0, 66.0);
/// A nut's corner: 1 front left, 2 front right, 3 back right, 4 back left, as round the holder.
const CORNERS: [Point; 4] = [(-1.0, 1.0), (1.0, 1.0), (1.0, -1.0), (-1.0, -1.0)];

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::PAPER_SHADE.color());
    let view = subject.view;
    flange(canvas);
    gasket(canvas, view.mounting.holder_gasket);
    if view.mounting.flat_gasket == Some(Gasket::Holder) {
        cracks(canvas, (68.0, 52.0));
    }
    let on_holder = |part| view.mounting.place(part) == PartPlace::Holder;
    if on_holder(RigPart::Filter) {
        filter(canvas);
    }
    if on_holder(RigPart::Frame) {
        frame(canvas);
    }
    if on_holder(RigPart::Adapter) {
        plate(canvas, subject);
    }
    for (number, (nut, corner)) in view.mounting.nuts.iter().zip(CORNERS).enumerate() {
        let at = (CENTRE.0 + corner.0 * HALF.0, CENTRE.1 + corner.1 * HALF.1);
        bolt(canvas, nut, at, corner);
        side(canvas, nut, (CENTRE.0 + corner.0 * 38.0, CENTRE.1 + corner.1 * 97.0));
        let set = Lettering::new(FontStyle::SemiBold, subject.size(13.0, 1.2), palette::INK_SOFT);
        label(
            canvas,
            (CENTRE.0 + corner.0 * 108.0, at.1 - corner.1 * 24.0),
            &(number + 1).to_string(),
            set,
        );
    }
    if let Some(by) = view.mounting.inlet {
        // Under the eaves, behind the holder.
        stopper(canvas, (CENTRE.0, CENTRE.1 - 112.0), (46.0, 16.0), by);
    }
}

/// Cracks across a gasket that has gone flat and hard.
fn cracks(canvas: &mut Canvas, half: Point) {
    for (x, y) in [(-1.0, -0.4), (-0.3, -1.0), (0.5, -1.0), (1.0, 0.2), (0.2, 1.0), (-0.7, 1.0)] {
        let at = (CENTRE.0 + x * half.0, CENTRE.1 + y * half.1);
        let crack = [
            (at.0 - 5.0, at.1 - 4.0),
            (at.0, at.1 - 1.0),
            (at.0 - 1.0, at.1 + 1.0),
            (at.0 + 5.0, at.1 + 4.0),
        ];
        canvas.polyline(&crack, palette::FILTER.color(), LineWeight(1.6));
    }
}

fn slab(
    canvas: &mut Canvas,
    half: Point,
    radius: f32,
    hue: palette::PaletteColor,
    line: LineWeight,
) {
    let at = (CENTRE.0 - half.0, CENTRE.1 - half.1);
    if let Some(path) = round_rect_path(at, (2.0 * half.0, 2.0 * half.1), radius) {
        canvas.fill(&path, hue.color());
        canvas.stroke(&path, palette::INK.color(), line);
    }
}

/// The holder's flange with the screen in its mouth.
fn flange(canvas: &mut Canvas) {
    slab(canvas, (HALF.0 + 14.0, HALF.1 + 14.0), 12.0, palette::STEEL, LineWeight::HEAVY);
    slab(canvas, (62.0, 46.0), 3.0, palette::PAGE, LineWeight::MEDIUM);
    if let Some(mouth) = rect_path((CENTRE.0 - 62.0, CENTRE.1 - 46.0), (124.0, 92.0)) {
        for lean in [45.0, -45.0] {
            canvas.hatch(&mouth, lean, 6.0, palette::INK_FAINT.color(), LineWeight::FINE);
        }
    }
}

/// The gasket round the mouth: there, missing (bare metal with its groove), or covered.
fn gasket(canvas: &mut Canvas, seen: Option<bool>) {
    let ring = |canvas: &mut Canvas, grow: f32, hue: palette::PaletteColor, line: LineWeight| {
        let half = (62.0 + grow, 46.0 + grow);
        let at = (CENTRE.0 - half.0, CENTRE.1 - half.1);
        if let Some(path) = round_rect_path(at, (2.0 * half.0, 2.0 * half.1), 6.0) {
            canvas.stroke(&path, hue.color(), line);
        }
    };
    match seen {
        Some(true) => {
            ring(canvas, 6.0, palette::INK, LineWeight(10.0));
            ring(canvas, 6.0, palette::GASKET, LineWeight(7.0));
        }
        Some(false) => {
            ring(canvas, 2.0, palette::INK_SOFT, LineWeight::FINE);
            ring(canvas, 10.0, palette::INK_SOFT, LineWeight::FINE);
        }
        None => {}
    }
}

fn filter(canvas: &mut Canvas) {
    slab(canvas, (70.0, 54.0), 2.0, palette::FILTER, LineWeight::THIN);
    for (x, y) in [(-40.0, -18.0), (12.0, -30.0), (36.0, 8.0), (-14.0, 22.0), (-52.0, 30.0)] {
        let from = (CENTRE.0 + x, CENTRE.1 + y);
        canvas.line(
            from,
            (from.0 + 9.0, from.1 + 2.0),
            palette::INK_FAINT.color(),
            LineWeight::FINE,
        );
    }
}

/// The frame: an open rectangle over the filter's edge.
fn frame(canvas: &mut Canvas) {
    let outer = round_rect_path(
        (CENTRE.0 - HALF.0 - 10.0, CENTRE.1 - HALF.1 - 10.0),
        (2.0 * HALF.0 + 20.0, 2.0 * HALF.1 + 20.0),
        9.0,
    );
    let mut builder = resvg::tiny_skia::PathBuilder::new();
    if let Some(outer) = outer {
        builder.push_path(&outer);
    }
    if let Some(inner) = rect_path((CENTRE.0 - 56.0, CENTRE.1 - 40.0), (112.0, 80.0)) {
        builder.push_path(&inner);
    }
    if let Some(path) = builder.finish() {
        canvas.fill_even_odd(&path, palette::STEEL_SHADE.color());
        canvas.stroke(&path, palette::INK.color(), LineWeight::MEDIUM);
    }
}

/// The adapter plate, its throat, and the gasket or the calibrator on it.
fn plate(canvas: &mut Canvas, subject: &Subject) {
    slab(canvas, (HALF.0 + 10.0, HALF.1 + 10.0), 9.0, palette::STEEL_SHADE, LineWeight::MEDIUM);
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    if subject.view.mounting.place(RigPart::Calibrator) == PartPlace::Adapter {
        canvas.disc(CENTRE, 50.0, palette::STEEL.color(), ink);
        canvas.disc(
            CENTRE,
            40.0,
            palette::STEEL.color(),
            Some((palette::INK_SOFT.color(), LineWeight::THIN)),
        );
        canvas.disc(CENTRE, 15.0, palette::INK_SOFT.color(), ink);
        return;
    }
    canvas.disc(CENTRE, 38.0, palette::STEEL.color(), ink);
    match subject.view.mounting.calibrator_gasket {
        Some(true) => {
            canvas.ring(CENTRE, 32.0, palette::INK.color(), LineWeight(8.5));
            canvas.ring(CENTRE, 32.0, palette::GASKET.color(), LineWeight(6.0));
        }
        Some(false) => {
            canvas.ring(CENTRE, 35.0, palette::INK_SOFT.color(), LineWeight::FINE);
            canvas.ring(CENTRE, 29.0, palette::INK_SOFT.color(), LineWeight::FINE);
        }
        None => {}
    }
    if subject.view.mounting.flat_gasket == Some(Gasket::Calibrator) {
        cracks(canvas, (32.0, 32.0));
    }
    canvas.disc(CENTRE, 26.0, palette::INK_SOFT.color(), ink);
}

/// A bolt from above: its slot, its washer, its wing nut turned by its quarters; swung out when off.
fn bolt(canvas: &mut Canvas, nut: &NutView, at: Point, corner: Point) {
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    let slot = (at.0.min(at.0 + corner.0 * 16.0), at.1 - 6.0);
    canvas.rect(
        slot,
        (16.0, 12.0),
        palette::PAGE.color(),
        Some((palette::INK.color(), LineWeight::THIN)),
    );
    let off = nut.quarter_turns == 0;
    let middle = if off { (at.0 + corner.0 * 24.0, at.1) } else { at };
    if off {
        canvas.rect(
            (at.0.min(middle.0), at.1 - 4.0),
            ((middle.0 - at.0).abs(), 8.0),
            palette::STEEL_DARK.color(),
            Some((palette::INK.color(), LineWeight::THIN)),
        );
    }
    if nut.washer == WasherSeat::Above {
        canvas.disc(
            middle,
            15.0,
            palette::STEEL.color(),
            Some((palette::INK.color(), LineWeight::THIN)),
        );
    }
    let turned = 90.0 * f32::from(nut.quarter_turns) + 30.0;
    let place = Transform::from_translate(middle.0, middle.1).pre_rotate(turned);
    canvas.within(place, |canvas| {
        for side in [-1.0_f32, 1.0] {
            let wing = [
                (side * 5.0, -4.0),
                (side * 19.0, -6.5),
                (side * 21.0, 0.0),
                (side * 19.0, 6.5),
                (side * 5.0, 4.0),
            ];
            canvas.polygon(&wing, palette::BRASS.color(), ink);
        }
        canvas.disc((0.0, 0.0), 8.5, palette::BRASS.color(), ink);
        canvas.disc(
            (0.0, 0.0),
            3.6,
            palette::STEEL_DARK.color(),
            Some((palette::INK.color(), LineWeight::THIN)),
        );
    });
}

/// The nut from the side: how far it stands off the plate, and on which side its washer is.
fn side(canvas: &mut Canvas, nut: &NutView, at: Point) {
    let ink = Some((palette::INK.color(), LineWeight::THIN));
    let (x, plate) = (at.0, at.1 + 8.0);
    if nut.quarter_turns == 0 {
        canvas.rect((x - 20.0, plate), (40.0, 5.0), palette::STEEL_SHADE.color(), ink);
        return;
    }
    let loose = f32::from(SNUG_QUARTERS.saturating_sub(nut.quarter_turns));
    let below = nut.washer == WasherSeat::Below;
    canvas.rect((x - 2.0, plate - 26.0), (4.0, 36.0), palette::STEEL_DARK.color(), ink);
    canvas.rect((x - 20.0, plate), (40.0, 5.0), palette::STEEL_SHADE.color(), ink);
    let washer = if below { plate + 5.0 } else { plate - 3.0 };
    canvas.rect((x - 10.0, washer), (20.0, 3.0), palette::STEEL.color(), ink);
    let foot = plate - if below { 0.0 } else { 3.0 } - 1.7 * loose;
    let body = [(x - 7.0, foot), (x - 5.0, foot - 9.0), (x + 5.0, foot - 9.0), (x + 7.0, foot)];
    for wing in [-1.0_f32, 1.0] {
        let points = [
            (x + wing * 5.0, foot - 3.0),
            (x + wing * 15.0, foot - 13.0),
            (x + wing * 11.0, foot - 15.0),
            (x + wing * 4.0, foot - 9.0),
        ];
        canvas.polygon(&points, palette::BRASS.color(), ink);
    }
    canvas.polygon(&body, palette::BRASS.color(), ink);
}
