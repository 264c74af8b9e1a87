//! Cords between plugs and cabinet, and the tube of the manometer.

use resvg::tiny_skia::{Path, PathBuilder, Transform};
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::view::View;

use super::super::canvas::{Canvas, LineWeight, Point};
use super::super::palette;
use super::super::scene::anchor;
use super::positions::{
    blower_plug, calibrator_at, manometer_at, manometer_piece, moved, sampler_plug,
};

/// The sampler's cord, hanging between its ends.
pub fn sampler_cord(canvas: &mut Canvas, view: &View, _phase: f32) {
    let sampler = moved(sampler_plug(view), anchor("plug_sampler", "cord"));
    hang(canvas, anchor("shelter", "sampler_cord"), sampler, 742.0, Hose::Cord);
}

/// The blower's cord.
pub fn blower_cord(canvas: &mut Canvas, view: &View, _phase: f32) {
    let blower = moved(blower_plug(view), anchor("plug_blower", "cord"));
    let lowest = match view.power.blower_plug {
        BlowerPlug::Controller => 684.0,
        _ => 746.0,
    };
    hang(canvas, anchor("blower", "cord"), blower, lowest, Hose::Cord);
}

/// The tube from the manometer's left port to the tap, or with its end hanging free.
pub fn tube(canvas: &mut Canvas, view: &View, _phase: f32) {
    let Some(path) = tube_path(view) else { return };
    hose(canvas, &path, Hose::Tube);
    let bounds = path.bounds();
    let middle = |share: f32| {
        let x = bounds.left() + share * bounds.width();
        (x, nearest_y(&path, x))
    };
    if view.tube.drops {
        for share in [0.42, 0.5, 0.57] {
            let (x, y) = middle(share);
            canvas.disc(
                (x, y),
                1.7,
                palette::GLASS.color(),
                Some((palette::WATER.color(), LineWeight(0.8))),
            );
        }
    }
    if view.tube.kinked {
        let (x, y) = middle(0.35);
        let ink = palette::INK.color();
        canvas.polyline(&[(x - 5.0, y - 6.0), (x, y), (x - 5.0, y + 6.0)], ink, LineWeight(1.7));
        canvas.polyline(&[(x + 5.0, y - 6.0), (x, y), (x + 5.0, y + 6.0)], ink, LineWeight(1.7));
    }
    if view.tube.crack == Some(true) {
        let (x, y) = middle(0.62);
        let crack =
            [(x - 1.0, y - 4.0), (x + 1.5, y - 1.5), (x - 1.5, y + 1.0), (x + 1.0, y + 4.0)];
        canvas.polyline(&crack, palette::PAPER.color(), LineWeight(1.3));
    }
}

/// The tube's middle line.
fn tube_path(view: &View) -> Option<Path> {
    let hung = view.mounting.place(RigPart::Manometer) == PartPlace::Hook;
    let port = moved(manometer_at(view), anchor(manometer_piece(view), "tube_port"));
    let mut builder = PathBuilder::new();
    builder.move_to(port.0, port.1);
    if view.tube.on_tap {
        let at = calibrator_at(view);
        let tap = moved(at, anchor("calibrator", "tap"));
        let reach = 0.45 * (port.0 - tap.0).abs();
        let sag = if hung { 40.0 } else { -30.0 };
        builder.cubic_to(port.0 - reach, port.1 - 8.0, tap.0 + reach, tap.1 + sag, tap.0, tap.1);
    } else {
        builder.cubic_to(
            port.0 - 60.0,
            port.1 - 6.0,
            port.0 - 46.0,
            port.1 + 90.0,
            port.0 - 40.0,
            port.1 + 190.0,
        );
        builder.cubic_to(
            port.0 - 38.0,
            port.1 + 230.0,
            port.0 - 60.0,
            port.1 + 236.0,
            port.0 - 64.0,
            port.1 + 214.0,
        );
    }
    builder.finish()
}

#[derive(Clone, Copy, PartialEq)]
enum Hose {
    Tube,
    Cord,
}

/// A cord from `from` to `to` that hangs down to about `lowest`.
fn hang(canvas: &mut Canvas, from: Point, to: Point, lowest: f32, kind: Hose) {
    let mut builder = PathBuilder::new();
    builder.move_to(from.0, from.1);
    let lowest = lowest.max(from.1.max(to.1) + 12.0);
    let middle = 0.5 * (from.0 + to.0);
    let reach = 0.35 * (to.0 - from.0);
    builder.cubic_to(from.0, lowest, middle - reach, lowest, middle, lowest);
    builder.cubic_to(middle + reach, lowest, to.0, lowest, to.0, to.1);
    if let Some(path) = builder.finish() {
        hose(canvas, &path, kind);
    }
}

/// A dark line with a light along it.
fn hose(canvas: &mut Canvas, path: &Path, kind: Hose) {
    let (outer, inner, light) = match kind {
        Hose::Tube => (9.0, 6.4, 1.4),
        Hose::Cord => (4.6, 3.0, 0.8),
    };
    canvas.stroke(path, palette::INK.color(), LineWeight(outer));
    canvas.stroke(path, palette::RUBBER.color(), LineWeight(inner));
    let up = Transform::from_translate(-0.2 * light, -0.8 * light);
    canvas.within(up, |canvas| canvas.stroke(path, palette::STEEL_DARK.color(), LineWeight(light)));
}

/// Height of a path where it passes an x, from its own points.
fn nearest_y(path: &Path, x: f32) -> f32 {
    use resvg::tiny_skia::PathSegment;
    let mut last = Point::default();
    let mut best = (f32::MAX, 0.0);
    for segment in path.segments() {
        let to = match segment {
            PathSegment::MoveTo(point) | PathSegment::LineTo(point) => {
                last = (point.x, point.y);
                continue;
            }
            PathSegment::CubicTo(a, b, c) => {
                for step in 0..=100_u8 {
                    let t = f32::from(step) / 100.0;
                    let mix = |p: f32, q: f32, r: f32, s: f32| {
                        let u = 1.0 - t;
                        u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s
                    };
                    let at = (mix(last.0, a.x, b.x, c.x), mix(last.1, a.y, b.y, c.y));
                    if (at.0 - x).abs() < best.0 {
                        best = ((at.0 - x).abs(), at.1);
                    }
                }
                (c.x, c.y)
            }
            _ => continue,
        };
        last = to;
    }
    best.1
}
