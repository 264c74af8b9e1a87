//! The electronic manometer: its display, and the whole of it with the label on its back.

use sim_core::rig::manometer::electronic::Shown;
use sim_core::session::view::DisplayView;

use super::field_of_view::{Subject, caption, label};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, round_rect_path};
use crate::digits;
use crate::palette;
use crate::text::FontStyle;

/// The glass of the display, and the height of its digits.
const GLASS: (Point, Point) = ((34.0, 84.0), (212.0, 104.0));
const DIGITS: f32 = 56.0;

/// The display, for reading.
pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::WOOD_SHADE.color());
    let Some(display) = subject.view.manometer.display else {
        return caption(canvas, subject, "this manometer has no display");
    };
    shown(canvas, subject, display, GLASS, DIGITS);
    let words = match display.shows {
        Shown::OverRange => "over its range",
        Shown::Nothing => "dark",
        Shown::SelfTest => "testing itself",
        Shown::Reading(_) => "inches of water",
    };
    let set = Lettering::new(FontStyle::SemiBold, subject.size(13.0, 1.3), palette::INK);
    label(canvas, (140.0, 206.0), words, set);
}

/// The whole of it: its front, and the label that is stuck on its back.
pub(super) fn whole(canvas: &mut Canvas, subject: &Subject, display: DisplayView) {
    let ink = palette::INK.color();
    if let Some(body) = round_rect_path((70.0, 30.0), (140.0, 200.0), 12.0) {
        canvas.fill(&body, palette::WOOD_SHADE.color());
        canvas.stroke(&body, ink, LineWeight::HEAVY);
    }
    shown(canvas, subject, display, ((82.0, 48.0), (116.0, 58.0)), 30.0);
    for x in [112.0, 168.0] {
        canvas.disc((x, 134.0), 13.0, palette::BRASS.color(), Some((ink, LineWeight::MEDIUM)));
    }
    if let Some(date) = display.calibrated {
        canvas.rect(
            (86.0, 164.0),
            (108.0, 46.0),
            palette::PAGE.color(),
            Some((ink, LineWeight::THIN)),
        );
        let set = Lettering::new(FontStyle::SemiBold, subject.size(12.0, 1.15), palette::INK);
        label(canvas, (140.0, 179.0), "calibrated", set);
        label(canvas, (140.0, 197.0), &date.to_string(), set);
    }
}

/// The glass with its digits and the battery's sign.
fn shown(
    canvas: &mut Canvas,
    subject: &Subject,
    display: DisplayView,
    (at, size): (Point, Point),
    height: f32,
) {
    let rim = Some((palette::INK.color(), LineWeight::MEDIUM));
    canvas.rect(at, size, palette::CHART_PAPER.color(), rim);
    let row = digits::width(height);
    let from = (at.0 + 0.5 * (size.0 - row), at.1 + size.1 - 0.22 * height - height);
    digits::draw(canvas, from, height, display.shows);
    if display.battery_low {
        digits::low_battery(canvas, (at.0 + 8.0, at.1 + 5.0), 0.5 * height);
        if height >= DIGITS {
            let set =
                Lettering::new(FontStyle::SemiBold, subject.size(11.0, 1.2), palette::CAUTION);
            label(canvas, (at.0 + 100.0, at.1 + 13.0), "low battery", set);
        }
    }
}
