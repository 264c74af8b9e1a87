//! A length of the tube, near enough to see drops, a kink, a crack, and what its end is on.

use resvg::tiny_skia::{Path, PathBuilder};

use super::field_of_view::{CENTRE, Subject, caption};
use crate::canvas::{Canvas, LineWeight, Point};
use crate::palette;

/// Half the tube's width.
const HALF: f32 = 27.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let seen = subject.view.tube;
    canvas.wash(palette::PAPER.color());
    squares(canvas);
    tap(canvas);
    let Some(wall) = wall(seen.kinked, seen.on_tap) else { return };
    canvas.fill(&wall, palette::STEEL_DARK.towards(palette::GLASS, 0.55).color());
    light(canvas, seen.kinked, seen.on_tap);
    if seen.drops {
        drops(canvas, seen.kinked);
    }
    canvas.stroke(&wall, palette::INK.color(), LineWeight::HEAVY);
    if seen.kinked {
        let (x, y) = axis(KINK);
        let ink = palette::INK.color();
        canvas.polyline(
            &[(x - 9.0, y - 12.0), (x, y), (x - 9.0, y + 12.0)],
            ink,
            LineWeight::MEDIUM,
        );
        canvas.polyline(
            &[(x + 9.0, y - 12.0), (x, y), (x + 9.0, y + 12.0)],
            ink,
            LineWeight::MEDIUM,
        );
    }
    if seen.crack == Some(true) {
        crack(canvas);
    }
    caption(canvas, subject, if seen.on_tap { "on the pressure tap" } else { "not connected" });
}

/// Where along the tube the kink is, and the crack.
const KINK: f32 = 0.66;
const CRACK: f32 = 0.36;
/// Where the tube's end lies, on the tap and off it.
const ENDS: (f32, f32) = (0.12, 0.24);

/// The tube's middle line, from the tap (0) to the far rim (1).
fn axis(share: f32) -> Point {
    (10.0 + 280.0 * share, CENTRE.1 + 16.0 - 34.0 * (share * 3.6).sin())
}

fn half(share: f32, kinked: bool) -> f32 {
    let near = (share - KINK) / 0.07;
    if kinked { HALF * (1.0 - 0.86 * (-near * near).exp()) } else { HALF }
}

fn wall(kinked: bool, on_tap: bool) -> Option<Path> {
    let start = if on_tap { ENDS.0 } else { ENDS.1 };
    let share = |step: u16| start + (1.04 - start) * f32::from(step) / 60.0;
    let mut builder = PathBuilder::new();
    for step in 0..=60 {
        let (x, y) = axis(share(step));
        let y = y - half(share(step), kinked);
        if step == 0 { builder.move_to(x, y) } else { builder.line_to(x, y) }
    }
    for step in (0..=60).rev() {
        let (x, y) = axis(share(step));
        builder.line_to(x, y + half(share(step), kinked));
    }
    builder.close();
    builder.finish()
}

fn light(canvas: &mut Canvas, kinked: bool, on_tap: bool) {
    let start = if on_tap { ENDS.0 } else { ENDS.1 };
    for (offset, hue, line) in
        [(-0.6, palette::FILTER, LineWeight(4.0)), (0.72, palette::STEEL_DARK, LineWeight(6.0))]
    {
        let points: Vec<Point> = (0..=60_u16)
            .map(|step| {
                let share = start + 0.02 + (1.02 - start) * f32::from(step) / 60.0;
                let (x, y) = axis(share);
                (x, y + offset * half(share, kinked))
            })
            .collect();
        canvas.polyline(&points, hue.faded(0.75), line);
    }
}

/// The calibrator's tap: a ribbed spigot from the left.
fn tap(canvas: &mut Canvas) {
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    let (x, y) = axis(0.12);
    canvas.rect((-10.0, y - 34.0), (x - 2.0, 68.0), palette::STEEL.color(), ink);
    canvas.rect((x - 12.0, y - 13.0), (52.0, 26.0), palette::BRASS.color(), ink);
    for rib in [6.0, 16.0, 26.0] {
        canvas.line(
            (x + rib, y - 13.0),
            (x + rib, y + 13.0),
            palette::INK.color(),
            LineWeight::THIN,
        );
    }
}

fn drops(canvas: &mut Canvas, kinked: bool) {
    for (share, along, size) in
        [(0.46, 0.7, 9.0), (0.54, 0.78, 6.0), (0.8, 0.66, 10.0), (0.9, 0.8, 5.5)]
    {
        let (x, y) = axis(share);
        let y = y + along * half(share, kinked) - 0.4 * size;
        let edge = Some((palette::WATER_DEEP.color(), LineWeight::THIN));
        canvas.disc((x, y), size, palette::WATER.faded(0.75), edge);
        let glint = (x - 0.3 * size, y - 0.35 * size);
        canvas.disc(glint, 0.2 * size, palette::FILTER.color(), None);
    }
}

fn crack(canvas: &mut Canvas) {
    let (x, y) = axis(CRACK);
    let jag = [
        (x - 4.0, y - HALF),
        (x + 3.0, y - 17.0),
        (x - 3.0, y - 8.0),
        (x + 6.0, y),
        (x, y + 10.0),
        (x + 4.0, y + 17.0),
    ];
    canvas.polyline(&jag, palette::FILTER.color(), LineWeight(4.0));
    canvas.polyline(&jag, palette::INK.color(), LineWeight::MEDIUM);
    let branch = [(x + 6.0, y), (x + 14.0, y + 4.0)];
    canvas.polyline(&branch, palette::INK.color(), LineWeight::THIN);
}

/// The sheet's faint squares.
fn squares(canvas: &mut Canvas) {
    for step in 0..10_u8 {
        let at = 28.0 * f32::from(step) + 14.0;
        canvas.line((at, 0.0), (at, 280.0), palette::GRID.color(), LineWeight::FINE);
        canvas.line((0.0, at), (280.0, at), palette::GRID.color(), LineWeight::FINE);
    }
}
