//! Parts of the station seen near: cut out of the scene itself, so that they are the same things.

use resvg::tiny_skia::{PixmapPaint, Transform};
use sim_core::session::action::Sight;
use sim_core::session::view::View;

use super::field_of_view::{CENTRE, RADIUS, Subject, caption};
use crate::canvas::{Canvas, LineWeight, Point};
use crate::palette;
use crate::scene::{Area, anchor, drawing, piece};
use crate::still;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, focus: Sight) {
    if focus == Sight::Filter {
        return filter(canvas, subject);
    }
    let (middle, reach) = match focus {
        Sight::RoofEdge => (anchor("roof_edge", "ladder"), 86.0),
        Sight::Recorder => (anchor("chart", "hub"), 140.0),
        Sight::Controller => ((624.0, 640.0), 62.0),
        Sight::Timer => (anchor("timer_dial", "centre"), 60.0),
        Sight::Plugs => plugs(subject.view),
        // The grill is below the blower.
        Sight::Blower if subject.view.mounting.exhaust.is_some() => ((418.0, 590.0), 150.0),
        Sight::Blower => ((418.0, 536.0), 150.0),
        Sight::Watch => (anchor("watch", "centre"), 46.0),
        _ => ((560.0, 420.0), 400.0),
    };
    crop(canvas, subject.view, middle, reach, CENTRE, RADIUS);
    if focus == Sight::Watch {
        watch(canvas, subject.view);
    }
}

/// Draws a round piece of the scene, `reach` scene units to each side of `middle`, into a circle.
pub(super) fn crop(
    canvas: &mut Canvas,
    view: &View,
    middle: Point,
    reach: f32,
    at: Point,
    radius: f32,
) {
    let area = Area { x: middle.0 - reach, y: middle.1 - reach, w: 2.0 * reach, h: 2.0 * reach };
    let scale = canvas.px_per_unit() * radius / reach;
    let picture = still::seen(view, area, scale, 0.25);
    let px = canvas.px_per_unit();
    let mut round = Canvas::new(picture.width(), picture.height(), px);
    *round.pixmap_mut() = picture;
    round.keep_circle((radius, radius), radius);
    let picture = round.finish();
    let corner = ((at.0 - radius) * px, (at.1 - radius) * px);
    let place = Transform::from_translate(corner.0.round(), corner.1.round());
    let paint = PixmapPaint::default();
    canvas.pixmap_mut().draw_pixmap(0, 0, picture.as_ref(), &paint, place, None);
}

/// Both plugs, wherever they are.
fn plugs(view: &View) -> (Point, f32) {
    use crate::live_parts;
    let sampler =
        live_parts::moved(live_parts::sampler_plug(view), anchor("plug_sampler", "prongs"));
    let blower = live_parts::moved(live_parts::blower_plug(view), anchor("plug_blower", "prongs"));
    let middle = (0.5 * (sampler.0 + blower.0), 0.5 * (sampler.1 + blower.1));
    let apart = (sampler.0 - blower.0).hypot(sampler.1 - blower.1);
    (middle, 0.5 * apart + 60.0)
}

/// The filter, face on.
fn filter(canvas: &mut Canvas, subject: &Subject) {
    canvas.wash(palette::WOOD.color());
    let drawn = piece("filter_face").and_then(|piece| Some((piece, drawing(piece)?)));
    if let Some((piece, tree)) = drawn {
        let scale = 1.1;
        let corner = (CENTRE.0 - 0.5 * scale * piece.w, CENTRE.1 - 0.5 * scale * piece.h);
        let place = canvas.transform().pre_translate(corner.0, corner.1).pre_scale(scale, scale);
        resvg::render(&tree, place, &mut canvas.pixmap_mut().as_mut());
    }
    caption(canvas, subject, "filter, face up");
}

/// The watch with its hands, over its face.
fn watch(canvas: &mut Canvas, view: &View) {
    let drawn = piece("watch").and_then(|piece| Some((piece, drawing(piece)?)));
    let Some((piece, tree)) = drawn else { return };
    canvas.wash(palette::PAPER.color());
    let scale = RADIUS / 46.0;
    let axis = anchor("watch", "centre");
    let corner = (CENTRE.0 + scale * (piece.x - axis.0), CENTRE.1 + scale * (piece.y - axis.1));
    let place = canvas.transform().pre_translate(corner.0, corner.1).pre_scale(scale, scale);
    resvg::render(&tree, place, &mut canvas.pixmap_mut().as_mut());
    let hours = view.time.hours();
    let hands = [
        ("hour_hand", hours * 30.0, palette::INK, LineWeight(5.0)),
        ("minute_hand", hours * 360.0, palette::INK, LineWeight(3.4)),
        ("second_hand", hours * 21_600.0, palette::COPPER, LineWeight(1.6)),
    ];
    for (name, deg, hue, line) in hands {
        let length = scale * crate::scene::number("watch", name);
        let deg = (deg.rem_euclid(360.0) - 90.0) as f32;
        let tip = crate::canvas::on_circle(CENTRE, length, deg);
        canvas.line(CENTRE, tip, hue.color(), line);
    }
    canvas.disc(
        CENTRE,
        4.5,
        palette::BRASS.color(),
        Some((palette::INK.color(), LineWeight::THIN)),
    );
}
