//! Water in the manometer, the column of the thermometer, and the trace on the chart.

use resvg::tiny_skia::PathBuilder;
use sim_core::rig::manometer::IceLook;
use sim_core::session::view::View;

use super::super::canvas::{Canvas, LineWeight, Point, on_circle};
use super::super::palette;
use super::super::scene::{anchor, number};
use crate::chart;

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
        let hue = match view.manometer.ice {
            IceLook::None if view.manometer.dirty => palette::WATER.towards(palette::GASKET, 0.4),
            IceLook::None => palette::WATER,
            IceLook::Slush => palette::WATER.towards(palette::FILTER, 0.45),
            IceLook::Solid => palette::WATER.towards(palette::FILTER, 0.85),
        };
        canvas.fill(&body, hue.color());
        canvas.stroke(&body, palette::WATER_DEEP.color(), LineWeight(0.6));
    }
    if view.manometer.bubble {
        let low = (0.5 * (left.0 + right.0), bend + radius);
        let edge = Some((palette::WATER_DEEP.color(), LineWeight(0.7)));
        canvas.disc((low.0 - 9.0, low.1 - 2.0), 3.4, palette::GLASS.color(), edge);
        canvas.disc((low.0 + 3.0, low.1 - 1.5), 2.2, palette::GLASS.color(), edge);
    }
}

/// The lower half of a circle, as short chords, from one angle to the other.
fn half_circle(builder: &mut PathBuilder, centre: Point, radius: f32, from: f32, to: f32) {
    for step in 0..=36_u16 {
        let deg = from + (to - from) * f32::from(step) / 36.0;
        let (x, y) = on_circle(centre, radius, deg);
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
            line => canvas.polyline(line, palette::PEN_INK.color(), LineWeight(1.0)),
        }
    }
    for (hour, _) in &seen.marks {
        let Some(divisions) = chart::inked_at(&seen.trace, *hour) else { continue };
        let (from, to) = (at(*hour, divisions - 2.0), at(*hour, divisions - 5.0));
        canvas.line(from, to, palette::HAND_INK.color(), LineWeight(0.8));
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
