//! The digits of an electronic display, each of seven bars, and the sign of its battery.

use resvg::tiny_skia::Color;
use sim_core::rig::manometer::electronic::Shown;

use super::canvas::{Canvas, LineWeight, Point};
use super::palette;

/// Places of the display: four digits, the first of which may be a sign.
pub(crate) const PLACES: usize = 5;
/// Width of a place, of its gap and of a bar, each as a part of the height of a digit.
const WIDTH: f32 = 0.5;
const PITCH: f32 = 0.7;
const BAR: f32 = 0.11;

/// Which bars are on, in this order: top, upper right, lower right, foot, lower left, upper left, middle.
pub(crate) const fn bars(sign: char) -> [bool; 7] {
    const ON: bool = true;
    const O: bool = false;
    match sign {
        '0' => [ON, ON, ON, ON, ON, ON, O],
        '1' => [O, ON, ON, O, O, O, O],
        '2' => [ON, ON, O, ON, ON, O, ON],
        '3' => [ON, ON, ON, ON, O, O, ON],
        '4' => [O, ON, ON, O, O, ON, ON],
        '5' => [ON, O, ON, ON, O, ON, ON],
        '6' => [ON, O, ON, ON, ON, ON, ON],
        '7' => [ON, ON, ON, O, O, O, O],
        '8' => [ON; 7],
        '9' => [ON, ON, ON, ON, O, ON, ON],
        '-' => [O, O, O, O, O, O, ON],
        _ => [O; 7],
    }
}

/// What stands in each place, with the point behind the third.
pub(crate) fn places(shown: Shown) -> [char; PLACES] {
    let text = match shown {
        Shown::Nothing => return [' '; PLACES],
        Shown::SelfTest => return ['8'; PLACES],
        Shown::OverRange => return ['-'; PLACES],
        Shown::Reading(reading_in) => format!("{reading_in:.2}").replace('.', ""),
    };
    let mut places = [' '; PLACES];
    for (place, sign) in places.iter_mut().rev().zip(text.chars().rev()) {
        *place = sign;
    }
    places
}

/// The middle of a bar of a place, for digits of this height whose row begins at `at`.
pub(crate) fn middle_of_bar(at: Point, height: f32, place: usize, bar: usize) -> Point {
    let left = at.0 + PITCH * height * place as f32;
    let (wide, half) = (WIDTH * height, 0.5 * height);
    let (x, y) = match bar {
        0 => (0.5 * wide, 0.0),
        1 => (wide, 0.5 * half),
        2 => (wide, 1.5 * half),
        3 => (0.5 * wide, height),
        4 => (0.0, 1.5 * half),
        5 => (0.0, 0.5 * half),
        _ => (0.5 * wide, half),
    };
    (left + x, at.1 + y)
}

/// Width of the row of digits of this height.
pub(crate) fn width(height: f32) -> f32 {
    PITCH * height * (PLACES - 1) as f32 + WIDTH * height
}

/// Draws the row of digits with the point between whole inches and hundredths.
pub(crate) fn draw(canvas: &mut Canvas, at: Point, height: f32, shown: Shown) {
    if shown == Shown::Nothing {
        return;
    }
    let ink = palette::INK.color();
    for (place, sign) in places(shown).into_iter().enumerate() {
        for (bar, on) in bars(sign).into_iter().enumerate() {
            if on {
                draw_bar(canvas, middle_of_bar(at, height, place, bar), height, bar, ink);
            }
        }
    }
    let point = (at.0 + height * (3.0 * PITCH - 0.5 * (PITCH - WIDTH)), at.1 + height);
    canvas.disc(point, 0.08 * height, ink, None);
}

/// One bar: upright or flat.
fn draw_bar(canvas: &mut Canvas, middle: Point, height: f32, bar: usize, ink: Color) {
    let thick = BAR * height;
    let flat = matches!(bar, 0 | 3 | 6);
    let long = if flat { (WIDTH - BAR) * height } else { (0.5 - BAR) * height };
    let (w, h) = if flat { (long, thick) } else { (thick, long) };
    canvas.rect((middle.0 - 0.5 * w, middle.1 - 0.5 * h), (w, h), ink, None);
}

/// Draws the low-battery sign: an empty battery with a slash.
pub(crate) fn low_battery(canvas: &mut Canvas, at: Point, width: f32) {
    let ink = palette::CAUTION.color();
    let height = 0.5 * width;
    let wash = palette::CAUTION_WASH.color();
    canvas.rect(at, (width, height), wash, Some((ink, LineWeight::THIN)));
    canvas.rect((at.0 + width, at.1 + 0.3 * height), (0.12 * width, 0.4 * height), ink, None);
    canvas.line((at.0, at.1 + height), (at.0 + width, at.1), ink, LineWeight::THIN);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The characters whose bars are dark in a picture.
    fn read_back(shown: Shown) -> String {
        let (at, height) = ((6.0, 8.0), 40.0);
        let mut canvas = Canvas::new(180, 60, 1.0);
        canvas.wash(palette::CHART_PAPER.color());
        draw(&mut canvas, at, height, shown);
        let picture = canvas.finish();
        let dark = |(x, y): Point| {
            picture.pixel(x as u32, y as u32).is_some_and(|pixel| u32::from(pixel.green()) < 120)
        };
        let signs = [' ', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '-'];
        (0..PLACES)
            .map(|place| {
                let mut lit = [false; 7];
                for (bar, lit) in lit.iter_mut().enumerate() {
                    *lit = dark(middle_of_bar(at, height, place, bar));
                }
                signs.into_iter().find(|&sign| bars(sign) == lit).unwrap_or('?')
            })
            .collect()
    }

    #[test]
    fn what_is_shown_can_be_read_from_the_picture() {
        for (reading, said) in [
            (6.24, "  624"),
            (0.0, "  000"),
            (-0.13, " -013"),
            (10.0, " 1000"),
            (7.89, "  789"),
            (-12.35, "-1235"),
        ] {
            assert_eq!(read_back(Shown::Reading(reading)), said);
        }
        assert_eq!(read_back(Shown::OverRange), "-----");
        assert_eq!(read_back(Shown::SelfTest), "88888");
        assert_eq!(read_back(Shown::Nothing), "     ");
    }
}
