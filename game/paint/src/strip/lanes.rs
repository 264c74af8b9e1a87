//! The lower part of the strip: what manometer and pen traced, and with the truth the flow.

use sim_core::marking::time_line::NoteKind;
use sim_core::procedure::Instrument;
use sim_core::session::history::GaugeSample;

use super::layout::{GAP, ShowTruth, StripScale, TRACE, TimelineStrip};
use crate::canvas::{Canvas, Lettering, LineWeight, Point, TextAlign};
use crate::palette::{COPPER, INK, INK_FAINT, INK_SOFT, PEN_INK, PaletteColor, WATER_DEEP};
use crate::text::FontStyle;

/// A curve through a lane.
struct Curve<'a> {
    value: &'a dyn Fn(&GaugeSample) -> Option<f64>,
    hue: PaletteColor,
    line: LineWeight,
    of: Of,
}

/// What a curve shows. True values are dashed, so that they differ without colour.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Of {
    Seen,
    ShowTruth,
}

/// Draws them from `top` on, and says where they end.
pub fn draw(canvas: &mut Canvas, strip: &TimelineStrip<'_>, sheet: &StripScale, top: f32) -> f32 {
    let leg = |leg: usize| {
        move |sample: &GaugeSample| sample.seen.legs_in.and_then(|legs| legs.get(leg).copied())
    };
    let (up, down) = (leg(0), leg(1));
    let half = |sign: f64| {
        move |sample: &GaugeSample| {
            sample.seen.legs_in.map(|_| sign * 0.5 * sample.truth.orifice_inh2o)
        }
    };
    let (true_up, true_down) = (half(1.0), half(-1.0));
    let pen = |sample: &GaugeSample| sample.seen.pen;
    let true_pen = |sample: &GaugeSample| Some(sample.truth.undisturbed_pen);
    let flow = |sample: &GaugeSample| Some(sample.truth.flow_std_m3_min);
    let through = |sample: &GaugeSample| Some(sample.truth.calibrator_flow_std_m3_min);
    let seen = |value, hue, width| Curve { value, hue, line: LineWeight(width), of: Of::Seen };
    let truth =
        |value, width| Curve { value, hue: WATER_DEEP, line: LineWeight(width), of: Of::ShowTruth };

    let mut lanes: Vec<(&str, Vec<Curve<'_>>, &[Instrument])> = vec![
        (
            "legs, in",
            vec![seen(&up, INK, 1.6), seen(&down, INK_SOFT, 1.2)],
            &[Instrument::LegUp, Instrument::LegDown],
        ),
        ("pen", vec![seen(&pen, PEN_INK, 1.6)], &[Instrument::Pen]),
    ];
    if strip.truth == ShowTruth::Shown {
        lanes[0].1.extend([truth(&true_up, 1.4), truth(&true_down, 1.0)]);
        lanes[1].1.push(truth(&true_pen, 1.4));
        lanes.push(("flow, m\u{b3}/min", vec![truth(&flow, 1.6), truth(&through, 1.0)], &[]));
    }
    let mut y = top;
    for (name, curves, read) in lanes {
        y += GAP * sheet.unit;
        lane(canvas, strip, sheet, (y, name), &curves);
        written(canvas, strip, sheet, y, &curves, read);
        y += TRACE * sheet.unit;
    }
    y
}

/// From the least to the most of a lane's curves, with zero in it; never narrower than a division.
fn span(samples: &[GaugeSample], curves: &[Curve<'_>]) -> (f64, f64) {
    let values =
        samples.iter().flat_map(|sample| curves.iter().filter_map(|curve| (curve.value)(sample)));
    let finite = values.filter(|value| value.is_finite());
    let (least, most) =
        finite.fold((0.0_f64, 1.0_f64), |(least, most), value| (least.min(value), most.max(value)));
    let room = 0.06 * (most - least);
    (least - if least < 0.0 { room } else { 0.0 }, most + room)
}

fn height(sheet: &StripScale, top: f32, (least, most): (f64, f64), value: f64) -> f32 {
    top + TRACE * sheet.unit * (1.0 - ((value - least) / (most - least)) as f32)
}

fn lane(
    canvas: &mut Canvas,
    strip: &TimelineStrip<'_>,
    sheet: &StripScale,
    (top, name): (f32, &str),
    curves: &[Curve<'_>],
) {
    let span = span(strip.samples, curves);
    let (left, right) = (sheet.left(), sheet.right());
    let bottom = top + TRACE * sheet.unit;
    sheet.name(canvas, 0.5 * (top + bottom), name);
    canvas.line((left, top), (left, bottom), INK_SOFT.color(), LineWeight::FINE);
    for value in rungs(span) {
        let y = height(sheet, top, span, value);
        canvas.line((left, y), (right, y), INK_FAINT.faded(0.5), LineWeight::FINE);
        let set = Lettering::new(FontStyle::Regular, 0.8 * sheet.size(), INK).align(TextAlign::End);
        let at = (left - 4.0 * sheet.unit, y + 0.3 * sheet.size());
        // The name of the lane is in the middle.
        if (y - 0.5 * (top + bottom)).abs() > sheet.size() {
            canvas.text(at, &format!("{value}").replace('-', "\u{2212}"), set);
        }
    }
    for curve in curves {
        let points = strip.samples.iter().map(|sample| {
            let value = (curve.value)(sample).filter(|value| value.is_finite())?;
            Some((sheet.x(sample.tick), height(sheet, top, span, value)))
        });
        for stroke in strokes(points) {
            draw_curve(canvas, sheet, &stroke, curve);
        }
    }
}

/// The rungs of a lane's ladder: two or three round values.
fn rungs((least, most): (f64, f64)) -> Vec<f64> {
    let step = [0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0]
        .into_iter()
        .find(|step| (most - least) / step <= 4.0);
    let step = step.unwrap_or(100.0);
    let first = (least / step).ceil() as i64;
    let last = (most / step).floor() as i64;
    (first..=last).map(|rung| rung as f64 * step).collect()
}

/// Points without those that would fall into the pixels of the one before, in strokes: where there
/// is nothing, the pen is lifted.
fn strokes(points: impl Iterator<Item = Option<Point>>) -> Vec<Vec<Point>> {
    let mut strokes: Vec<Vec<Point>> = Vec::new();
    let mut down = false;
    for point in points {
        let Some(point) = point else {
            down = false;
            continue;
        };
        match strokes.last_mut().filter(|_| down) {
            Some(stroke) => {
                let near = stroke.last().is_some_and(|last| {
                    (last.0 - point.0).abs() < 0.3 && (last.1 - point.1).abs() < 0.3
                });
                if !near {
                    stroke.push(point);
                }
            }
            None => strokes.push(vec![point]),
        }
        down = true;
    }
    strokes
}

fn draw_curve(canvas: &mut Canvas, sheet: &StripScale, points: &[Point], curve: &Curve<'_>) {
    let line = LineWeight(curve.line.0 * sheet.unit);
    match curve.of {
        Of::Seen => canvas.polyline(points, curve.hue.color(), line),
        Of::ShowTruth => {
            for dash in dashes(points, 7.0 * sheet.unit, 4.0 * sheet.unit) {
                canvas.polyline(&dash, curve.hue.color(), line);
            }
        }
    }
}

/// A line in dashes of a length, with gaps.
fn dashes(points: &[Point], dash: f32, gap: f32) -> Vec<Vec<Point>> {
    let mut dashes: Vec<Vec<Point>> = Vec::new();
    let mut along = 0.0_f32;
    for pair in points.windows(2) {
        let &[(x0, y0), (x1, y1)] = pair else { continue };
        let length = (x1 - x0).hypot(y1 - y0);
        let mut done = 0.0_f32;
        while done < length {
            let phase = (along + done) % (dash + gap);
            let inked = phase < dash;
            let left = if inked { dash - phase } else { dash + gap - phase };
            // An empty step would never end.
            let step = left.min(length - done).max(1e-3);
            if inked {
                let at = |way: f32| {
                    let share = (way / length).min(1.0);
                    (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
                };
                let (from, to) = (at(done), at(done + step));
                match dashes.last_mut() {
                    Some(last) if phase > 0.0 && last.last() == Some(&from) => last.push(to),
                    _ => dashes.push(vec![from, to]),
                }
            }
            done += step;
        }
        along += length;
    }
    dashes
}

/// What was written of a lane's instruments, at the moments at which it was.
fn written(
    canvas: &mut Canvas,
    strip: &TimelineStrip<'_>,
    sheet: &StripScale,
    top: f32,
    curves: &[Curve<'_>],
    read: &[Instrument],
) {
    let span = span(strip.samples, curves);
    for note in &strip.line.notes {
        let NoteKind::Reading(number) = note.what else { continue };
        let Some(reading) = strip.marks.readings.get(number) else { continue };
        if !read.contains(&reading.instrument) {
            continue;
        }
        // Legs are written without their sign; on the scale one is below zero.
        let value = match reading.instrument {
            Instrument::LegDown => -reading.written.abs(),
            Instrument::LegUp => reading.written.abs(),
            _ => reading.written,
        };
        let value = value.clamp(span.0, span.1);
        let at = (sheet.x(note.tick), height(sheet, top, span, value));
        canvas.disc(
            at,
            2.6 * sheet.unit,
            COPPER.color(),
            Some((INK.color(), LineWeight(0.7 * sheet.unit))),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::{dashes, rungs, strokes};

    #[test]
    fn ladders_have_a_few_round_rungs() {
        assert_eq!(rungs((-3.1, 3.1)), [-2.0, 0.0, 2.0]);
        assert_eq!(rungs((0.0, 60.0)), [0.0, 20.0, 40.0, 60.0]);
        assert_eq!(rungs((0.0, 1.06)), [0.0, 0.5, 1.0]);
    }

    #[test]
    fn a_gap_lifts_the_pen_and_a_standing_one_leaves_one_point() {
        let points = [Some((0.0, 0.0)), Some((0.1, 0.0)), Some((5.0, 1.0)), None, Some((9.0, 0.0))];
        let strokes = strokes(points.into_iter());
        assert_eq!(strokes, [vec![(0.0, 0.0), (5.0, 1.0)], vec![(9.0, 0.0)]]);
    }

    #[test]
    fn dashes_cover_their_share_of_a_line() {
        let inked: f32 = dashes(&[(0.0, 0.0), (55.0, 0.0), (110.0, 0.0)], 7.0, 4.0)
            .iter()
            .flat_map(|dash| dash.windows(2).map(|pair| pair[1].0 - pair[0].0).collect::<Vec<_>>())
            .sum();
        assert!((inked - 70.0).abs() < 0.5, "{inked}");
    }
}
