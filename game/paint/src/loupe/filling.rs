//! What is seen in the glass of a leg beside clear water: ice with its cracks, needles of slush, and dirt
//! with drops that cling above the meniscus.

use sim_core::rig::manometer::IceLook;
use sim_core::session::view::View;

use super::field_of_view::SHEET;
use crate::canvas::{Canvas, LineWeight};
use crate::palette;

/// Cracks through ice, as lines of points: across the bore (-1 to 1), and units below the meniscus.
const CRACKS: [[(f32, f32); 4]; 4] = [
    [(-0.9, 8.0), (-0.2, 26.0), (0.3, 34.0), (0.9, 58.0)],
    [(0.8, 70.0), (0.1, 88.0), (-0.3, 104.0), (-0.9, 112.0)],
    [(-0.7, 128.0), (-0.1, 140.0), (0.5, 166.0), (0.8, 190.0)],
    [(0.9, 14.0), (0.5, 20.0), (0.3, 34.0), (0.2, 48.0)],
];
/// Needles of ice in slush: where each begins, and how it leans.
const NEEDLES: [(f32, f32, f32); 9] = [
    (-0.9, 6.0, 0.5),
    (0.9, 16.0, -0.5),
    (-0.8, 34.0, 0.7),
    (0.8, 47.0, -0.4),
    (-0.9, 66.0, 0.4),
    (0.9, 84.0, -0.6),
    (-0.8, 104.0, 0.6),
    (0.8, 122.0, -0.5),
    (-0.9, 146.0, 0.5),
];
/// Specks of dirt in the water, and drops on the glass above it: across the bore, units from the
/// meniscus, radius.
const SPECKS: [(f32, f32, f32); 10] = [
    (-0.5, 12.0, 1.6),
    (0.3, 21.0, 1.1),
    (0.7, 38.0, 1.8),
    (-0.2, 52.0, 1.3),
    (-0.7, 71.0, 1.5),
    (0.5, 83.0, 1.2),
    (0.1, 101.0, 1.7),
    (-0.4, 124.0, 1.2),
    (0.6, 139.0, 1.6),
    (-0.6, 158.0, 1.3),
];
const DROPS: [(f32, f32, f32); 6] = [
    (-0.88, 14.0, 3.2),
    (0.86, 22.0, 2.6),
    (-0.9, 41.0, 2.4),
    (0.9, 57.0, 3.0),
    (-0.87, 78.0, 2.0),
    (0.88, 96.0, 2.2),
];

/// Draws it over the water of a leg with its axis at `x` and this half bore; `low` and `rim` are the
/// lowest edge and the rim of its meniscus.
pub(super) fn draw(canvas: &mut Canvas, view: &View, x: f32, bore: f32, (low, rim): (f32, f32)) {
    match view.manometer.ice {
        IceLook::None => {}
        IceLook::Slush => slush(canvas, x, bore, low),
        IceLook::Solid => ice(canvas, x, bore, low),
    }
    if view.manometer.dirty {
        dirt(canvas, x, bore, (low, rim));
    }
}

/// White throughout, with cracks.
fn ice(canvas: &mut Canvas, x: f32, bore: f32, low: f32) {
    veil(canvas, x, bore, low, 0.82);
    for crack in CRACKS {
        let points = crack.map(|(across, below)| (x + bore * across, low + below));
        canvas.polyline(&points, palette::INK_SOFT.color(), LineWeight(1.2));
    }
}

/// Needles that grow in from the glass, in water that has gone milky.
fn slush(canvas: &mut Canvas, x: f32, bore: f32, low: f32) {
    veil(canvas, x, bore, low, 0.3);
    for (across, below, lean) in NEEDLES {
        let from = (x + bore * across, low + below);
        let to = (x + bore * (across + lean), low + below + 11.0);
        canvas.line(from, to, palette::FILTER.color(), LineWeight(2.0));
    }
}

/// A white veil over the water.
fn veil(canvas: &mut Canvas, x: f32, bore: f32, low: f32, opacity: f32) {
    let size = (2.0 * bore, (SHEET + 10.0 - low).max(0.01));
    canvas.rect((x - bore, low), size, palette::FILTER.faded(opacity), None);
}

/// Specks in the water and drops on the glass above.
fn dirt(canvas: &mut Canvas, x: f32, bore: f32, (low, rim): (f32, f32)) {
    let size = (2.0 * bore, (SHEET + 10.0 - low).max(0.01));
    canvas.rect((x - bore, low), size, palette::GASKET.faded(0.3), None);
    for (across, below, radius) in SPECKS {
        canvas.disc((x + bore * across, low + below), radius, palette::INK_SOFT.color(), None);
    }
    for (across, above, radius) in DROPS {
        let edge = Some((palette::WATER_DEEP.color(), LineWeight::FINE));
        let at = (x + bore * across, rim - above);
        canvas.disc(at, radius, palette::WATER.faded(0.6), edge);
    }
}
