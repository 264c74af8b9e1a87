//! The recorder's round chart and its pen, as geometry: where a reading lies on the paper.
//!
//! Lengths are the scene's units, seen from the hub, y down; angles are degrees clockwise from the
//! right. The pen swings about a pivot beside the chart, so hours are arcs of its circle.

use sim_core::rig::recorder::RecorderKind;
use sim_core::session::view::RecorderView;

/// Radius of the circle of division 0.
pub const R0: f64 = 20.0;
/// Width of the ruling: the last division lies at 100.
pub const WIDTH: f64 = 80.0;
/// Length of the pen's arm, pivot to nib.
pub const ARM: f64 = 128.0;
/// The pivot, from the hub.
pub const PIVOT: (f64, f64) = (97.0, -97.0);
/// Turn of the chart in one hour, degrees.
pub const DEG_PER_HOUR: f64 = 15.0;
/// Radius to which a capped pen is swung, outside the ruling.
pub const PARKED_RADIUS: f64 = 104.0;
/// Edge of the paper.
pub const PAPER_RADIUS: f64 = 107.0;
/// The pen leaves a point at least every 20 s while it writes, and every minute while nobody is there:
/// a longer gap in the trace is one where it was lifted. Hours.
const LIFTED_HOURS: f64 = 70.0 / 3600.0;

/// How a chart is ruled from its hub outwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ruling {
    /// Whether its circles lie evenly.
    even: bool,
    /// Its last division.
    last: f64,
}

impl Ruling {
    /// That of the chart on a recorder. The pen travels evenly with what drives it, so the divisions of
    /// a square-root chart lie at the square of the reading, those of the other kinds evenly.
    pub fn of(seen: &RecorderView) -> Self {
        let even = seen.scale != RecorderKind::SquareRoot;
        Self { even, last: seen.printed_to.max(1.0) }
    }

    /// Its last division.
    pub const fn last(self) -> f64 {
        self.last
    }

    /// The drawing of the paper that it is printed on.
    pub const fn drawing(self) -> &'static str {
        if self.even { "chart_even" } else { "chart" }
    }

    /// Radius of a reading, chart divisions. Below zero the pen goes on inwards by as much as it goes
    /// outwards above it.
    pub fn radius(self, divisions: f64) -> f64 {
        let share = (divisions / self.last).clamp(-0.14, 1.04);
        R0 + WIDTH * if self.even { share } else { share * share.abs() }
    }

    /// Where an hour and a reading of the paper lie.
    pub fn on_paper(self, hour_under_pen: f64, hour: f64, divisions: f64) -> (f64, f64) {
        ruled(hour_under_pen, hour, self.radius(divisions))
    }
}

/// Where the nib is at a radius.
pub fn nib(radius: f64) -> (f64, f64) {
    at(radius, nib_deg(radius))
}

/// Angle of the nib at a radius, seen from the hub.
pub fn nib_deg(radius: f64) -> f64 {
    let distance = PIVOT.0.hypot(PIVOT.1);
    let cosine = (radius * radius + distance * distance - ARM * ARM) / (2.0 * radius * distance);
    let pivot_deg = PIVOT.1.atan2(PIVOT.0).to_degrees();
    pivot_deg - cosine.clamp(-1.0, 1.0).acos().to_degrees()
}

/// How far the chart has turned, clockwise, with an hour under the pen: where paper printed for
/// `hour` lies, past the pen's path.
pub fn turned_deg(hour_under_pen: f64, hour: f64) -> f64 {
    DEG_PER_HOUR * (hour_under_pen - hour)
}

/// Where an hour of the paper lies at a radius.
pub fn ruled(hour_under_pen: f64, hour: f64, radius: f64) -> (f64, f64) {
    at(radius, nib_deg(radius) + turned_deg(hour_under_pen, hour))
}

/// Direction of the arm from its pivot to the nib at a radius.
pub fn arm_deg(radius: f64) -> f64 {
    let (x, y) = nib(radius);
    // The arm always points to the left, where angles pass from 180 to -180: counted on from 0.
    (y - PIVOT.1).atan2(x - PIVOT.0).to_degrees().rem_euclid(360.0)
}

/// What the trace reads at an hour; of the newest ink where there is more than one.
pub fn inked_at(trace: &[(f64, f64)], hour: f64) -> Option<f64> {
    let off = |at: f64| {
        let turned = (at - hour).rem_euclid(24.0);
        turned.min(24.0 - turned)
    };
    let nearest = trace.iter().rev().min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
    nearest.map(|&(_, divisions)| divisions)
}

/// What the trace of a run reads at an hour: of the ink above `least`, where there is any, as a pen
/// that rests before and after the run draws over the same hours.
pub fn drawn_at(trace: &[(f64, f64)], hour: f64, least: f64) -> Option<f64> {
    let near = |&&(at, divisions): &&(f64, f64)| {
        let turned = (at - hour).rem_euclid(24.0);
        turned.min(24.0 - turned) < NEAR_HOURS && divisions >= least
    };
    let off = |at: f64| {
        let turned = (at - hour).rem_euclid(24.0);
        turned.min(24.0 - turned)
    };
    let high = trace.iter().filter(near).min_by(|a, b| off(a.0).total_cmp(&off(b.0)));
    high.map(|&(_, divisions)| divisions).or_else(|| inked_at(trace, hour))
}

/// So far from an hour the ink still counts as drawn at it, hours.
const NEAR_HOURS: f64 = 0.06;

/// The trace as unbroken strokes of the pen.
pub fn strokes(trace: &[(f64, f64)]) -> impl Iterator<Item = &[(f64, f64)]> {
    trace.chunk_by(|before, after| {
        let hours = (after.0 - before.0).rem_euclid(24.0);
        hours < LIFTED_HOURS
    })
}

fn at(radius: f64, deg: f64) -> (f64, f64) {
    let turned = deg.to_radians();
    (radius * turned.cos(), radius * turned.sin())
}
