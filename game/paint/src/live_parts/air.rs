//! The air in the cut-away: arrows that drift with the flow, and the rotor.

use resvg::tiny_skia::Transform;
use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::view::View;

use super::super::canvas::{Canvas, LineWeight, Point, polyline_path};
use super::super::palette;
use super::super::scene::{anchor, drawing, piece};
use super::positions::{calibrator_at, moved};

/// Below this loudness the rotor stands.
const STILL: f64 = 0.01;

/// Arrows along the way of the air. `phase` runs from 0 to 1 while an arrow takes the place of the
/// next; the more air flows, the stronger they are drawn.
pub fn air(canvas: &mut Canvas, view: &View, phase: f32) {
    let rush = view.blower.rush.clamp(0.0, 1.0);
    if rush <= 0.0 {
        return;
    }
    let strength = (0.35 + 0.65 * rush) as f32;
    for way in ways(view) {
        arrows(canvas, &way, phase.rem_euclid(1.0), strength);
    }
}

/// The ways of the air: in at the top, through the throat, out below.
fn ways(view: &View) -> Vec<Vec<Point>> {
    let mut ways = Vec::new();
    let (left, right) =
        (anchor("filter_holder", "mouth_left"), anchor("filter_holder", "mouth_right"));
    let throat = anchor("filter_holder", "throat");
    for share in [0.18_f32, 0.39, 0.61, 0.82] {
        let from = (left.0 + share * (right.0 - left.0), left.1 + 8.0);
        let to = (throat.0 + (share - 0.5) * 26.0, throat.1 - 12.0);
        ways.push(vec![from, (0.6 * from.0 + 0.4 * to.0, 0.55 * from.1 + 0.45 * to.1), to]);
    }
    let exit = anchor("blower", "exit");
    for (side, out) in [(-1.0_f32, "exhaust_left"), (1.0, "exhaust_right")] {
        let out = anchor("shelter", out);
        let from = (exit.0 + 8.0 * side, exit.1 + 6.0);
        let turn = (exit.0 + 14.0 * side, exit.1 + 40.0);
        ways.push(vec![from, turn, (out.0 - 12.0 * side, exit.1 + 54.0), (out.0, out.1 + 16.0)]);
    }
    let calibrated = view.mounting.place(RigPart::Calibrator) == PartPlace::Adapter
        && view.mounting.place(RigPart::Adapter) == PartPlace::Holder;
    if calibrated && !view.calibrator.blocked {
        let inlet = moved(calibrator_at(view), anchor("calibrator", "inlet"));
        for side in [-1.0_f32, 1.0] {
            let from = (inlet.0 + 64.0 * side, inlet.1 - 44.0);
            let turn = (inlet.0 + 26.0 * side, inlet.1 - 36.0);
            ways.push(vec![from, turn, (inlet.0 + 9.0 * side, inlet.1 + 2.0)]);
        }
    } else if !calibrated {
        for share in [0.2_f32, 0.5, 0.8] {
            let x = left.0 + share * (right.0 - left.0);
            ways.push(vec![(x, left.1 - 66.0), (x, left.1 - 34.0)]);
        }
    }
    ways
}

/// Two arrows on a way, a phase apart, fading at its ends.
fn arrows(canvas: &mut Canvas, way: &[Point], phase: f32, strength: f32) {
    for start in [0.0_f32, 0.5] {
        let head = (start + 0.5 * phase).rem_euclid(1.0);
        let shown = strength * (4.0 * head * (1.0 - head)).clamp(0.0, 1.0);
        let color = palette::AIR.faded(shown);
        let points: Vec<Point> =
            (0..=8_u8).map(|step| along(way, head - 0.3 * (1.0 - f32::from(step) / 8.0))).collect();
        if let Some(path) = polyline_path(&points) {
            canvas.stroke(&path, color, LineWeight(1.7));
        }
        if let [.., before, tip] = points.as_slice() {
            let deg = (tip.1 - before.1).atan2(tip.0 - before.0).to_degrees();
            let place = Transform::from_translate(tip.0, tip.1).pre_rotate(deg);
            canvas.within(place, |canvas| {
                canvas.polygon(&[(5.0, 0.0), (-4.0, -3.6), (-2.0, 0.0), (-4.0, 3.6)], color, None);
            });
        }
    }
}

/// A point on a way, by its share of the whole length.
fn along(way: &[Point], share: f32) -> Point {
    let legs: Vec<(Point, Point, f32)> = way
        .windows(2)
        .filter_map(|pair| match pair {
            [from, to] => Some((*from, *to, (to.0 - from.0).hypot(to.1 - from.1))),
            _ => None,
        })
        .collect();
    let whole: f32 = legs.iter().map(|leg| leg.2).sum();
    let mut left = share.clamp(0.0, 1.0) * whole;
    for (from, to, length) in legs {
        if left <= length {
            let part = left / length.max(0.001);
            return (from.0 + (to.0 - from.0) * part, from.1 + (to.1 - from.1) * part);
        }
        left -= length;
    }
    way.last().copied().unwrap_or_default()
}

/// The rotor, in one of its three drawn phases.
pub fn rotor(canvas: &mut Canvas, view: &View, phase: f32) {
    let turning = view.blower.loudness > STILL;
    let third = if turning { (phase.rem_euclid(1.0) * 3.0) as usize % 3 } else { 0 };
    let name = ["blower_rotor_a", "blower_rotor_b", "blower_rotor_c"].get(third);
    let drawn = name.and_then(|name| piece(name)).and_then(|piece| Some((piece, drawing(piece)?)));
    if let Some((piece, tree)) = drawn {
        let to_px = canvas.transform().pre_translate(piece.x, piece.y);
        resvg::render(&tree, to_px, &mut canvas.pixmap_mut().as_mut());
    }
}
