//! What the program inks into the scene itself, in scene units: water, trace, column, tube, cords,
//! air, and the rotor that turns.

use resvg::tiny_skia::{Path, PathBuilder, Transform};
use sim_core::rig::parts::{BlowerPlug, PartPlace, RigPart};
use sim_core::session::view::View;

use super::canvas::{Canvas, Line, Point, polyline_path};
use super::palette;
use super::scene::{anchor, number, piece};
use crate::chart;

mod air;

pub use air::{air, rotor};

/// Where a point lands.
pub fn moved(by: Transform, (x, y): Point) -> Point {
    (by.sx * x + by.kx * y + by.tx, by.ky * x + by.sy * y + by.ty)
}

/// How the manometer hangs or stands.
pub fn manometer_at(view: &View) -> Transform {
    let eye = anchor("manometer", "eye");
    if view.mounting.place(RigPart::Manometer) == PartPlace::Hook {
        let hook = anchor("hook", "hook");
        let tilt = view.manometer.tilt_deg as f32;
        return Transform::from_translate(hook.0 - eye.0, hook.1 - eye.1)
            .pre_concat(Transform::from_rotate_at(tilt, eye.0, eye.1));
    }
    let ground = anchor("shelter", "ground_manometer");
    let foot = piece("manometer").map_or(0.0, |piece| piece.y + piece.h);
    Transform::from_translate(ground.0 - eye.0, ground.1 - foot)
}

/// Where the calibrator stands.
pub fn calibrator_at(view: &View) -> Transform {
    let base = anchor("calibrator", "base");
    let on_holder = view.mounting.place(RigPart::Adapter) == PartPlace::Holder;
    let to = match view.mounting.place(RigPart::Calibrator) {
        PartPlace::Adapter if on_holder => base,
        PartPlace::Adapter => {
            let (seat, ground) = (anchor("adapter", "seat"), anchor("shelter", "ground_adapter"));
            (base.0 + ground.0 - seat.0, base.1 + ground.1 - seat.1)
        }
        _ => anchor("shelter", "ground_calibrator"),
    };
    Transform::from_translate(to.0 - base.0, to.1 - base.1)
}

/// Water in both limbs and the bend, up to each leg's meniscus. Drawn in the manometer's own frame.
pub fn water(canvas: &mut Canvas, view: &View, _phase: f32) {
    let (left, right) = (anchor("manometer", "zero_left"), anchor("manometer", "zero_right"));
    let per_in = number("manometer", "units_per_in");
    let bore = number("manometer", "bore_radius");
    let top = anchor("manometer", "column_top_left").1;
    let bend = number("manometer", "bend_y");
    let level = |zero: Point, seen_in: f64| {
        let y = zero.1 - (seen_in + view.manometer.scale_in) as f32 * per_in;
        y.clamp(top, bend)
    };
    let (seen_left, seen_right) = (&view.manometer.left, &view.manometer.right);
    let levels = [level(left, seen_left.meniscus_in), level(right, seen_right.meniscus_in)];
    let rims = [level(left, seen_left.rim_in), level(right, seen_right.rim_in)];
    let radius = number("manometer", "bend_radius");
    let mut builder = PathBuilder::new();
    builder.move_to(left.0 - bore, rims[0]);
    builder.quad_to(left.0, 2.0 * levels[0] - rims[0], left.0 + bore, rims[0]);
    builder.line_to(left.0 + bore, bend);
    half_circle(&mut builder, (0.5 * (left.0 + right.0), bend), radius - bore, 180.0, 0.0);
    builder.line_to(right.0 - bore, rims[1]);
    builder.quad_to(right.0, 2.0 * levels[1] - rims[1], right.0 + bore, rims[1]);
    builder.line_to(right.0 + bore, bend);
    half_circle(&mut builder, (0.5 * (left.0 + right.0), bend), radius + bore, 0.0, 180.0);
    builder.close();
    if let Some(body) = builder.finish() {
        canvas.fill(&body, palette::WATER.color());
        canvas.stroke(&body, palette::WATER_DEEP.color(), Line(0.6));
    }
    if view.manometer.bubble {
        let low = (0.5 * (left.0 + right.0), bend + radius);
        let edge = Some((palette::WATER_DEEP.color(), Line(0.7)));
        canvas.disc((low.0 - 9.0, low.1 - 2.0), 3.4, palette::GLASS.color(), edge);
        canvas.disc((low.0 + 3.0, low.1 - 1.5), 2.2, palette::GLASS.color(), edge);
    }
}

/// The lower half of a circle, as short chords, from one angle to the other.
fn half_circle(builder: &mut PathBuilder, centre: Point, radius: f32, from: f32, to: f32) {
    for step in 0..=36_u16 {
        let deg = from + (to - from) * f32::from(step) / 36.0;
        let (x, y) = super::canvas::on_circle(centre, radius, deg);
        builder.line_to(x, y);
    }
}

/// The trace on the chart, with its marks.
pub fn trace(canvas: &mut Canvas, view: &View, _phase: f32) {
    let hub = anchor("chart", "hub");
    let seen = &view.recorder;
    let ruling = chart::Ruling::of(seen);
    let at = |hour: f64, divisions: f64| {
        let (x, y) = ruling.on_paper(seen.chart_hour, hour, divisions);
        (hub.0 + x as f32, hub.1 + y as f32)
    };
    for stroke in chart::strokes(&seen.trace) {
        let points: Vec<Point> = stroke.iter().map(|&(hour, i)| at(hour, i)).collect();
        match points.as_slice() {
            [dot] => canvas.disc(*dot, 0.5, palette::PEN_INK.color(), None),
            line => canvas.polyline(line, palette::PEN_INK.color(), Line(1.0)),
        }
    }
    for (hour, _) in &seen.marks {
        let Some(divisions) = chart::inked_at(&seen.trace, *hour) else { continue };
        let (from, to) = (at(*hour, divisions - 2.0), at(*hour, divisions - 5.0));
        canvas.line(from, to, palette::HAND_INK.color(), Line(0.8));
    }
}

/// The thermometer's column, in its own frame.
pub fn column(canvas: &mut Canvas, view: &View, _phase: f32) {
    let (bulb, zero) = (anchor("thermometer", "bulb"), anchor("thermometer", "zero"));
    let half = number("thermometer", "column_radius");
    let degrees = view.thermometer.column_c as f32;
    let ends = (number("thermometer", "degc_min") - 2.0, number("thermometer", "degc_max") + 2.0);
    let top = zero.1 - degrees.clamp(ends.0, ends.1) * number("thermometer", "units_per_degc");
    let size = (2.0 * half, (bulb.1 - top).max(0.1));
    canvas.rect((bulb.0 - half, top), size, palette::COPPER.color(), None);
}

/// How the sampler's plug is moved from where it was drawn.
pub fn sampler_plug(view: &View) -> Transform {
    let home = anchor("plug_sampler", "prongs");
    let to = if view.power.sampler_cord_in {
        anchor("mains_outlet", "sampler_socket")
    } else {
        anchor("plug_sampler", "loose")
    };
    Transform::from_translate(to.0 - home.0, to.1 - home.1)
}

/// How the blower's plug is moved from where it was drawn.
pub fn blower_plug(view: &View) -> Transform {
    let home = anchor("plug_blower", "prongs");
    let to = match view.power.blower_plug {
        BlowerPlug::Controller => anchor("flow_controller", "socket"),
        BlowerPlug::LineOutlet => anchor("mains_outlet", "line_socket"),
        BlowerPlug::Loose => anchor("plug_blower", "loose"),
    };
    Transform::from_translate(to.0 - home.0, to.1 - home.1)
}

/// Both cords, hanging between their ends.
pub fn cords(canvas: &mut Canvas, view: &View, _phase: f32) {
    let sampler = moved(sampler_plug(view), anchor("plug_sampler", "cord"));
    hang(canvas, anchor("shelter", "sampler_cord"), sampler, 742.0, Hose::Cord);
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
                Some((palette::WATER.color(), Line(0.8))),
            );
        }
    }
    if view.tube.kinked {
        let (x, y) = middle(0.35);
        let ink = palette::INK.color();
        canvas.polyline(&[(x - 5.0, y - 6.0), (x, y), (x - 5.0, y + 6.0)], ink, Line(1.7));
        canvas.polyline(&[(x + 5.0, y - 6.0), (x, y), (x + 5.0, y + 6.0)], ink, Line(1.7));
    }
    if view.tube.crack == Some(true) {
        let (x, y) = middle(0.62);
        let crack =
            [(x - 1.0, y - 4.0), (x + 1.5, y - 1.5), (x - 1.5, y + 1.0), (x + 1.0, y + 4.0)];
        canvas.polyline(&crack, palette::PAPER.color(), Line(1.3));
    }
}

/// The tube's middle line.
pub fn tube_path(view: &View) -> Option<Path> {
    let hung = view.mounting.place(RigPart::Manometer) == PartPlace::Hook;
    let port = moved(manometer_at(view), anchor("manometer", "tube_port"));
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
    canvas.stroke(path, palette::INK.color(), Line(outer));
    canvas.stroke(path, palette::RUBBER.color(), Line(inner));
    let up = Transform::from_translate(-0.2 * light, -0.8 * light);
    canvas.within(up, |canvas| canvas.stroke(path, palette::STEEL_DARK.color(), Line(light)));
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

/// Points as a line, for arrows and hands.
pub(super) fn through(points: &[Point]) -> Option<Path> {
    polyline_path(points)
}
