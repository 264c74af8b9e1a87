//! A warm blower on its controller, and the pen brought to the set point by the controller's screw.

use sim_core::calibration::{AirConditions, TransferStandard};
use sim_core::field_book::Field;
use sim_core::session::action::{Action, Sight};

use super::goal::Goal;
use super::next::{Advice, act, acts, wait};
use super::scene::Scene;

/// Running time before anything is read, h of the chart.
const WARM_UP_H: f64 = 5.0 / 60.0;
/// Both ends of a time on the chart are seen to the minute, so that it may be shorter by this, h.
const SEEN_TO_H: f64 = 1.0 / 60.0;
/// A pen above this draws, one below it rests, chart divisions.
const DRAWS: f64 = 15.0;
/// The pen stands at the set point within so much, chart divisions.
const NEAR: f64 = 0.5;
/// Chart divisions by which a turn of the screw moves the pen, about.
const DIVISIONS_A_TURN: f64 = 2.5;
/// The standard shows the ordered flow within so much of it: a quarter turn moves it by one percent.
const NEAR_FLOW: f64 = 0.008;
/// Flow by which a turn of the screw changes it, about, m3/min.
const FLOW_A_TURN_M3_MIN: f64 = 0.05;
/// The pen has come to rest when it wandered by no more than so much for so long: chart divisions, h.
const STANDS: f64 = 0.5;
const RESTS_H: f64 = 25.0 / 3600.0;
/// Most that one step turns the screw, turns: that of the action.
const MOST_TURNS: f64 = 5.0;

/// Until the blower has run five minutes since it was last started, as the trace shows.
pub(super) fn warm(scene: &Scene<'_>) -> Option<Advice> {
    let seen = &scene.view.recorder;
    let rested = seen.trace.iter().rposition(|&(_, pen)| pen < DRAWS);
    let began = seen.trace.get(rested.map_or(0, |at| at + 1)).map(|&(hour, _)| hour);
    let rule = "set-on-warm-blower";
    let Some(began) = began else { return wait(rule, Goal::PenRisen, 10.0) };
    let left_h = WARM_UP_H + SEEN_TO_H - (seen.chart_hour - began).rem_euclid(24.0);
    // A trace that began yesterday is warm too.
    if left_h <= 0.0 {
        return None;
    }
    wait(rule, Goal::WarmOnController, (left_h * 60.0).ceil() * 60.0)
}

/// Until the pen was tapped and read.
pub(super) fn tapped(scene: &Scene<'_>) -> Option<Advice> {
    acts("pen-tapped", Goal::PenTappedAndRead, scene.reading(&[Sight::Pen]))
}

/// Whether the pen has stood still since the controller was last set.
fn at_rest(scene: &Scene<'_>) -> bool {
    let seen = &scene.view.recorder;
    let Some(pen) = seen.pen else { return false };
    let fresh = |&&(hour, _): &&(f64, f64)| (seen.chart_hour - hour).rem_euclid(24.0) <= RESTS_H;
    !seen.moving && seen.trace.iter().filter(fresh).all(|&(_, at)| (at - pen).abs() <= STANDS)
}

/// Until the standard shows the ordered flow.
pub(super) fn brought_by_standard(scene: &Scene<'_>) -> Option<Advice> {
    let rule = "check-trimmed";
    let seen = &scene.view.manometer;
    if seen.moving || !at_rest(scene) {
        return wait(rule, Goal::ControllerAtRest, 30.0);
    }
    let reads = scene.reading(&[Sight::LeftLeg, Sight::RightLeg]);
    if !reads.is_empty() {
        return acts(rule, Goal::AtOrderedFlow, reads);
    }
    let number = |field| scene.book.number(field);
    let pair = (number(Field::CertificateSlope)?, number(Field::CertificateIntercept)?);
    let air = AirConditions::as_read(number(Field::Pressure)?, number(Field::Temperature)?).ok()?;
    let sum_in = seen.left.meniscus_in - seen.right.meniscus_in;
    let delta_h_in = sum_in * seen.fluid.relative_density();
    let flow = TransferStandard::new(pair.0, pair.1).ok()?.flow_std_m3_min(delta_h_in, air).ok()?;
    let off = scene.papers.work_order.target_flow_std_m3_min / flow - 1.0;
    if off.abs() <= NEAR_FLOW {
        return None;
    }
    turn(rule, Goal::AtOrderedFlow, off * flow / FLOW_A_TURN_M3_MIN)
}

/// Turns the screw, by quarter turns and one of them at least.
fn turn(rule: &'static str, goal: Goal, turns: f64) -> Option<Advice> {
    let least = 0.25_f64.copysign(turns);
    let quarters = (turns * 4.0).round() / 4.0;
    let turns = if quarters == 0.0 { least } else { quarters.clamp(-MOST_TURNS, MOST_TURNS) };
    act(rule, goal, Action::TurnTrim { turns })
}

/// Until the tapped pen stands at the set point.
pub(super) fn brought(scene: &Scene<'_>) -> Option<Advice> {
    let wanted = scene.book.number(Field::SetPoint)?;
    let pen = scene.view.recorder.pen?;
    let rule = "trimmed-to-set-point";
    if !at_rest(scene) {
        return wait(rule, Goal::ControllerAtRest, 30.0);
    }
    if let Some(step) = tapped(scene) {
        return Some(step);
    }
    let off = wanted - pen;
    if off.abs() <= NEAR {
        return None;
    }
    turn(rule, Goal::AtSetPoint, off / DIVISIONS_A_TURN)
}
