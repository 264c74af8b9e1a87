//! The pen's tip on the chart: ruled circles, hour arcs, the trace so far, marks, and the nib.

use resvg::tiny_skia::{Path, Transform};

use super::beside::{self, Legible, Runs};
use super::field_of_view::{CENTRE, RADIUS, Subject, fade, label};
use crate::canvas::{
    Canvas, Lettering, LineWeight, Point, TextAlign, circle_path, polygon_path, polyline_path,
};
use crate::chart::{self, Ruling};
use crate::palette;
use crate::text::{self, FontStyle};

/// Magnification: sheet units to a unit of the scene.
const MAGNIFIED: f64 = 13.0;
/// Weight of the pen's trace: much less than a division, so that it is seen on which side of a circle it
/// lies.
const TRACE: LineWeight = LineWeight(1.7);
/// Rulings closer than this are left out, sheet units.
const CLOSEST: f64 = 5.0;
/// The clock's small steps between hour arcs, as on the paper: a quarter of an hour.
const ARCS_PER_HOUR: i32 = 4;
/// Radius from which the quarters are ruled, scene units: nearer the hub they would run together.
const QUARTERS_FROM: f64 = 26.5;
/// Radius from which there is room for a number between any two quarters, scene units.
const NUMBERS_FROM: f64 = 50.0;
/// Room that the number of a five needs farther in, scene units.
const FIVES_ROOM: f64 = 5.5;
/// Radius at which the hours are named, scene units.
const HOURS_AT: f64 = 105.0;

pub(super) fn draw(canvas: &mut Canvas, subject: &Subject) {
    let seen = &subject.view.recorder;
    let ruling = Ruling::of(seen);
    let sheet = ChartUnderLoupe {
        middle: chart::nib(subject.gaze.centre()),
        hour: seen.chart_hour,
        ruling,
    };
    canvas.wash(palette::STEEL.color());
    paper(canvas, &sheet);
    circles(canvas, &sheet);
    arcs(canvas, &sheet);
    let legible = numbers(canvas, subject, &sheet);
    trace(canvas, subject, &sheet);
    marks(canvas, subject, &sheet);
    match seen.pen {
        Some(divisions) => {
            arm(canvas, &sheet, ruling.radius(divisions), seen.on_paper);
            if seen.arm_bent {
                kink(canvas, &sheet, ruling.radius(divisions));
            }
            let deg = chart::nib_deg(ruling.radius(divisions)).to_radians();
            let runs = Runs { up: (deg.cos() as f32, deg.sin() as f32), off: 0.0 };
            let missing = legible.missing(divisions, 10, (10, ruling.last() as i32));
            beside::show(canvas, subject, runs, missing);
        }
        None => capped(canvas, subject, &sheet),
    }
    if !seen.door_open {
        glass(canvas);
    }
}

/// Where the chart lies under the loupe.
#[derive(Clone, Copy)]
pub(super) struct ChartUnderLoupe {
    /// What lies in the middle, from the hub, scene units.
    pub(super) middle: (f64, f64),
    /// The hour under the pen.
    pub(super) hour: f64,
    /// How it is ruled.
    pub(super) ruling: Ruling,
}

impl ChartUnderLoupe {
    pub(super) fn at(&self, place: (f64, f64)) -> Point {
        let x = f64::from(CENTRE.0) + (place.0 - self.middle.0) * MAGNIFIED;
        let y = f64::from(CENTRE.1) + (place.1 - self.middle.1) * MAGNIFIED;
        (x.clamp(-9e3, 9e3) as f32, y.clamp(-9e3, 9e3) as f32)
    }

    fn hub(&self) -> Point {
        self.at((0.0, 0.0))
    }

    fn printed(&self, hour: f64, divisions: f64) -> Point {
        self.at(self.ruling.on_paper(self.hour, hour, divisions))
    }

    /// Radii that can be seen.
    fn radii(&self) -> (f64, f64) {
        let middle = self.middle.0.hypot(self.middle.1);
        let reach = f64::from(RADIUS) / MAGNIFIED;
        (middle - reach, middle + reach)
    }

    /// The part of a circle about the hub that can be seen, as fine chords.
    fn circle(&self, radius: f64) -> Option<Path> {
        let middle = self.middle.1.atan2(self.middle.0).to_degrees();
        let reach = (1.2 * f64::from(RADIUS) / MAGNIFIED / radius.max(1.0)).min(3.1).to_degrees();
        let points: Vec<Point> = (-48..=48)
            .map(|step| {
                let turned = (middle + reach * f64::from(step) / 48.0).to_radians();
                self.at((radius * turned.cos(), radius * turned.sin()))
            })
            .collect();
        polyline_path(&points)
    }

    /// Hours within sight, first and last.
    fn hours(&self) -> (f64, f64) {
        let inner = self.radii().0.max(chart::R0);
        let reach =
            (1.3 * f64::from(RADIUS) / MAGNIFIED / inner).to_degrees() / chart::DEG_PER_HOUR;
        let reach = reach.min(12.0);
        (self.hour - reach, self.hour + reach)
    }
}

fn paper(canvas: &mut Canvas, sheet: &ChartUnderLoupe) {
    let edge = (chart::PAPER_RADIUS * MAGNIFIED) as f32;
    let ink = palette::INK_SOFT.color();
    canvas.disc(sheet.hub(), edge, palette::CHART_PAPER.color(), Some((ink, LineWeight::THIN)));
    // Flecks of the paper, fixed to it by their own polar places.
    for fleck in 0..900_u32 {
        let spread = |n: u32| f64::from(fleck.wrapping_mul(n).wrapping_add(n >> 3) % 9973) / 9973.0;
        let radius = chart::PAPER_RADIUS * spread(7919).sqrt();
        let turned = (360.0 * spread(104_729) + chart::DEG_PER_HOUR * sheet.hour).to_radians();
        let at = sheet.at((radius * turned.cos(), radius * turned.sin()));
        if (at.0 - CENTRE.0).hypot(at.1 - CENTRE.1) < RADIUS {
            canvas.disc(at, 0.7, palette::PAPER_SHADE.faded(0.8), None);
        }
    }
    if let Some(hole) = circle_path(sheet.hub(), (16.0 * MAGNIFIED) as f32) {
        canvas.fill(&hole, palette::STEEL_SHADE.color());
        canvas.stroke(&hole, palette::INK.color(), LineWeight::MEDIUM);
    }
}

/// One circle for each division, where a square-root ruling leaves room; fives and tens stronger.
fn circles(canvas: &mut Canvas, sheet: &ChartUnderLoupe) {
    let (inner, outer) = sheet.radii();
    for division in 0..=sheet.ruling.last() as i32 {
        let radius = sheet.ruling.radius(f64::from(division));
        let step = if division % 10 == 0 {
            10
        } else if division % 5 == 0 {
            5
        } else {
            1
        };
        let room = (radius - sheet.ruling.radius(f64::from(division - step))) * MAGNIFIED;
        if radius < inner || radius > outer || room < CLOSEST {
            continue;
        }
        // The finest lines still stand out by 3 to 1 where they lie between two rows of pixels.
        let line = match step {
            10 => LineWeight(2.0),
            5 => LineWeight(1.4),
            _ => LineWeight(1.0),
        };
        if let Some(circle) = sheet.circle(radius) {
            canvas.stroke_square(&circle, palette::CHART_INK.color(), line);
        }
    }
}

/// Arcs of the pen's own swing, a quarter of an hour apart; whole hours stronger.
fn arcs(canvas: &mut Canvas, sheet: &ChartUnderLoupe) {
    let (first, last) = sheet.hours();
    let per_hour = f64::from(ARCS_PER_HOUR);
    let (from, to) = ((first * per_hour).floor() as i32, (last * per_hour).ceil() as i32);
    for quarter in from..=to {
        let hour = f64::from(quarter) / per_hour;
        let whole = quarter.rem_euclid(ARCS_PER_HOUR) == 0;
        let inner = if whole { chart::R0 } else { QUARTERS_FROM };
        let outer = chart::R0 + chart::WIDTH;
        let points: Vec<Point> = (0..=40)
            .map(|step| {
                let radius = inner + (outer - inner) * f64::from(step) / 40.0;
                sheet.at(chart::ruled(sheet.hour, hour, radius))
            })
            .collect();
        let line = if whole { LineWeight(1.8) } else { LineWeight(1.0) };
        if let Some(arc) = polyline_path(&points) {
            canvas.stroke_square(&arc, palette::CHART_INK.color(), line);
        }
    }
}

/// Division numbers between the quarter arcs, hour numbers at the edge: printed on the paper, so they
/// turn with it.
fn numbers(canvas: &mut Canvas, subject: &Subject, sheet: &ChartUnderLoupe) -> Legible {
    let mut legible = Legible::default();
    let (first, last) = sheet.hours();
    for quarter in (first * 4.0).floor() as i32..=(last * 4.0).ceil() as i32 {
        // Half way between two quarter arcs, so that no arc crosses a number.
        let hour = f64::from(quarter) / 4.0 + 0.125;
        for five in 1..=sheet.ruling.last() as i32 / 5 {
            let divisions = f64::from(five * 5);
            let radius = sheet.ruling.radius(divisions);
            let room = radius - sheet.ruling.radius(divisions - 5.0);
            let ten = five % 2 == 0;
            // Farther in the quarters run closer: there every second one is enough.
            let crowded = radius < NUMBERS_FROM && quarter % 2 != 0;
            if radius < QUARTERS_FROM || (ten && crowded) || (!ten && room < FIVES_ROOM) {
                continue;
            }
            let size = subject.size(if ten { 15.0 } else { 11.0 }, 1.4);
            let shown = printed(canvas, sheet, (hour, radius), size, &(five * 5).to_string());
            legible.note(five * 5, shown);
        }
        if quarter % 4 == 0 {
            let name = (quarter / 4).rem_euclid(24).to_string();
            let size = subject.size(19.0, 1.4);
            printed(canvas, sheet, (f64::from(quarter) / 4.0, HOURS_AT), size, &name);
        }
    }
    legible
}

/// A number on its own patch of bare paper, upright towards the hub; how much of it is shown, 0 to 1.
fn printed(
    canvas: &mut Canvas,
    sheet: &ChartUnderLoupe,
    (hour, radius): (f64, f64),
    size: f32,
    number: &str,
) -> f32 {
    let at = sheet.at(chart::ruled(sheet.hour, hour, radius));
    let half = 0.5 * text::width(FontStyle::SemiBold, size, number);
    let shown = fade(canvas, at, (half + 1.0, 0.4 * size));
    if shown <= 0.0 {
        return 0.0;
    }
    let hub = sheet.hub();
    let turned = (at.1 - hub.1).atan2(at.0 - hub.0).to_degrees() + 90.0;
    let color = palette::CHART_INK.faded(shown);
    let set = Lettering::new(FontStyle::SemiBold, size, palette::CHART_INK)
        .align(TextAlign::Middle)
        .color(color);
    let place = Transform::from_translate(at.0, at.1).pre_rotate(turned);
    canvas.within(place, |canvas| {
        let patch = palette::CHART_PAPER.faded(shown);
        canvas.rect((-half - 1.5, -0.42 * size), (2.0 * half + 3.0, 0.84 * size), patch, None);
        canvas.text((0.0, 0.355 * size), number, set);
    });
    shown
}

/// A chart off its recorder: paper, ruling, numbers and ink.
pub(super) fn loose(
    canvas: &mut Canvas,
    subject: &Subject,
    sheet: &ChartUnderLoupe,
    ink: &[(f64, f64)],
) {
    canvas.wash(palette::WOOD.color());
    paper(canvas, sheet);
    circles(canvas, sheet);
    arcs(canvas, sheet);
    numbers(canvas, subject, sheet);
    strokes(canvas, sheet, ink);
}

/// What the pen has drawn, as far as it can be seen.
fn strokes(canvas: &mut Canvas, sheet: &ChartUnderLoupe, ink: &[(f64, f64)]) {
    for stroke in chart::strokes(ink) {
        let points: Vec<Point> = stroke.iter().map(|&(hour, i)| sheet.printed(hour, i)).collect();
        // A long trace lies mostly outside the loupe: only what is visible is drawn.
        for seen in points.chunk_by(|a, b| near(*a) || near(*b)) {
            match seen {
                [dot] if near(*dot) => canvas.disc(*dot, TRACE.0, palette::PEN_INK.color(), None),
                [_] => {}
                line => canvas.polyline(line, palette::PEN_INK.color(), TRACE),
            }
        }
    }
}

fn trace(canvas: &mut Canvas, subject: &Subject, sheet: &ChartUnderLoupe) {
    strokes(canvas, sheet, &subject.view.recorder.trace);
    // From the last point that was kept, the ink continues to the nib.
    let seen = &subject.view.recorder;
    if let (Some(pen), true, Some(&(hour, last))) = (seen.pen, seen.on_paper, seen.trace.last()) {
        let fresh = (seen.chart_hour - hour).rem_euclid(24.0) < 25.0 / 3600.0;
        if fresh {
            let ends = [sheet.printed(hour, last), sheet.printed(seen.chart_hour, pen)];
            canvas.polyline(&ends, palette::PEN_INK.color(), TRACE);
        }
    }
}

fn near(at: Point) -> bool {
    (at.0 - CENTRE.0).hypot(at.1 - CENTRE.1) < RADIUS + 40.0
}

/// Marks made by hand: a short stroke beside the trace, with its label.
fn marks(canvas: &mut Canvas, subject: &Subject, sheet: &ChartUnderLoupe) {
    let seen = &subject.view.recorder;
    for (hour, name) in &seen.marks {
        let Some(divisions) = chart::inked_at(&seen.trace, *hour) else { continue };
        let radius = sheet.ruling.radius(divisions);
        let deg = chart::nib_deg(radius) + chart::turned_deg(sheet.hour, *hour);
        // From the trace inwards and towards the later hours, where the paper is still clean.
        let beside = |inwards: f64, later: f64| {
            let turned = deg.to_radians();
            let (out, along) = ((turned.cos(), turned.sin()), (turned.sin(), -turned.cos()));
            let radius = radius - inwards;
            sheet.at((radius * out.0 + later * along.0, radius * out.1 + later * along.1))
        };
        let hand = palette::HAND_INK.color();
        canvas.line(beside(0.45, 0.2), beside(1.3, 0.8), hand, LineWeight(1.6));
        let size = subject.size(13.0, 1.4);
        let set = Lettering::new(FontStyle::Italic, size, palette::HAND_INK);
        let short: String = name.chars().take(12).collect();
        let half = 0.5 * f64::from(text::width(set.style, size, &short)) / MAGNIFIED;
        label(canvas, beside(1.9, 1.0 + half), &short, set);
    }
}

/// The arm as seen from above: a flat bar that narrows to the nib. `radius` is the nib's.
fn arm(canvas: &mut Canvas, sheet: &ChartUnderLoupe, radius: f64, on_paper: bool) {
    let tip = sheet.at(chart::nib(radius));
    let pivot = sheet.at(chart::PIVOT);
    if !on_paper {
        // Lifted off the paper it throws its shadow beside it.
        let shade = Transform::from_translate(5.0, 7.0);
        canvas.within(shade, |canvas| bar(canvas, tip, pivot, Tone::Shadow));
    }
    bar(canvas, tip, pivot, Tone::Metal);
}

/// The crease of a bent arm, across its shaft.
fn kink(canvas: &mut Canvas, sheet: &ChartUnderLoupe, radius: f64) {
    let (tip, pivot) = (sheet.at(chart::nib(radius)), sheet.at(chart::PIVOT));
    let length = (pivot.0 - tip.0).hypot(pivot.1 - tip.1).max(1.0);
    let along = ((pivot.0 - tip.0) / length, (pivot.1 - tip.1) / length);
    for (on, weight) in [(74.0, 3.0), (80.0, 1.4)] {
        let across =
            |off: f32| (tip.0 + along.0 * on - along.1 * off, tip.1 + along.1 * on + along.0 * off);
        canvas.line(across(-9.0), across(9.0), palette::INK.color(), LineWeight(weight));
    }
}

#[derive(Clone, Copy, PartialEq)]
enum Tone {
    Metal,
    Shadow,
}

fn bar(canvas: &mut Canvas, tip: Point, pivot: Point, tone: Tone) {
    let length = (pivot.0 - tip.0).hypot(pivot.1 - tip.1).max(1.0);
    let along = ((pivot.0 - tip.0) / length, (pivot.1 - tip.1) / length);
    let at = |on: f32, off: f32| {
        (tip.0 + along.0 * on - along.1 * off, tip.1 + along.1 * on + along.0 * off)
    };
    let shaft = [at(40.0, 4.5), at(length, 14.0), at(length, -14.0), at(40.0, -4.5)];
    let nib = [
        at(0.0, 0.0),
        at(9.0, 1.75),
        at(26.0, 2.8),
        at(42.0, 5.5),
        at(48.0, 0.0),
        at(42.0, -5.5),
        at(26.0, -2.8),
        at(9.0, -1.75),
    ];
    if tone == Tone::Shadow {
        let shade = palette::INK_SOFT.faded(0.25);
        canvas.polygon(&shaft, shade, None);
        canvas.polygon(&nib, shade, None);
        return;
    }
    let ink = Some((palette::INK.color(), LineWeight::MEDIUM));
    canvas.polygon(&shaft, palette::STEEL_SHADE.color(), ink);
    canvas.line(at(52.0, 1.5), at(length, 6.0), palette::FILTER.color(), LineWeight::THIN);
    // The nib is filled to its very tip and not outlined, so that the tip is where it is. It is slender,
    // so that the line that it draws is seen beside it.
    canvas.polygon(&nib, palette::INK.color(), None);
    if let Some(slit) = polygon_path(&[at(28.0, 0.0), at(39.0, 1.3), at(41.0, 0.0), at(39.0, -1.3)])
    {
        canvas.fill(&slit, palette::STEEL.color());
    }
}

/// A capped pen is swung clear of the ruling; its cap hides the nib.
fn capped(canvas: &mut Canvas, subject: &Subject, sheet: &ChartUnderLoupe) {
    let middle = chart::nib(chart::PARKED_RADIUS);
    let parked = ChartUnderLoupe { middle, ..*sheet };
    canvas.wash(palette::STEEL.color());
    paper(canvas, &parked);
    circles(canvas, &parked);
    arcs(canvas, &parked);
    numbers(canvas, subject, &parked);
    trace(canvas, subject, &parked);
    arm(canvas, &parked, chart::PARKED_RADIUS, false);
    let (tip, pivot) = (parked.at(middle), parked.at(chart::PIVOT));
    let turned = (pivot.1 - tip.1).atan2(pivot.0 - tip.0).to_degrees();
    let place = Transform::from_translate(tip.0, tip.1).pre_rotate(turned);
    canvas.within(place, |canvas| {
        let cap = crate::canvas::round_rect_path((-14.0, -15.0), (82.0, 30.0), 9.0);
        if let Some(cap) = cap {
            canvas.fill(&cap, palette::COPPER.color());
            canvas.stroke(&cap, palette::INK.color(), LineWeight::HEAVY);
        }
        canvas.line((-4.0, -7.0), (52.0, -7.0), palette::COPPER_WASH.color(), LineWeight::MEDIUM);
        for rib in [56.0, 60.0] {
            canvas.line((rib, -12.0), (rib, 12.0), palette::INK.color(), LineWeight::THIN);
        }
    });
}

/// The door's glass before the chart.
fn glass(canvas: &mut Canvas) {
    let light = palette::FILTER.faded(0.28);
    canvas.polygon(&[(0.0, 96.0), (96.0, 0.0), (128.0, 0.0), (0.0, 128.0)], light, None);
    canvas.polygon(&[(0.0, 142.0), (142.0, 0.0), (150.0, 0.0), (0.0, 150.0)], light, None);
}
