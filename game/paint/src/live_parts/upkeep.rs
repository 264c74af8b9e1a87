//! What a neglected sampler shows: nests and snow in its openings, a tripped outlet, a cut cord, and
//! trouble with the recorder's tubing.

use sim_core::rig::parts::Stopper;
use sim_core::session::view::View;

use super::super::canvas::{Canvas, LineWeight, Point, ellipse_path};
use super::super::palette;
use super::super::scene::anchor;

/// What lies in the exhaust.
pub fn in_the_exhaust(canvas: &mut Canvas, view: &View, _phase: f32) {
    if let Some(by) = view.mounting.exhaust {
        for end in ["exhaust_left", "exhaust_right"] {
            let at = anchor("shelter", end);
            stopper(canvas, (at.0, at.1 - 13.0), (24.0, 11.0), by);
        }
    }
}

/// What lies in the gap under the lid.
pub fn in_the_inlet(canvas: &mut Canvas, view: &View, _phase: f32) {
    if let Some(by) = view.mounting.inlet {
        let at = anchor("lid_closed", "intake_left");
        let at = if view.mounting.lid_open { (at.0 + 14.0, at.1 - 18.0) } else { at };
        stopper(canvas, at, (20.0, 10.0), by);
    }
}

/// A nest of grey paper cells, or a cushion of snow, about a point.
pub fn stopper(canvas: &mut Canvas, at: Point, half: Point, by: Stopper) {
    let Some(body) = ellipse_path(at, half) else { return };
    let ink = palette::INK.color();
    match by {
        Stopper::Nest => {
            canvas.fill(&body, palette::WOOD.color());
            canvas.hatch(&body, 55.0, 3.2, palette::INK_SOFT.color(), LineWeight(0.8));
            canvas.stroke(&body, ink, LineWeight(1.4));
            for share in [-0.5, 0.0, 0.5] {
                let cell = (at.0 + share * half.0, at.1 + 0.2 * half.1);
                canvas.disc(cell, 0.22 * half.1, ink, None);
            }
        }
        Stopper::Snow => {
            canvas.fill(&body, palette::PAPER.color());
            canvas.stroke(&body, palette::INK_SOFT.color(), LineWeight(1.2));
            for (x, y) in [(-0.5, 0.1), (-0.1, -0.3), (0.3, 0.2), (0.6, -0.1)] {
                let fleck = (at.0 + x * half.0, at.1 + y * half.1);
                canvas.disc(fleck, 0.1 * half.1, palette::INK_FAINT.color(), None);
            }
        }
    }
}

/// The reset button of a tripped outlet, standing out.
pub fn reset_button(canvas: &mut Canvas, view: &View, _phase: f32) {
    let socket = anchor("mains_outlet", "sampler_socket");
    let ink = Some((palette::INK.color(), LineWeight(1.4)));
    if view.power.outlet_tripped {
        let at = (socket.0 - 8.0, socket.1 + 20.0);
        canvas.rect((at.0 + 2.0, at.1 + 2.0), (16.0, 9.0), palette::INK_FAINT.color(), None);
        canvas.rect(at, (16.0, 9.0), palette::COPPER.color(), ink);
    }
}

/// The cut in a damaged cord, below the outlet.
pub fn cut_in_the_cord(canvas: &mut Canvas, view: &View, _phase: f32) {
    let socket = anchor("mains_outlet", "sampler_socket");
    if view.power.cord_damaged {
        // The extension cord comes up to the outlet from below: a cut with bare copper.
        let at = (socket.0 + 22.0, socket.1 + 96.0);
        canvas.line(
            (at.0, at.1 - 8.0),
            (at.0, at.1 + 24.0),
            palette::RUBBER.color(),
            LineWeight(5.0),
        );
        let cut = [
            (at.0 - 3.0, at.1 + 2.0),
            (at.0 + 1.0, at.1 + 6.0),
            (at.0 - 1.0, at.1 + 9.0),
            (at.0 + 3.0, at.1 + 13.0),
        ];
        canvas.polyline(&cut, palette::COPPER.color(), LineWeight(2.6));
    }
}

/// What is wrong with the recorder's tubing at its fitting.
pub fn recorder_line(canvas: &mut Canvas, view: &View, _phase: f32) {
    let seen = &view.recorder;
    if !(seen.line_off || seen.line_kinked || seen.line_drops) {
        return;
    }
    let fitting = anchor("recorder", "static_line");
    let free = (fitting.0 - 12.0, fitting.1 + 22.0);
    let end = if seen.line_off { free } else { fitting };
    let wall = anchor("shelter", "static_line_wall");
    let low = (wall.0 + 22.0, wall.1 + 10.0);
    let tubing = [wall, low, (end.0 - 4.0, wall.1 + 8.0), end];
    canvas.polyline(&tubing, palette::INK.color(), LineWeight(6.4));
    canvas.polyline(&tubing, palette::RUBBER.color(), LineWeight(4.2));
    if seen.line_off {
        canvas.disc(
            free,
            3.0,
            palette::PAGE.color(),
            Some((palette::INK.color(), LineWeight(1.4))),
        );
    }
    if seen.line_kinked {
        let ink = palette::INK.color();
        for side in [-4.0, 4.0] {
            let mark = [(low.0 + side, low.1 - 6.0), (low.0, low.1), (low.0 + side, low.1 + 6.0)];
            canvas.polyline(&mark, ink, LineWeight(1.7));
        }
    }
    if seen.line_drops {
        for along in [6.0, 12.0, 18.0] {
            canvas.disc(
                (low.0 + along, low.1),
                1.8,
                palette::GLASS.color(),
                Some((palette::WATER.color(), LineWeight(0.8))),
            );
        }
    }
}
