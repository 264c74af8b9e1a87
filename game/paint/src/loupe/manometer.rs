//! The whole manometer, with two details drawn larger: its valves, and its plumb against the board.

use resvg::tiny_skia::{PixmapPaint, Transform};
use sim_core::rig::parts::{Leg, PartPlace, RigPart};

use super::field_of_view::{CENTRE, RADIUS, Subject, caption, label};
use super::scene_crop;
use crate::canvas::{Canvas, Lettering, LineWeight};
use crate::layers::Layer;
use crate::live_parts;
use crate::palette;
use crate::scene::{Area, anchor};
use crate::still;
use crate::text::FontStyle;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::PAPER.color());
    let view = subject.view;
    match view.mounting.place(RigPart::Manometer) {
        PartPlace::Case => {
            let middle = anchor("case_manometer", "grip");
            scene_crop::crop(canvas, view, middle, 60.0, CENTRE, RADIUS);
            return;
        }
        PartPlace::Hand => return caption(canvas, subject, "in your hands"),
        _ => {}
    }
    if let Some(display) = view.manometer.display {
        return super::display::whole(canvas, subject, display);
    }
    whole(canvas, subject);
    let by = live_parts::manometer_at(view);
    let (left, right) = (anchor("manometer", "valve_left"), anchor("manometer", "valve_right"));
    let valves = live_parts::moved(by, (0.5 * (left.0 + right.0), left.1 - 4.0));
    detail(canvas, subject, valves, 52.0, (190.0, 88.0), 50.0);
    let mark = live_parts::moved(by, anchor("manometer", "plumb_mark"));
    detail(canvas, subject, (mark.0, mark.1 - 12.0), 27.0, (190.0, 198.0), 46.0);
    let set = Lettering::new(FontStyle::Italic, subject.size(11.0, 1.2), palette::INK_SOFT);
    for (leg, x) in [(Leg::Left, 168.0), (Leg::Right, 212.0)] {
        label(canvas, (x, 145.0), valve_word(subject, leg), set);
    }
}

/// How far a valve is open, in a word; its quarter turns can be counted on the valve itself.
fn valve_word(subject: &Subject, leg: Leg) -> &'static str {
    match subject.view.manometer.leg(leg).valve_quarters {
        0 => "shut",
        4 => "open",
        _ => "partly",
    }
}

/// All of it, from the hook to the foot.
fn whole(canvas: &mut Canvas, subject: &Subject) {
    let area = Area { x: 784.0, y: 40.0, w: 220.0, h: 700.0 };
    let (height, corner) = (244.0, (48.0, 18.0));
    let scale = canvas.px_per_unit() * height / area.h;
    let parts = [Layer::Manometer, Layer::Water, Layer::ManometerFront, Layer::Tube];
    let wanted = |group| parts.contains(&group);
    let picture = still::region(subject.view, area, scale, wanted, 0.0);
    let px = canvas.px_per_unit();
    let place = Transform::from_translate((corner.0 * px).round(), (corner.1 * px).round());
    let paint = PixmapPaint::default();
    canvas.pixmap_mut().draw_pixmap(0, 0, picture.as_ref(), &paint, place, None);
}

/// A round detail with its own rim.
fn detail(
    canvas: &mut Canvas,
    subject: &Subject,
    middle: (f32, f32),
    reach: f32,
    at: (f32, f32),
    radius: f32,
) {
    canvas.disc(at, radius, palette::PAGE.color(), None);
    scene_crop::crop(canvas, subject.view, middle, reach, at, radius);
    canvas.ring(at, radius, palette::INK.color(), LineWeight::MEDIUM);
}
