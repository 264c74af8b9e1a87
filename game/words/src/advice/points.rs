//! Power on the switched mains outlet, leak check, warm-up, and the points.

use content::advice::Deed;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::BlowerPlug;
use sim_core::session::action::{Action, OnOff, Sight};

use super::display;
use super::goal::Goal;
use super::next::{Advice, act, acts, next, wait};
use super::scene::Scene;
use crate::moves::{look_at, open_both, shut_both};

/// Chart divisions above which the blower plainly draws, and below which the pen is at its zero.
const DRAWS: f64 = 20.0;
const AT_ZERO: f64 = 8.0;
/// Run before the first point, and shortest time between change and reading, h of the chart. The trace
/// tells the start to some seconds only, which the first allows for.
const WARM_UP_H: f64 = 5.1 / 60.0;
const SETTLE_H: f64 = 2.0 / 60.0;
/// How far the pen wanders at most while the flow stands, chart divisions.
const STANDS: f64 = 1.0;
/// Openings are uncovered after so long whatever the pen does, s: a pen that sticks does not fall, and
/// the motor has no air to cool it.
const COVERED_S: f64 = 20.0;
/// Openings of the knob for flows evenly spaced down to six tenths of that fully open: the share of the
/// way down, and the opening.
const OPENINGS: [(f64, f64); 6] =
    [(0.0, 1.0), (0.15, 0.7), (0.36, 0.5), (0.55, 0.4), (0.82, 0.3), (1.0, 0.25)];

/// The next step until the blower is warm and the joints are proved tight.
pub(super) fn start(scene: &Scene<'_>) -> Option<Advice> {
    let view = &scene.view;
    if !scene.runs() {
        if view.power.blower_plug != BlowerPlug::LineOutlet {
            let plug = Action::PlugBlower { into: BlowerPlug::LineOutlet };
            return act("motor-on-line", Goal::BlowerOnLine, plug);
        }
        if view.calibrator.knob < 1.0 && scene.book.points().is_empty() {
            let open = Action::TurnKnob { opening: 1.0 };
            return act("points-spread", Goal::KnobOpenFirst, open);
        }
        return pen(scene).or_else(|| match view.power.line_switch {
            OnOff::Off => {
                let on = Action::SwitchLine { to: OnOff::On };
                act("warm-up", Goal::BlowerAtSpeed, on)
            }
            OnOff::On => wait("warm-up", Goal::BlowerAtSpeed, 10.0),
        });
    }
    if let Some(step) = pen(scene) {
        return Some(step);
    }
    if !scene.book.points().is_empty() {
        // Each plate is proved tight again.
        return view.calibrator.plates.and_then(|_| proved(scene));
    }
    proved(scene).or_else(|| warm_up(scene))
}

/// The pen ready to write.
pub(super) fn pen(scene: &Scene<'_>) -> Option<Advice> {
    let seen = &scene.view.recorder;
    let action = match (seen.capped, seen.on_paper, seen.door_open) {
        (true, _, false) => Action::OpenDoor,
        (true, _, true) => Action::UncapPen,
        (false, false, _) => Action::LowerPen,
        (false, true, _) => return None,
    };
    act("pen-on-paper", Goal::AsDone, action)
}

/// The part of the trace since the pen first rose.
fn since_start<'a>(scene: &'a Scene<'_>) -> &'a [(f64, f64)] {
    let trace = &scene.view.recorder.trace;
    let first = trace.iter().position(|&(_, pen)| pen > DRAWS).unwrap_or(trace.len());
    trace.get(first..).unwrap_or_default()
}

/// What the leak is looked for with: ears and eyes.
fn watch() -> [Action; 2] {
    [Action::Listen, look_at(Sight::Pen)]
}

/// Until covered openings are free again: nothing else can wait so little.
pub(super) fn covered(scene: &Scene<'_>) -> Option<Advice> {
    let (view, rule) = (&scene.view, "leak-check");
    if !view.calibrator.blocked {
        return None;
    }
    if !scene.history.watched() {
        return acts(rule, Goal::LeakChecked, watch().to_vec());
    }
    let fallen = view.recorder.pen.is_some_and(|pen| pen < AT_ZERO);
    let covered_s = scene.history.covered_for_s(view.tick).unwrap_or(COVERED_S);
    if fallen || covered_s >= COVERED_S {
        let mut actions = vec![Action::FreeOpenings];
        if view.tube.on_tap {
            actions.extend(open_both(view));
        }
        return acts(rule, Goal::LeakChecked, actions);
    }
    wait(rule, Goal::LeakChecked, 5.0)
}

/// Until the joints are proved tight.
pub(super) fn proved(scene: &Scene<'_>) -> Option<Advice> {
    if scene.history.leak_checked() {
        // The valves were shut for it.
        let shut = if scene.view.tube.on_tap { open_both(&scene.view) } else { Vec::new() };
        return if shut.is_empty() { None } else { acts("valves-open", Goal::AsDone, shut) };
    }
    let risen = scene.view.recorder.pen.is_none_or(|pen| pen > DRAWS);
    if since_start(scene).is_empty() || scene.view.calibrator.plates.is_some() && !risen {
        return wait("warm-up", Goal::PenRisen, 10.0);
    }
    // Covered openings put the whole suction of the blower on the water.
    let on_tap = scene.view.tube.on_tap;
    let mut actions = if on_tap { shut_both(&scene.view) } else { Vec::new() };
    actions.push(Action::BlockOpenings);
    actions.extend(watch());
    acts("leak-check", Goal::LeakChecked, actions)
}

fn warm_up(scene: &Scene<'_>) -> Option<Advice> {
    let Some(&(began, _)) = since_start(scene).first() else {
        return wait("warm-up", Goal::PenRisen, 10.0);
    };
    let left_h = WARM_UP_H - hours_since(began, scene.view.recorder.chart_hour);
    if left_h <= 0.0 {
        return None;
    }
    wait("warm-up", Goal::Warm, (left_h * 60.0).ceil() * 60.0)
}

/// Hours from one hour of the chart to a later one, past midnight too.
fn hours_since(from: f64, to: f64) -> f64 {
    (to - from).rem_euclid(24.0)
}

/// The next step of the point that is to be taken.
pub(super) fn next_point(scene: &Scene<'_>) -> Option<Advice> {
    let book = scene.book;
    let last = book.points().last().copied();
    if let Some(point) = last
        && let Some(step) = left_over(scene, point)
    {
        return Some(step);
    }
    let done = last.map_or(0, PointNumber::number);
    let point = PointNumber::try_from(done.saturating_add(1)).ok()?;
    let seen = &scene.view.recorder;
    if seen.marks.len() < usize::from(done) {
        let mark = Action::MarkChart { label: done.to_string() };
        return act("chart-marked", Goal::ChartMarked, mark);
    }
    let pen = seen.pen.unwrap_or_default();
    let chart = last.and_then(|point| book.number(Field::Chart(point)));
    let opening = opening(point.number(), scene.papers.work_order.points);
    let turned = (scene.view.calibrator.knob - opening).abs() < 0.02;
    let knob = scene.view.calibrator.plates.is_none();
    if knob && !turned && chart.is_some_and(|chart| (pen - chart).abs() <= STANDS) {
        return act("points-spread", Goal::FlowForPoint(point), Action::TurnKnob { opening });
    }
    let stands = seen
        .trace
        .iter()
        .filter(|&&(hour, _)| hours_since(hour, seen.chart_hour) <= SETTLE_H)
        .all(|&(_, at)| (at - pen).abs() <= STANDS);
    if !stands || seen.moving || scene.view.manometer.moving {
        return wait("two-minutes", Goal::FlowSettled, 120.0);
    }
    read(scene, point)
}

/// Both legs and the pen, read afresh, and then all three written.
fn read(scene: &Scene<'_>, point: PointNumber) -> Option<Advice> {
    if scene.view.manometer.display.is_some() {
        return display::read(scene, point);
    }
    let goal = Goal::PointRead(point);
    let reads = scene.reading(&[Sight::LeftLeg, Sight::RightLeg, Sight::Pen]);
    if !reads.is_empty() {
        let taps = reads.first() == Some(&Action::Tap);
        return acts(if taps { "pen-tapped" } else { "both-legs" }, goal, reads);
    }
    let fields = [Field::Up(point), Field::Down(point), Field::Chart(point)];
    next("values-as-seen", goal, fields.map(Deed::Write))
}

/// What is still to be written of a point.
pub(super) fn left_over(scene: &Scene<'_>, point: PointNumber) -> Option<Advice> {
    if scene.view.manometer.display.is_some() {
        return display::left_over(scene, point);
    }
    let lacks = |field| !scene.has(field);
    let summed = !lacks(Field::DeltaH(point));
    let (field, at, rule) = if lacks(Field::Up(point)) && !summed {
        (Field::Up(point), Sight::LeftLeg, "both-legs")
    } else if !lacks(Field::Up(point)) && lacks(Field::Down(point)) {
        (Field::Down(point), Sight::RightLeg, "both-legs")
    } else if lacks(Field::Chart(point)) {
        (Field::Chart(point), Sight::Pen, "looked-before-writing")
    } else if !summed {
        let sum = Field::DeltaH(point);
        return next("legs-added", Goal::Enter(sum), [Deed::Write(sum)]);
    } else {
        return None;
    };
    let looks = scene.reading(&[at]).into_iter().map(Deed::Do);
    next(rule, Goal::PointCompleted(field), looks.chain([Deed::Write(field)]))
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
