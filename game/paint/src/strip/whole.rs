//! The whole strip: marks above, traces below, hours along the foot.

use resvg::tiny_skia::Pixmap;
use sim_core::marking::time_line::{TimeScale, Wait, WaitKind};
use sim_core::time::Tick;

use super::super::canvas::{Canvas, Lettering, LineWeight, TextAlign};
use super::super::palette::{INK, INK_FAINT, PAGE};
use super::super::text::{self, FontStyle};
use super::layout::{EDGE, StripLayout, StripScale, TimelineStrip};
use super::{lanes, marks};

/// The strip, `px` pixels to a unit.
pub fn paint(strip: &TimelineStrip<'_>, laid: StripLayout, px: f32) -> Pixmap {
    let height = laid.height(strip.truth);
    let size = [laid.width, height].map(|length| (length * px).round().max(1.0) as u32);
    let mut canvas = Canvas::new(size[0], size[1], px);
    canvas.wash(PAGE.color());
    let sheet = StripScale { laid, scale: TimeScale::of(strip.line), unit: laid.text_scale };
    let top = marks::draw(&mut canvas, strip, &sheet);
    let bottom = lanes::draw(&mut canvas, strip, &sheet, top);
    hours(&mut canvas, strip, &sheet, (EDGE * sheet.unit, bottom));
    canvas.finish()
}

/// Steps between two hours that are written, min.
const STEPS_MIN: [u64; 7] = [1, 2, 5, 10, 15, 30, 60];

/// The hours of the watch along the foot, with faint lines up through the lanes.
fn hours(
    canvas: &mut Canvas,
    strip: &TimelineStrip<'_>,
    sheet: &StripScale,
    (top, bottom): (f32, f32),
) {
    let set = Lettering::new(FontStyle::Regular, sheet.size(), INK);
    let room = text::width(FontStyle::Regular, sheet.size(), "00:00") + 2.0 * sheet.size();
    let (left, right) = (sheet.left(), sheet.right());
    canvas.line((left, bottom), (right, bottom), INK.color(), LineWeight::THIN);
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
        // Where an hour is drawn as short as a minute, minutes would be meaningless.
        if x - end_of_last < room || away(tick) && !whole_hour {
            continue;
        }
        end_of_last = x;
        canvas.line((x, top), (x, bottom), INK_FAINT.faded(0.45), LineWeight::FINE);
        canvas.line((x, bottom), (x, bottom + 4.0 * sheet.unit), INK.color(), LineWeight::THIN);
        let (hour, minute, _) = strip.start.after(tick).parts();
        // The first text may reach into the gutter; the last one must not leave the strip.
        let half = 0.5 * text::width(FontStyle::Regular, sheet.size(), "00:00");
        if x + half <= sheet.laid.width {
            let at = (x, bottom + 4.0 * sheet.unit + sheet.size());
            canvas.text(at, &format!("{hour:02}:{minute:02}"), set.align(TextAlign::Middle));
        }
    }
}
