//! The chart of a run, off the recorder: the whole of it, or an hour of its trace against the ruling.

use super::field_of_view::{CENTRE, RADIUS, SHEET, Subject, label};
use super::gaze::KeptChart;
use super::pen;
use crate::canvas::{Canvas, Lettering, LineWeight, Point, on_circle};
use crate::chart;
use crate::palette;
use crate::scene::{anchor, drawing, piece};
use crate::text::FontStyle;

/// A pen below this drew no run, chart divisions.
const DRAWS: f64 = 10.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject, trace: &[(f64, f64)], held: KeptChart) {
    match held {
        KeptChart::Whole => whole(canvas, subject, trace),
        KeptChart::Hour(hour) => about(canvas, subject, trace, hour),
    }
}

/// The whole chart, midnight at the right where it was printed.
fn whole(canvas: &mut Canvas, subject: &Subject, trace: &[(f64, f64)]) {
    canvas.wash(palette::WOOD.color());
    let ruling = chart::Ruling::of(&subject.view.recorder);
    let drawn = piece(ruling.drawing()).and_then(|piece| Some((piece, drawing(piece)?)));
    let Some((piece, tree)) = drawn else { return };
    let hub = anchor("chart", "hub");
    let scale = RADIUS / (chart::PAPER_RADIUS as f32 + 3.0);
    let corner = (CENTRE.0 + scale * (piece.x - hub.0), CENTRE.1 + scale * (piece.y - hub.1));
    let place = canvas.transform().pre_translate(corner.0, corner.1).pre_scale(scale, scale);
    resvg::render(&tree, place, &mut canvas.pixmap_mut().as_mut());
    let at = |&(hour, divisions): &(f64, f64)| -> Point {
        let (x, y) = ruling.on_paper(0.0, hour, divisions);
        (CENTRE.0 + scale * x as f32, CENTRE.1 + scale * y as f32)
    };
    for stroke in chart::strokes(trace) {
        let points: Vec<Point> = stroke.iter().map(at).collect();
        canvas.polyline(&points, palette::PEN_INK.color(), LineWeight(1.6));
    }
}

/// About an hour of the trace, its moment between two small marks of copper at the rim.
fn about(canvas: &mut Canvas, subject: &Subject, trace: &[(f64, f64)], hour: f64) {
    let reading = chart::drawn_at(trace, hour, DRAWS);
    let ruling = chart::Ruling::of(&subject.view.recorder);
    let radius = ruling.radius(reading.unwrap_or(0.6 * ruling.last()));
    let sheet = pen::ChartUnderLoupe { middle: chart::nib(radius), hour, ruling };
    pen::loose(canvas, subject, &sheet, trace);
    moment(canvas, &sheet);
    let minutes = (hour * 60.0).round().rem_euclid(1440.0) as u32;
    let words = format!("{:02}:{:02}", minutes / 60, minutes % 60);
    let set = Lettering::new(FontStyle::SemiBold, subject.size(14.0, 1.3), palette::COPPER);
    let at = (CENTRE.0, SHEET - 30.0);
    let half = (0.5 * crate::text::width(set.style, set.size, &words), 0.5 * set.size);
    canvas.rect(
        (at.0 - half.0 - 6.0, at.1 - half.1 - 3.0),
        (2.0 * half.0 + 12.0, 2.0 * half.1 + 6.0),
        palette::PAGE.color(),
        Some((palette::INK_SOFT.color(), LineWeight::THIN)),
    );
    label(canvas, at, &words, set);
}

/// Where the arc of the hour meets the rim of the glass.
fn moment(canvas: &mut Canvas, sheet: &pen::ChartUnderLoupe) {
    let inside = |at: Point| (at.0 - CENTRE.0).hypot(at.1 - CENTRE.1) < RADIUS - 8.0;
    let arc: Vec<Point> = (0..=400)
        .map(|step| sheet.at(chart::nib(chart::R0 + chart::WIDTH * f64::from(step) / 400.0)))
        .filter(|&at| inside(at))
        .collect();
    let ends = [
        arc.first().zip(arc.get(1)),
        arc.last().zip(arc.len().checked_sub(2).and_then(|n| arc.get(n))),
    ];
    for (tip, next) in ends.into_iter().flatten() {
        let back = (tip.1 - next.1).atan2(tip.0 - next.0).to_degrees();
        // A wedge from the rim that points along the arc, its tip on it.
        let corners = [
            on_circle(*tip, 3.0, back + 180.0),
            on_circle(*tip, 13.0, back - 24.0),
            on_circle(*tip, 13.0, back + 24.0),
        ];
        canvas.polygon(
            &corners,
            palette::COPPER.color(),
            Some((palette::INK.color(), LineWeight::THIN)),
        );
    }
}
