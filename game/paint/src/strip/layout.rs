//! What a strip shows, and where it lies on it.

use sim_core::marking::Marks;
use sim_core::marking::time_line::{TimeLine, TimeScale};
use sim_core::session::history::GaugeSample;
use sim_core::time::{Tick, TimeOfDay};

use super::super::canvas::{Canvas, Lettering, TextAlign};
use super::super::palette::INK_SOFT;
use super::super::text::{self, FontStyle};

/// Size of lettering, units.
pub(super) const TYPE: f32 = 13.0;
/// Room at the right edge, units.
const RIGHT: f32 = 12.0;
/// Room above and below, units.
pub(super) const EDGE: f32 = 6.0;
/// Height of the band of phases.
pub(super) const PHASES: f32 = 22.0;
/// Height of the band of waits.
pub(super) const WAITS: f32 = 9.0;
/// Height of the row of marks.
pub(super) const MARKS: f32 = 20.0;
/// Height of a trace.
pub(super) const TRACE: f32 = 62.0;
/// Room above a trace.
pub(super) const GAP: f32 = 8.0;

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub struct TimelineStrip<'a> {
    /// The phases, waits and notes.
    pub line: &'a TimeLine,
    /// The marks, for the weight of findings.
    pub marks: &'a Marks,
    /// What was traced.
    pub samples: &'a [GaugeSample],
    /// The hour at which the session began.
    pub start: TimeOfDay,
    /// Whether what was true is drawn as well.
    pub truth: ShowTruth,
}

/// Whether what was true is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum ShowTruth {
    /// Only what could be seen.
    #[default]
    Hidden,
    /// What was true beside it.
    Shown,
}

/// Names of everything that is drawn, for the room that they take.
const NAMES: [&str; 6] = ["phases", "waits", "events", "legs, in", "pen", "flow, m\u{b3}/min"];

/// How many traces there are.
const fn traces(truth: ShowTruth) -> usize {
    match truth {
        ShowTruth::Hidden => 2,
        ShowTruth::Shown => 3,
    }
}

/// How the strip lies on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StripLayout {
    /// Its width, units (pixels of the screen before its own scale).
    pub width: f32,
    /// How much larger than usual lettering is.
    pub text_scale: f32,
}

impl StripLayout {
    /// Room at the left for the names of the lanes, units.
    pub fn gutter(self) -> f32 {
        let names = NAMES.iter().map(|name| text::width(FontStyle::Italic, TYPE, name));
        (names.fold(0.0, f32::max) + 12.0) * self.text_scale
    }

    /// Room at the right, units.
    pub fn right(self) -> f32 {
        RIGHT * self.text_scale
    }

    /// Height of the strip, units.
    pub fn height(self, truth: ShowTruth) -> f32 {
        let traces = traces(truth) as f32 * (TRACE + GAP);
        (EDGE + PHASES + WAITS + MARKS + traces + 2.0 * TYPE + EDGE) * self.text_scale
    }

    /// Where a share of the session lies, from the left, units.
    pub fn x(self, share: f64) -> f32 {
        let (left, right) = (self.gutter(), self.width - self.right());
        left + share as f32 * (right - left)
    }

    /// The share of the session that lies at a place, from the left, units.
    pub fn share(self, x: f32) -> f64 {
        let (left, right) = (self.gutter(), self.width - self.right());
        if right > left { f64::from((x - left) / (right - left)).clamp(0.0, 1.0) } else { 0.0 }
    }
}

/// Where things lie on the strip.
pub(super) struct StripScale {
    pub(super) laid: StripLayout,
    pub(super) scale: TimeScale,
    /// Units to a unit of the drawing at usual lettering.
    pub(super) unit: f32,
}

impl StripScale {
    pub(super) fn x(&self, tick: Tick) -> f32 {
        self.laid.x(self.scale.share(tick))
    }

    pub(super) fn left(&self) -> f32 {
        self.laid.x(0.0)
    }

    pub(super) fn right(&self) -> f32 {
        self.laid.x(1.0)
    }

    pub(super) fn size(&self) -> f32 {
        TYPE * self.unit
    }

    /// The name of a lane, its middle at `y`.
    pub(super) fn name(&self, canvas: &mut Canvas, y: f32, name: &str) {
        let set = Lettering::new(FontStyle::Italic, self.size(), INK_SOFT).align(TextAlign::End);
        canvas.text((self.left() - 6.0 * self.unit, y + 0.35 * self.size()), name, set);
    }
}
