//! The calibrator: its knob against the scale of its opening or the plate that lies in it, its openings,
//! the edge of its orifice, and its plate with the serial number.

use sim_core::session::view::OrificeEdge;

use super::field_of_view::{Subject, label};
use crate::canvas::{
    Canvas, Lettering, LineWeight, Point, arc_path, circle_path, on_circle, polygon_path,
    round_rect_path,
};
use crate::palette;
use crate::text::{self, FontStyle};

/// The knob's axis and radius.
const KNOB: Point = (98.0, 110.0);
const KNOB_RADIUS: f32 = 37.0;
/// Angles of the knob's pointer, clockwise from the right: fully open and fully closed.
const OPEN_DEG: f32 = -210.0;
const CLOSED_DEG: f32 = 30.0;
/// The orifice, seen from above.
const ORIFICE: Point = (214.0, 108.0);
const BORE: f32 = 25.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let seen = &subject.view.calibrator;
    canvas.wash(palette::STEEL.color());
    brushed(canvas);
    match seen.plates {
        Some(plates) => super::plate::draw(canvas, subject, plates.inserted),
        None => knob(canvas, subject, seen.knob.clamp(0.0, 1.0) as f32),
    }
    orifice(canvas, seen.edge);
    if seen.plates.is_none() {
        openings(canvas, seen.knob.clamp(0.0, 1.0) as f32);
    }
    if seen.blocked {
        tape(canvas);
    }
    plate(canvas, subject, seen.serial.as_deref());
}

/// Fine lines of the turned metal.
fn brushed(canvas: &mut Canvas) {
    for step in 0..14_u8 {
        let y = 10.0 + 20.0 * f32::from(step);
        canvas.line((6.0, y), (274.0, y + 2.0), palette::STEEL_SHADE.color(), LineWeight::FINE);
    }
}

fn knob(canvas: &mut Canvas, subject: &Subject, opening: f32) {
    let ink = palette::INK.color();
    canvas.disc(KNOB, 69.0, palette::CHART_PAPER.color(), Some((ink, LineWeight::MEDIUM)));
    let deg = |opening: f32| CLOSED_DEG + (OPEN_DEG - CLOSED_DEG) * opening;
    for step in 0..=20_u8 {
        let at = deg(f32::from(step) / 20.0);
        let (length, line) = match step % 4 {
            0 => (11.0, LineWeight::MEDIUM),
            2 => (8.0, LineWeight::THIN),
            _ => (5.0, LineWeight::THIN),
        };
        let outer = KNOB_RADIUS + 4.0 + length;
        canvas.mark(on_circle(KNOB, KNOB_RADIUS + 4.0, at), on_circle(KNOB, outer, at), ink, line);
    }
    if let Some(line) = arc_path(KNOB, KNOB_RADIUS + 4.0, OPEN_DEG, CLOSED_DEG) {
        canvas.stroke(&line, ink, LineWeight::THIN);
    }
    let set = Lettering::new(FontStyle::SemiBold, subject.size(11.0, 1.2), palette::INK);
    for (opening, name) in [(0.0, "0"), (0.5, "½"), (1.0, "1")] {
        label(canvas, on_circle(KNOB, KNOB_RADIUS + 23.0, deg(opening)), name, set);
    }
    canvas.disc(KNOB, KNOB_RADIUS, palette::BRASS.color(), Some((ink, LineWeight::HEAVY)));
    for rib in 0..36_u8 {
        let at = 10.0 * f32::from(rib);
        let (from, to) = (on_circle(KNOB, KNOB_RADIUS - 5.0, at), on_circle(KNOB, KNOB_RADIUS, at));
        canvas.line(from, to, ink, LineWeight::FINE);
    }
    canvas.ring(KNOB, KNOB_RADIUS - 6.0, ink, LineWeight::THIN);
    let tip = deg(opening);
    canvas.mark(
        on_circle(KNOB, 8.0, tip),
        on_circle(KNOB, KNOB_RADIUS - 1.0, tip),
        palette::COPPER.color(),
        LineWeight(3.6),
    );
    canvas.disc(KNOB, 6.0, palette::STEEL_SHADE.color(), Some((ink, LineWeight::THIN)));
}

/// The bore's edge: sharp and bright, nicked, or grown over with dirt.
fn orifice(canvas: &mut Canvas, edge: Option<OrificeEdge>) {
    let ink = palette::INK.color();
    canvas.disc(
        ORIFICE,
        BORE + 14.0,
        palette::STEEL_SHADE.color(),
        Some((ink, LineWeight::MEDIUM)),
    );
    canvas.disc(ORIFICE, BORE + 3.0, palette::FILTER.color(), None);
    canvas.disc(ORIFICE, BORE, palette::RUBBER.color(), Some((ink, LineWeight::MEDIUM)));
    match edge {
        Some(OrificeEdge::Nicked) => {
            for (deg, deep) in [(-52.0_f32, 8.0_f32), (118.0, 5.5), (140.0, 4.0)] {
                let nick = [
                    on_circle(ORIFICE, BORE - 1.0, deg - 8.0),
                    on_circle(ORIFICE, BORE + deep, deg),
                    on_circle(ORIFICE, BORE - 1.0, deg + 7.0),
                ];
                canvas.polygon(&nick, palette::RUBBER.color(), Some((ink, LineWeight::THIN)));
            }
        }
        Some(OrificeEdge::Dirty) => {
            for lump in 0..26_u8 {
                let deg = 14.3 * f32::from(lump);
                let size = 2.2 + f32::from(lump * 7 % 5);
                let at = on_circle(ORIFICE, BORE - 0.35 * size, deg);
                canvas.disc(at, size, palette::GASKET.color(), Some((ink, LineWeight::FINE)));
            }
        }
        Some(OrificeEdge::Sharp) | None => {}
    }
}

/// The row of openings: the shutter leaves each of them free by its share.
fn openings(canvas: &mut Canvas, opening: f32) {
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    let (top, height, width) = (184.0, 24.0, 22.0);
    for hole in 0..5_u8 {
        let x = 62.0 + 34.0 * f32::from(hole);
        canvas.rect((x, top), (width, height), palette::RUBBER.color(), None);
        let covered = (1.0 - opening) * width;
        if covered > 0.01 {
            canvas.rect(
                (x, top),
                (covered, height),
                palette::STEEL_DARK.color(),
                Some((palette::INK.color(), LineWeight::THIN)),
            );
        }
        canvas.rect((x, top), (width, height), palette::INK.faded(0.0), ink);
    }
}

/// The strip of tape over the openings.
fn tape(canvas: &mut Canvas) {
    let tape = polygon_path(&[(44.0, 176.0), (240.0, 179.0), (237.0, 214.0), (47.0, 212.0)]);
    if let Some(tape) = tape {
        canvas.fill(&tape, palette::COPPER_WASH.color());
        canvas.hatch(&tape, 60.0, 7.0, palette::WOOD_SHADE.color(), LineWeight::THIN);
        canvas.stroke(&tape, palette::INK.color(), LineWeight::MEDIUM);
    }
}

/// The maker's plate, with four rivets and the serial number.
fn plate(canvas: &mut Canvas, subject: &Subject, serial: Option<&str>) {
    let (at, size) = ((82.0, 219.0), (116.0, 28.0));
    if let Some(path) = round_rect_path(at, size, 4.0) {
        canvas.fill(&path, palette::PAGE.color());
        canvas.stroke(&path, palette::INK.color(), LineWeight::THIN);
    }
    for (x, y) in [(5.0, 5.0), (111.0, 5.0), (5.0, 23.0), (111.0, 23.0)] {
        if let Some(rivet) = circle_path((at.0 + x, at.1 + y), 1.8) {
            canvas.fill(&rivet, palette::INK_SOFT.color());
        }
    }
    if let Some(serial) = serial {
        let words = format!("No. {serial}");
        let wanted = subject.size(15.0, 1.25);
        let fits = 98.0 / text::width(FontStyle::SemiBold, 1.0, &words).max(0.1);
        let set = Lettering::new(FontStyle::SemiBold, wanted.min(fits), palette::INK);
        label(canvas, (140.0, 233.0), &words, set);
    }
}
