//! The timer where a run is ordered: dial with hours, day in its window, trippers with their days, the
//! meter of running time, and the switch.

use content::names::weekday;
use resvg::tiny_skia::Transform;
use sim_core::rig::parts::TimerSwitch;
use sim_core::session::view::run::{DialView, TripperView};

use super::field_of_view::{CENTRE, Subject, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, TextAlign, on_circle};
use crate::palette;
use crate::text::{self, FontStyle};

/// Axis of the dial, and its edge.
const AXIS: Point = (140.0, 118.0);
const EDGE: f32 = 92.0;
/// Turn of the dial in an hour, degrees.
const DEG_PER_HOUR: f64 = 15.0;
/// Marks of the dial in an hour: five minutes each.
const MARKS_PER_HOUR: u16 = 12;
/// Upper left corner of the meter's first drum, size of a drum, and how many there are.
pub const DRUM: Point = (84.0, 226.0);
/// Width and height of a drum.
pub const DRUM_SIZE: Point = (16.0, 21.0);
/// Drums of the meter: minutes, and tenths on the last.
pub const DRUMS: usize = 7;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, dial: &DialView) {
    canvas.wash(palette::PAGE.color());
    canvas.disc(
        AXIS,
        EDGE + 7.0,
        palette::STEEL.color(),
        Some((palette::INK.color(), LineWeight::HEAVY)),
    );
    let turned = |hours: f64| (DEG_PER_HOUR * (dial.hours - hours) - 90.0) as f32;
    canvas.disc(
        AXIS,
        EDGE,
        palette::CHART_PAPER.color(),
        Some((palette::INK.color(), LineWeight::MEDIUM)),
    );
    for mark in 0..24 * MARKS_PER_HOUR {
        let deg = turned(f64::from(mark) / f64::from(MARKS_PER_HOUR));
        let (length, line) = match mark % MARKS_PER_HOUR {
            0 => (13.0, LineWeight(1.8)),
            6 => (9.0, LineWeight(1.2)),
            3 | 9 => (7.0, LineWeight(1.0)),
            _ => (4.0, LineWeight(0.7)),
        };
        let ends = (on_circle(AXIS, EDGE - 1.0, deg), on_circle(AXIS, EDGE - length, deg));
        canvas.line(ends.0, ends.1, palette::INK.color(), line);
    }
    for hour in 0..24_u8 {
        let deg = turned(f64::from(hour));
        let (style, size) =
            if hour % 6 == 0 { (FontStyle::SemiBold, 13.0) } else { (FontStyle::Regular, 10.0) };
        let at = on_circle(AXIS, EDGE - 22.0, deg);
        upright(
            canvas,
            at,
            deg + 90.0,
            &hour.to_string(),
            Lettering::new(style, size, palette::INK),
        );
    }
    for (tripper, sort) in [(&dial.on, Sort::On), (&dial.off, Sort::Off)] {
        trip(canvas, tripper, turned(tripper.hours), sort);
    }
    hub(canvas, subject, dial);
    index(canvas);
    meter(canvas, dial.meter_min);
    switch(canvas, subject);
}

/// Text turned about its middle.
fn upright(canvas: &mut Canvas, at: Point, turned_deg: f32, words: &str, set: Lettering) {
    let place = Transform::from_translate(at.0, at.1).pre_rotate(turned_deg);
    let down = 0.36 * set.size;
    canvas.within(place, |canvas| canvas.text((0.0, down), words, set.align(TextAlign::Middle)));
}

#[derive(Clone, Copy, PartialEq)]
enum Sort {
    On,
    Off,
}

/// A tripper on the rim: its straight edge is its hour; a tag carries its day.
fn trip(canvas: &mut Canvas, tripper: &TripperView, deg: f32, sort: Sort) {
    // The on tripper lies on the later side of its edge, the off tripper on the earlier.
    let side = if sort == Sort::On { 1.0 } else { -1.0 };
    let ink = Some((palette::INK.color(), LineWeight::THIN));
    let hue = if sort == Sort::On { palette::COPPER } else { palette::INK };
    let place = Transform::from_translate(AXIS.0, AXIS.1).pre_rotate(deg + 90.0);
    let day = tripper.weekday.map_or_else(|| "all".to_owned(), short);
    canvas.within(place, |canvas| {
        let tip = -(EDGE - 2.0);
        let body =
            [(0.0, tip), (side * 9.0, tip - 11.0), (side * 9.0, tip - 14.0), (0.0, tip - 14.0)];
        canvas.polygon(&body, hue.color(), ink);
        let tag = if side > 0.0 { (0.0, tip - 28.0) } else { (-48.0, tip - 28.0) };
        canvas.rect(tag, (48.0, 14.0), palette::PAGE.color(), ink);
        let name = if sort == Sort::On { "on" } else { "off" };
        let set = Lettering::new(FontStyle::SemiBold, 10.5, palette::INK).align(TextAlign::Middle);
        canvas.text((tag.0 + 24.0, tag.1 + 10.8), &format!("{name} {day}"), set);
        if tripper.loose == Some(true) {
            // It has slipped half out from under its screw.
            canvas.line(
                (side * 2.0, tip - 12.5),
                (side * 12.0, tip - 8.0),
                palette::COPPER.color(),
                LineWeight::MEDIUM,
            );
        }
    });
}

/// Three letters of a day.
fn short(day: u8) -> String {
    weekday(day).chars().take(3).collect::<String>().to_uppercase()
}

/// The hub with the window for the day of the week.
fn hub(canvas: &mut Canvas, subject: &Subject, dial: &DialView) {
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    canvas.disc(AXIS, 50.0, palette::STEEL.color(), ink);
    canvas.disc(
        AXIS,
        46.0,
        palette::PAPER.color(),
        Some((palette::INK_SOFT.color(), LineWeight::FINE)),
    );
    canvas.rect((AXIS.0 - 24.0, AXIS.1 - 34.0), (48.0, 22.0), palette::PAGE.color(), ink);
    let set = Lettering::new(FontStyle::SemiBold, subject.size(15.0, 1.15), palette::INK);
    label(canvas, (AXIS.0, AXIS.1 - 23.0), &short(dial.weekday), set);
    // The grip by which the dial is turned.
    canvas.disc((AXIS.0, AXIS.1 + 12.0), 20.0, palette::STEEL_SHADE.color(), ink);
    let turned = (DEG_PER_HOUR * dial.hours) as f32;
    let place = Transform::from_translate(AXIS.0, AXIS.1 + 12.0).pre_rotate(turned);
    canvas.within(place, |canvas| {
        canvas.rect((-16.0, -4.0), (32.0, 8.0), palette::BRASS.color(), ink);
    });
}

/// The pointer under which the hour is read.
fn index(canvas: &mut Canvas) {
    let (x, top) = (AXIS.0, AXIS.1 - EDGE);
    let ink = Some((palette::INK.color(), LineWeight::THIN));
    canvas.polygon(
        &[(x, top + 15.0), (x - 6.0, top + 27.0), (x + 6.0, top + 27.0)],
        palette::COPPER.color(),
        ink,
    );
}

/// Running time: five drums of minutes and, after the point, one of tenths.
fn meter(canvas: &mut Canvas, minutes: f64) {
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    let width = DRUM_SIZE.0 * DRUMS as f32;
    canvas.rect(
        (DRUM.0 - 5.0, DRUM.1 - 5.0),
        (width + 10.0, DRUM_SIZE.1 + 10.0),
        palette::STEEL_SHADE.color(),
        ink,
    );
    for (place, digit) in digits(minutes).into_iter().enumerate() {
        let at = (DRUM.0 + DRUM_SIZE.0 * place as f32, DRUM.1);
        drum(canvas, at, digit, Drum::at(place));
    }
    let set = Lettering::new(FontStyle::Italic, 9.5, palette::INK_SOFT).align(TextAlign::Start);
    canvas.text((DRUM.0 + width + 8.0, DRUM.1 + 15.0), "min", set);
}

/// Which drum of the meter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drum {
    /// One of the whole minutes.
    Minutes,
    /// The last: dark, its figure light.
    Tenths,
}

impl Drum {
    /// The drum at a place, counted from the left.
    pub const fn at(place: usize) -> Self {
        if place + 1 == DRUMS { Self::Tenths } else { Self::Minutes }
    }
}

/// One drum of the meter.
pub fn drum(canvas: &mut Canvas, at: Point, digit: u8, which: Drum) {
    let (paper, figure) = match which {
        Drum::Minutes => (palette::PAGE, palette::INK),
        Drum::Tenths => (palette::COPPER, palette::PAGE),
    };
    let ink = Some((palette::INK.color(), LineWeight::THIN));
    canvas.rect(at, DRUM_SIZE, paper.color(), ink);
    let set = Lettering::new(FontStyle::SemiBold, 16.0, figure).align(TextAlign::Middle);
    canvas.text((at.0 + 0.5 * DRUM_SIZE.0, at.1 + 16.2), &digit.to_string(), set);
}

/// The figures of the meter, tenths last.
fn digits(minutes: f64) -> [u8; DRUMS] {
    let mut tenths = (minutes.max(0.0) * 10.0 + 1e-6).floor();
    let mut digits = [0; DRUMS];
    for digit in digits.iter_mut().rev() {
        *digit = (tenths % 10.0) as u8;
        tenths = (tenths / 10.0).floor();
    }
    digits
}

/// The position of the switch, in words on its plate.
fn switch(canvas: &mut Canvas, subject: &Subject) {
    let words = match subject.view.power.timer_switch {
        TimerSwitch::On => "switch: on",
        TimerSwitch::Off => "switch: off",
        TimerSwitch::Auto => "switch: auto",
    };
    let size = subject.size(10.5, 1.2);
    let width = text::width(FontStyle::Italic, size, words);
    debug_assert!(width < 140.0, "{words} is too wide");
    label(
        canvas,
        (CENTRE.0, 263.0),
        words,
        Lettering::new(FontStyle::Italic, size, palette::INK_SOFT),
    );
}

#[cfg(test)]
mod tests {
    use super::digits;

    #[test]
    fn the_meter_shows_whole_tenths() {
        assert_eq!(digits(12_345.6), [0, 1, 2, 3, 4, 5, 6]);
        assert_eq!(digits(0.0), [0; 7]);
        assert_eq!(digits(1440.05), [0, 0, 1, 4, 4, 0, 0]);
    }
}
