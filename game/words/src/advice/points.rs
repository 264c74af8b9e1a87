//! Power on the line, leak check, warm-up, and the points.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::BlowerPlug;
use sim_core::session::action::{OnOff, Sight};

use super::{Next, Scene, next};

/// Chart divisions above which the blower plainly draws, and below which the pen is at its zero.
const DRAWS: f64 = 20.0;
const AT_ZERO: f64 = 8.0;
/// Shortest run before the first point, and shortest time between change and reading, h of the chart.
const WARM_UP_H: f64 = 5.0 / 60.0;
const SETTLE_H: f64 = 2.0 / 60.0;
/// How far the pen wanders at most while the flow stands, chart divisions.
const STANDS: f64 = 1.0;
/// Openings of the knob for flows evenly spaced down to six tenths of that fully open: the share of the
/// way down, and the opening.
const OPENINGS: [(f64, f64); 6] =
    [(0.0, 1.0), (0.15, 0.7), (0.36, 0.5), (0.55, 0.4), (0.82, 0.3), (1.0, 0.25)];

/// The next step until the blower is warm and the joints are proved tight.
pub(super) fn start(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if !scene.runs() {
        if view.power.blower_plug != BlowerPlug::LineOutlet {
            let step = "Put the blower's plug into the line outlet, off the flow controller.";
            return next("motor-on-line", step, "plug blower into line outlet");
        }
        if view.calibrator.knob < 1.0 && scene.book.points().is_empty() {
            return next("points-spread", "Begin with the knob fully open.", "open knob fully");
        }
        let sentence = match view.power.line_switch {
            OnOff::Off => "switch line on",
            OnOff::On => "wait 10 s",
        };
        return pen(scene).or_else(|| next("warm-up", "Let the blower run up.", sentence));
    }
    if let Some(step) = pen(scene) {
        return Some(step);
    }
    if !scene.book.points().is_empty() {
        return None;
    }
    proved(scene).or_else(|| warm_up(scene))
}

/// The pen ready to write.
pub(super) fn pen(scene: &Scene<'_>) -> Option<Next> {
    let seen = &scene.view.recorder;
    if seen.capped {
        if !seen.door_open {
            return next("pen-on-paper", "Open the recorder's door.", "open door");
        }
        return next("pen-on-paper", "Take the cap off the pen.", "uncap pen");
    }
    if !seen.on_paper {
        return next("pen-on-paper", "Lower the pen onto the paper.", "lower pen");
    }
    None
}

/// The part of the trace since the pen first rose.
fn since_start<'a>(scene: &'a Scene<'_>) -> &'a [(f64, f64)] {
    let trace = &scene.view.recorder.trace;
    let first = trace.iter().position(|&(_, pen)| pen > DRAWS).unwrap_or(trace.len());
    trace.get(first..).unwrap_or_default()
}

/// Until the joints are proved tight.
pub(super) fn proved(scene: &Scene<'_>) -> Option<Next> {
    let view = &scene.view;
    if view.calibrator.blocked {
        let step = "Listen round the holder and watch the pen fall to its zero; uncover the openings \
            within 30 s.";
        let fallen = view.recorder.pen.is_some_and(|pen| pen < AT_ZERO);
        let done = fallen && matches!(view.focus, Sight::Pen | Sight::Recorder);
        return next("leak-check", step, if done { "uncover openings" } else { "listen" });
    }
    let since = since_start(scene);
    if since.is_empty() {
        return next("warm-up", "Let the pen rise.", "wait 10 s");
    }
    let checked = since.iter().any(|&(_, pen)| pen < AT_ZERO);
    if checked {
        return None;
    }
    let step =
        "Check for leaks: cover the openings, listen, read the pen, and uncover within 30 s.";
    next("leak-check", step, "cover openings")
}

fn warm_up(scene: &Scene<'_>) -> Option<Next> {
    let began = since_start(scene).first().map(|&(hour, _)| hour)?;
    let left_h = WARM_UP_H - hours_since(began, scene.view.recorder.chart_hour);
    if left_h <= 0.0 {
        return None;
    }
    let minutes = (left_h * 60.0).ceil();
    let step = "Let the blower run five minutes before the first point.";
    let wait = format!("wait {minutes} min");
    next("warm-up", step, if reads(scene) { "look at manometer".to_owned() } else { wait })
}

/// Hours from one hour of the chart to a later one, past midnight too.
fn hours_since(from: f64, to: f64) -> f64 {
    (to - from).rem_euclid(24.0)
}

/// The next step of the point that is to be taken.
pub(super) fn next_point(scene: &Scene<'_>) -> Option<Next> {
    let book = scene.book;
    let last = book.points().last().copied();
    if let Some(point) = last
        && let Some(step) = left_over(scene, point)
    {
        return Some(step);
    }
    let number = last.map_or(1, |point| point.number() + 1);
    let seen = &scene.view.recorder;
    if seen.marks.len() < usize::from(number - 1) {
        let step = "Mark the chart beside the trace with the number of the point.";
        return next("chart-marked", step, format!("mark chart \"{}\"", number - 1));
    }
    let pen = seen.pen.unwrap_or_default();
    let chart = last.and_then(|point| book.number(Field::Chart(point)));
    let opening = opening(number, scene.papers.work_order.points);
    let turned = (scene.view.calibrator.knob - opening).abs() < 0.02;
    if !turned && chart.is_some_and(|chart| (pen - chart).abs() <= STANDS) {
        let step =
            format!("Turn the knob for point {number}: flows evenly spaced down to the lowest.");
        return next("points-spread", step, format!("turn knob to {opening}"));
    }
    let stands = seen
        .trace
        .iter()
        .filter(|&&(hour, _)| hours_since(hour, seen.chart_hour) <= SETTLE_H)
        .all(|&(_, at)| (at - pen).abs() <= STANDS);
    if !stands || seen.moving || scene.view.manometer.moving {
        let step = "Let the flow stand two minutes; until then nothing is read.";
        return next(
            "two-minutes",
            step,
            if reads(scene) { "look at manometer" } else { "wait 2 min" },
        );
    }
    read(scene, number)
}

/// Whether the eyes are on something that is read. They leave it while the flow changes, so that what
/// is read next is read afresh.
fn reads(scene: &Scene<'_>) -> bool {
    matches!(scene.view.focus, Sight::Pen | Sight::LeftLeg | Sight::RightLeg)
}

/// Reading and writing, by where the eyes are.
fn read(scene: &Scene<'_>, number: u8) -> Option<Next> {
    let step = "Tap the recorder until the pen rests, read both legs at eye level and the pen, and \
        write all three.";
    match scene.view.focus {
        Sight::RightLeg | Sight::LeftLeg => next("both-legs", step, "read pen"),
        Sight::Pen => next("values-as-seen", step, format!("write point {number} ... ... ...")),
        Sight::Recorder => next("both-legs", step, "read both legs"),
        _ => next("pen-tapped", step, "tap three times"),
    }
}

/// What is still to be written of a point.
fn left_over(scene: &Scene<'_>, point: PointNumber) -> Option<Next> {
    let number = point.number();
    let (up, down) = (scene.has(Field::Up(point)), scene.has(Field::Down(point)));
    let step = |what: &str| format!("Point {number} lacks {what}: read it and write it down.");
    if !up && !scene.has(Field::DeltaH(point)) {
        return next(
            "both-legs",
            step("the leg that went up"),
            format!("write point {number} up ..."),
        );
    }
    if up && !down {
        let sentence = format!("write point {number} down ...");
        return next("both-legs", step("the leg that went down"), sentence);
    }
    if !scene.has(Field::Chart(point)) {
        let sentence = format!("write point {number} chart ...");
        return next("looked-before-writing", step("the chart reading"), sentence);
    }
    if !scene.has(Field::DeltaH(point)) {
        let step = format!("Add both legs of point {number}.");
        return next("legs-added", step, format!("write point {number} sum ..."));
    }
    None
}

/// The knob's opening for a point, to a twentieth.
fn opening(number: u8, wanted: u8) -> f64 {
    let steps = f64::from(wanted.max(2) - 1);
    let share = (f64::from(number.saturating_sub(1)) / steps).min(1.0);
    let mut pairs = OPENINGS.iter().zip(OPENINGS.iter().skip(1));
    let between = pairs.rfind(|((from, _), (to, _))| (*from..=*to).contains(&share));
    let opening = between.map_or(0.25, |((from, less), (to, more))| {
        less + (more - less) * (share - from) / (to - from)
    });
    (opening * 20.0).round() / 20.0
}
