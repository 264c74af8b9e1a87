//! Reading instruments from their pictures alone. Only which inch, five or ten a mark stands for is
//! taken from the view, as the picture's numbers are for people.

use paint::palette;
use sim_core::session::action::Sight;

use super::picture::{Crossing, Picture, apart, brightness, rgb};

/// A leg of the manometer: inches to the lowest edge of its water. `near_in` says which inch it is.
pub fn leg(picture: &Picture, sight: Sight, near_in: f64) -> f64 {
    let unit = picture.side() / 280.0;
    let axis = water_axis(picture, sight, unit);
    let edge = lowest_edge(picture, axis, unit);
    // Marks begin beside the glass, towards the scale.
    let side = if sight == Sight::RightLeg { -1.0 } else { 1.0 };
    let column = axis + side * 44.0 * unit;
    let marks = picture.crossings((column, 8.0 * unit), (column, 272.0 * unit), palette::INK);
    let marks: Vec<f64> = marks.iter().map(|mark| mark.at + 8.0 * unit).collect();
    assert!(marks.len() >= 8, "only {} marks", marks.len());
    // The long marks are inches.
    let far = axis + side * 76.0 * unit;
    // Inside the rim of the glass, which is a dark line too.
    let half = 127.0_f64.powi(2) - (far / unit - 140.0).powi(2);
    let (top, foot) = ((140.0 - half.sqrt()) * unit, (140.0 + half.sqrt()) * unit);
    let inches = picture.crossings((far, top), (far, foot), palette::INK);
    let copper = picture.crossings((far, top), (far, foot), palette::COPPER);
    let lines = inches.iter().chain(&copper).filter(|line| line.ink > unit);
    let inch = lines
        .map(|mark| mark.at + top)
        .min_by(|a, b| (a - edge).abs().total_cmp(&(b - edge).abs()));
    let tenth = mean_gap(&marks);
    let above = (inch.unwrap() - edge) / (10.0 * tenth);
    above + (near_in - above).round()
}

/// The middle of the water, from its colour low in the picture, on the side of the glass: a number that
/// stands at the rim has a colour like it at its edges.
fn water_axis(picture: &Picture, sight: Sight, unit: f64) -> f64 {
    let row = 246.0 * unit;
    let on_side = |x: f64| (x < 140.0 * unit) == (sight != Sight::RightLeg);
    let water: Vec<f64> = (0..picture.side() as usize)
        .map(|x| x as f64 + 0.5)
        .filter(|x| on_side(*x) && apart(picture.at(*x, row), rgb(palette::WATER)) < 45.0)
        .collect();
    0.5 * (water.first().unwrap() + water.last().unwrap())
}

/// The dark line that bounds the water at its lowest: the first one met on the way up its axis.
fn lowest_edge(picture: &Picture, axis: f64, unit: f64) -> f64 {
    let bright = |y: f64| brightness(picture.at(axis, y));
    let water = brightness(rgb(palette::WATER));
    let deep = brightness(rgb(palette::WATER_DEEP));
    let mut y = 260.0 * unit;
    while bright(y) > 0.5 * (water + deep) {
        y -= 0.05;
        assert!(y > 0.0, "no edge of the water");
    }
    let under = y;
    let film = brightness(rgb(palette::GLASS));
    while bright(y) < 0.5 * (film + deep) {
        y -= 0.05;
        assert!(y > 0.0, "no film above the edge of the water");
    }
    0.5 * (under + y)
}

/// The usual distance between neighbouring marks.
fn mean_gap(marks: &[f64]) -> f64 {
    let mut gaps: Vec<f64> = marks.windows(2).map(|pair| pair[1] - pair[0]).collect();
    gaps.sort_by(f64::total_cmp);
    let usual = gaps[gaps.len() / 2];
    let even: Vec<f64> = gaps.into_iter().filter(|gap| (gap / usual - 1.0).abs() < 0.2).collect();
    even.iter().sum::<f64>() / even.len() as f64
}

/// The pen: chart divisions at its nib. `near` says which five it is.
pub fn pen(picture: &Picture, near: f64) -> f64 {
    let unit = picture.side() / 280.0;
    let tip = nib(picture, unit);
    // Radius and circle's direction near the nib, as the arm is made.
    let deg = -113.0_f64;
    let out = (deg.to_radians().cos(), deg.to_radians().sin());
    let left = (out.1, -out.0);
    let mut readings: Vec<f64> = (3..24)
        .filter_map(|step| {
            let off = 1.5 * f64::from(step);
            let start = (tip.0 + left.0 * off * unit, tip.1 + left.1 * off * unit);
            along_radius(picture, start, out, 75.0 * unit, near)
        })
        .collect();
    assert!(readings.len() >= 3, "the ruling cannot be counted");
    readings.sort_by(f64::total_cmp);
    readings[readings.len() / 2]
}

/// The nib's point: of all that is ink, the farthest from the arm's pivot at the upper right. The
/// loupe lets no pen at rest go farther from its middle; beyond, low on the chart, the edge of the hole for
/// the hub is ink too.
fn nib(picture: &Picture, unit: f64) -> (f64, f64) {
    let centre = 140.0 * unit;
    picture
        .like(palette::INK, 42.0)
        .filter(|(x, y)| (x - centre).hypot(y - centre) < 50.0 * unit)
        .min_by(|a, b| (a.0 - 0.35 * a.1).total_cmp(&(b.0 - 0.35 * b.1)))
        .unwrap()
}

/// A reading where a walk outwards through `start` crosses the ruled circles.
fn along_radius(
    picture: &Picture,
    start: (f64, f64),
    out: (f64, f64),
    reach: f64,
    near: f64,
) -> Option<f64> {
    let end = |sign: f64| (start.0 + sign * out.0 * reach, start.1 + sign * out.1 * reach);
    let circles = picture.crossings(end(-1.0), end(1.0), palette::CHART_INK);
    let unit = picture.side() / 280.0;
    counted(&circles, reach, unit, near)
}

/// A reading where a walk crosses at `at`, counted from the nearest circle of five divisions.
fn counted(circles: &[Crossing], at: f64, unit: f64, near: f64) -> Option<f64> {
    let below = circles.iter().rposition(|circle| circle.at <= at)?;
    let (inner, outer) = (circles.get(below)?, circles.get(below + 1)?);
    let share = (at - inner.at) / (outer.at - inner.at);
    let fives = circles.iter().enumerate().filter(|(_, circle)| circle.ink > 1.12 * unit);
    let mut fives: Vec<usize> = fives
        .filter(|(five, _)| ruled(&circles[below.min(*five)..=(below + 1).max(*five)], unit))
        .map(|(five, _)| five)
        .collect();
    fives.sort_by_key(|five| five.abs_diff(below));
    let counted = below as f64 + share - *fives.first()? as f64;
    Some(counted + ((near - counted) / 5.0).round() * 5.0)
}

/// Whether lines are circles of single divisions only: none blotted by an arc of an hour or a
/// number, none missing, none too many.
fn ruled(circles: &[Crossing], unit: f64) -> bool {
    let gaps: Vec<f64> = circles.windows(2).map(|pair| pair[1].at - pair[0].at).collect();
    let even = gaps.windows(2).all(|pair| (0.8..1.25).contains(&(pair[1] / pair[0])));
    even && circles.iter().all(|circle| (0.4..2.5).contains(&(circle.ink / unit)))
}

/// The barometer: mmHg under its pointer. `near` says which ten it is.
pub fn barometer(picture: &Picture, near: f64) -> f64 {
    let unit = picture.side() / 280.0;
    let row =
        |y: f64, hue| picture.crossings((14.0 * unit, y * unit), (266.0 * unit, y * unit), hue);
    // Marks and pointer all point to the dial's middle, 712 units down: they are told by angle.
    let deg = |x: f64, y: f64| ((x / unit + 14.0 - 140.0) / (712.0 - y)).atan().to_degrees();
    // The pointer's own edges are dark too, but thinner than any mark.
    let inked = |y: f64, least: f64| -> Vec<f64> {
        let lines = row(y, palette::INK).into_iter().filter(|line| line.ink > least * unit);
        lines.map(|line| deg(line.at, y)).collect()
    };
    let (marks, tens) = (inked(105.0, 0.6), inked(128.6, 1.9));
    let blades = row(112.0, palette::COPPER);
    let blade = blades.iter().max_by(|a, b| a.ink.total_cmp(&b.ink)).unwrap();
    let pointer = deg(blade.at, 112.0);
    let ten = tens.iter().min_by(|a, b| (*a - pointer).abs().total_cmp(&(*b - pointer).abs()));
    let above = (pointer - ten.unwrap()) / mean_gap(&marks);
    above + ((near - above) / 10.0).round() * 10.0
}

/// The thermometer: degrees at the end of its column. `near` says which five it is.
pub fn thermometer(picture: &Picture, near: f64) -> f64 {
    let unit = picture.side() / 280.0;
    let mut copper: Vec<(f64, f64)> = picture.like(palette::COPPER, 30.0).collect();
    copper.sort_by(|a, b| a.0.total_cmp(&b.0));
    // Most of the copper is the column; a wedge at the rim that points to a hidden number is not.
    let middle = copper[copper.len() / 2].0;
    let column: Vec<(f64, f64)> =
        copper.into_iter().filter(|at| (at.0 - middle).abs() < 12.0 * unit).collect();
    let axis = column.iter().map(|at| at.0).sum::<f64>() / column.len() as f64;
    let top = column.iter().map(|at| at.1).fold(f64::MAX, f64::min) - 0.5;
    let walk = |off: f64| {
        let x = axis + off * unit;
        picture.crossings((x, 6.0 * unit), (x, 274.0 * unit), palette::INK)
    };
    let halves: Vec<f64> = walk(30.0).iter().map(|mark| mark.at + 6.0 * unit).collect();
    let fives: Vec<f64> = walk(55.0).iter().map(|mark| mark.at + 6.0 * unit).collect();
    let five = fives.iter().min_by(|a, b| (*a - top).abs().total_cmp(&(*b - top).abs()));
    let above = (five.unwrap() - top) / (2.0 * mean_gap(&halves));
    above + ((near - above) / 5.0).round() * 5.0
}

/// The trace in the middle of a chart that lies loose under the glass: chart divisions. `near` says
/// which five it is.
pub fn trace(picture: &Picture, near: f64) -> f64 {
    counted_trace(picture, near).expect("the ruling cannot be counted")
}

/// The same, unless the ruling cannot be counted there, because an arc or a number blots it.
pub fn counted_trace(picture: &Picture, near: f64) -> Option<f64> {
    let unit = picture.side() / 280.0;
    let centre = 140.0 * unit;
    let deg = -113.0_f64;
    let out = (deg.to_radians().cos(), deg.to_radians().sin());
    let left = (out.1, -out.0);
    let mut readings: Vec<f64> = (-24..=24)
        .filter_map(|step| {
            let off = 1.5 * f64::from(step) * unit;
            inked_at(picture, (centre + left.0 * off, centre + left.1 * off), out, near)
        })
        .collect();
    readings.sort_by(f64::total_cmp);
    let middle = readings.get(readings.len() / 2).copied();
    middle.filter(|_| readings.len() >= 3)
}

/// A reading where a walk outwards past `middle` crosses the trace. A circle that the trace hides is
/// put back between its neighbours.
fn inked_at(picture: &Picture, middle: (f64, f64), out: (f64, f64), near: f64) -> Option<f64> {
    let unit = picture.side() / 280.0;
    let reach = 118.0 * unit;
    let end = |sign: f64| (middle.0 + sign * out.0 * reach, middle.1 + sign * out.1 * reach);
    let ink = picture.crossings(end(-1.0), end(1.0), palette::PEN_INK);
    let ink = ink.iter().filter(|line| line.ink > 0.9 * unit);
    let trace = ink.min_by(|a, b| (a.at - reach).abs().total_cmp(&(b.at - reach).abs()))?.at;
    let mut circles = picture.crossings(end(-1.0), end(1.0), palette::CHART_INK);
    circles.retain(|circle| (circle.at - trace).abs() > 2.4 * unit);
    let below = circles.iter().rposition(|circle| circle.at <= trace)?;
    let at = |n: usize| circles.get(n).map(|circle| circle.at);
    let (gap, usual) = (at(below + 1)? - at(below)?, at(below)? - at(below.checked_sub(1)?)?);
    if gap > 1.6 * usual {
        let hidden = Crossing { at: 0.5 * (at(below)? + at(below + 1)?), ink: unit };
        circles.insert(below + 1, hidden);
    }
    counted(&circles, trace, unit, near)
}

/// The timer's meter, minutes: each drum is held against drums with every figure.
pub fn meter(picture: &Picture) -> f64 {
    use paint::canvas::Canvas;
    use paint::loupe::SHEET;
    use paint::loupe::timer::{DRUM, DRUM_SIZE, DRUMS, Drum, drum};
    let unit = picture.side() / f64::from(SHEET);
    let side = picture.side() as u32;
    let mut tenths = 0.0;
    for place in 0..DRUMS {
        let at = (DRUM.0 + DRUM_SIZE.0 * place as f32, DRUM.1);
        let unlike = |digit: u8| {
            let mut canvas = Canvas::new(side, side, unit as f32);
            drum(&mut canvas, at, digit, Drum::at(place));
            let drawn = Picture::new(canvas.finish().data());
            let (mut sum, mut x) = (0.0, f64::from(at.0) + 2.0);
            while x < f64::from(at.0 + DRUM_SIZE.0) - 2.0 {
                let mut y = f64::from(at.1) + 2.0;
                while y < f64::from(at.1 + DRUM_SIZE.1) - 2.0 {
                    let here = (x * unit, y * unit);
                    sum += apart(picture.at(here.0, here.1), drawn.at(here.0, here.1));
                    y += 0.5;
                }
                x += 0.5;
            }
            sum
        };
        let digit = (0..10).min_by(|a, b| unlike(*a).total_cmp(&unlike(*b))).unwrap();
        tenths = 10.0 * tenths + f64::from(digit);
    }
    tenths / 10.0
}
