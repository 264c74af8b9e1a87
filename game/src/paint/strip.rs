//! A whole session as one strip of paper, from its beginning at the left to its end at the right: the
//! phases of the work, waits, readings, remarks and findings, and what manometer and pen traced. What
//! was true is drawn beside it on asking.

mod lanes;
mod marks;

use resvg::tiny_skia::Pixmap;
use sim_core::marking::Marks;
use sim_core::marking::time_line::{TimeLine, TimeScale, Wait, WaitKind};
use sim_core::session::history::GaugeSample;
use sim_core::time::{Tick, TimeOfDay};

use super::canvas::{Align, Canvas, Line, Type};
use super::palette::{INK, INK_FAINT, INK_SOFT, PAGE};
use super::text::{self, Style};

/// Size of lettering, units.
const TYPE: f32 = 13.0;
/// Room at the right edge, units.
const RIGHT: f32 = 12.0;
/// Room above and below, units.
const EDGE: f32 = 6.0;
/// Height of the band of phases.
const PHASES: f32 = 22.0;
/// Height of the band of waits.
const WAITS: f32 = 9.0;
/// Height of the row of marks.
const MARKS: f32 = 20.0;
/// Height of a trace.
const TRACE: f32 = 62.0;
/// Room above a trace.
const GAP: f32 = 8.0;

/// What is drawn.
#[derive(Debug, Clone, Copy)]
pub struct Strip<'a> {
    /// The phases, waits and notes.
    pub line: &'a TimeLine,
    /// The marks, for the weight of findings.
    pub marks: &'a Marks,
    /// What was traced.
    pub samples: &'a [GaugeSample],
    /// The hour at which the session began.
    pub start: TimeOfDay,
    /// Whether what was true is drawn as well.
    pub truth: Truth,
}

/// Whether what was true is shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Truth {
    /// Only what could be seen.
    #[default]
    Hidden,
    /// What was true beside it.
    Shown,
}

/// How the strip lies on the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Laid {
    /// Its width, units (pixels of the screen before its own scale).
    pub width: f32,
    /// How much larger than usual lettering is.
    pub text_scale: f32,
}

impl Laid {
    /// Room at the left for the names of the lanes, units.
    pub fn gutter(self) -> f32 {
        let names = lanes::NAMES.iter().map(|name| text::width(Style::Italic, TYPE, name));
        (names.fold(0.0, f32::max) + 12.0) * self.text_scale
    }

    /// Room at the right, units.
    pub fn right(self) -> f32 {
        RIGHT * self.text_scale
    }

    /// Height of the strip, units.
    pub fn height(self, truth: Truth) -> f32 {
        let traces = lanes::count(truth) as f32 * (TRACE + GAP);
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

/// The strip, `px` pixels to a unit.
pub fn paint(strip: &Strip<'_>, laid: Laid, px: f32) -> Pixmap {
    let height = laid.height(strip.truth);
    let size = [laid.width, height].map(|length| (length * px).round().max(1.0) as u32);
    let mut canvas = Canvas::new(size[0], size[1], px);
    canvas.wash(PAGE.color());
    let sheet = Sheet { laid, scale: TimeScale::of(strip.line), unit: laid.text_scale };
    let top = marks::draw(&mut canvas, strip, &sheet);
    let bottom = lanes::draw(&mut canvas, strip, &sheet, top);
    hours(&mut canvas, strip, &sheet, (EDGE * sheet.unit, bottom));
    canvas.finish()
}

/// Where things lie on the strip.
struct Sheet {
    laid: Laid,
    scale: TimeScale,
    /// Units to a unit of the drawing at usual lettering.
    unit: f32,
}

impl Sheet {
    fn x(&self, tick: Tick) -> f32 {
        self.laid.x(self.scale.share(tick))
    }

    fn left(&self) -> f32 {
        self.laid.x(0.0)
    }

    fn right(&self) -> f32 {
        self.laid.x(1.0)
    }

    fn size(&self) -> f32 {
        TYPE * self.unit
    }

    /// The name of a lane, its middle at `y`.
    fn name(&self, canvas: &mut Canvas, y: f32, name: &str) {
        let set = Type::new(Style::Italic, self.size(), INK_SOFT).align(Align::End);
        canvas.text((self.left() - 6.0 * self.unit, y + 0.35 * self.size()), name, set);
    }
}

/// Steps between two hours that are written, min.
const STEPS_MIN: [u64; 7] = [1, 2, 5, 10, 15, 30, 60];

/// The hours of the watch along the foot, with faint lines up through the lanes.
fn hours(canvas: &mut Canvas, strip: &Strip<'_>, sheet: &Sheet, (top, bottom): (f32, f32)) {
    let set = Type::new(Style::Regular, sheet.size(), INK);
    let room = text::width(Style::Regular, sheet.size(), "00:00") + 2.0 * sheet.size();
    let (left, right) = (sheet.left(), sheet.right());
    canvas.line((left, bottom), (right, bottom), INK.color(), Line::THIN);
    let per_minute = sheet.scale.per_minute() as f32 * (right - left);
    let away = |tick: Tick| {
        let is_in = |wait: &Wait| wait.kind == WaitKind::Away && wait.from < tick && tick < wait.to;
        strip.line.waits.iter().any(is_in)
    };
    let step = STEPS_MIN.into_iter().find(|step| *step as f32 * per_minute >= room).unwrap_or(120);
    let (hour, minute, second) = strip.start.parts();
    let begun_s = u64::from(hour) * 3600 + u64::from(minute) * 60 + u64::from(second);
    let step_s = step * 60;
    let mut end_of_last = f32::NEG_INFINITY;
    let mut at_s = begun_s.next_multiple_of(step_s) - begun_s;
    while Tick::from_seconds(at_s) <= strip.line.end {
        let tick = Tick::from_seconds(at_s);
        let x = sheet.x(tick);
        let whole_hour = (begun_s + at_s).is_multiple_of(3600);
        at_s += step_s;
        // Where an hour is as short as a minute, minutes would say nothing.
        if x - end_of_last < room || away(tick) && !whole_hour {
            continue;
        }
        end_of_last = x;
        canvas.line((x, top), (x, bottom), INK_FAINT.faded(0.45), Line::FINE);
        canvas.line((x, bottom), (x, bottom + 4.0 * sheet.unit), INK.color(), Line::THIN);
        let (hour, minute, _) = strip.start.after(tick).parts();
        // A text before the first may hang into the gutter, one behind the last must not go beyond.
        let half = 0.5 * text::width(Style::Regular, sheet.size(), "00:00");
        if x + half <= sheet.laid.width {
            let at = (x, bottom + 4.0 * sheet.unit + sheet.size());
            canvas.text(at, &format!("{hour:02}:{minute:02}"), set.align(Align::Middle));
        }
    }
}
