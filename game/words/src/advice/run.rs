//! Filter, controller, timer and chart for the run, and for the one after it.

use sim_core::field_book::Field;
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Grip, PartPlace, RigPart, Seat, TimerSwitch, Trip,
};
use sim_core::scenario::run::ScheduledTime;
use sim_core::scenario::setup::FlowOfRun;
use sim_core::session::action::Action;
use sim_core::session::view::run::{Holes, RunStanding, RunView};

use super::goal::Goal;
use super::next::{Advice, act, acts, enter};
use super::scene::Scene;
use super::{added, back, mount, screw};
use crate::moves::{carry, set_dial_to_watch, tighten_all};

/// How far the dial or a tripper may be from its hour, h: a little more than an eye can tell.
const DIAL_H: f64 = 0.15;
/// A trace with more readings than this is on a used chart.
const USED: usize = 20;

/// The next step of a run that is ordered; none where there is none.
pub(super) fn next_step(scene: &Scene<'_>) -> Option<Advice> {
    let run = scene.view.run.as_deref()?;
    if scene.refused() {
        return None;
    }
    match run.standing {
        RunStanding::Before => {
            let number = Field::FilterNumber;
            added::next_step(scene, run)
                .or_else(|| filter(scene, run, number))
                .or_else(|| set_up(scene, run))
        }
        RunStanding::Away => None,
        RunStanding::Back => back::recover(scene, run)
            .or_else(|| set_up_next(scene, run))
            .or_else(|| back::volume(scene, run)),
    }
}

/// A fresh filter, its rough side up, under a tight frame, its number written in a field.
fn filter(scene: &Scene<'_>, run: &RunView, number: Field) -> Option<Advice> {
    let mounting = &scene.view.mounting;
    let tight = mounting.nuts.iter().all(|nut| nut.quarter_turns >= 6);
    if mounting.place(RigPart::Frame) == PartPlace::Holder && tight && scene.has(number) {
        return match mounting.lid_open {
            true => act("doors-shut", Goal::AsDone, Action::CloseLid),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    if !mounting.lid_open {
        return act("dead-before-hands", Goal::AsDone, Action::OpenLid);
    }
    let fresh = Action::TakeFilter { grip: Grip::Edges };
    match mounting.place(RigPart::Filter) {
        PartPlace::Hand if checked_over(scene, run) => {
            act("filter-fitted", Goal::CheckFilterOut, Action::Put { place: PartPlace::Case })
        }
        PartPlace::Holder if checked_over(scene, run) => {
            act("filter-fitted", Goal::CheckFilterOut, fresh)
        }
        PartPlace::Case | PartPlace::Ground
            if mounting.place(RigPart::Frame) == PartPlace::Holder =>
        {
            acts("filter-fitted", Goal::FrameOff, mount::frame_off(scene))
        }
        PartPlace::Hand => in_hand(scene, run, number),
        PartPlace::Holder if run.filter.seat == Some(Seat::Shifted) => {
            act("filter-centred", Goal::FilterCentred, Action::CentreFilter)
        }
        PartPlace::Holder if mounting.place(RigPart::Frame) != PartPlace::Holder => {
            let on = carry(&scene.view, RigPart::Frame, PartPlace::Holder);
            acts("filter-fitted", Goal::FrameOnFilter, on)
        }
        PartPlace::Holder => acts("frame-tight", Goal::NutsTight, tighten_all(&scene.view)),
        _ => act("filter-by-edges", Goal::FreshFilter, fresh),
    }
}

/// A fresh filter in the hand: looked over, turned, noted, laid down.
fn in_hand(scene: &Scene<'_>, run: &RunView, number: Field) -> Option<Advice> {
    let seen = &run.filter;
    if matches!(seen.holes, Some(Holes::Tear | Holes::Pinholes)) || seen.damp {
        let back = Action::Put { place: PartPlace::Case };
        return act("filter-sound", Goal::FilterRefused, back);
    }
    if seen.holes.is_none() {
        return act("filter-inspected", Goal::FilterInspected, Action::HoldToLight);
    }
    if seen.up == FilterSide::Smooth {
        return act("filter-rough-up", Goal::RoughSideUp, Action::TurnFilter);
    }
    if !scene.has(number) {
        let next = number == Field::NextFilterNumber;
        return enter(if next { "next-filter-written" } else { "custody-written" }, number);
    }
    act("filter-fitted", Goal::FilterOnHolder, Action::Put { place: PartPlace::Holder })
}

/// Whether the filter at hand is the one over which the flow was checked: no other one was taken yet.
fn checked_over(scene: &Scene<'_>, run: &RunView) -> bool {
    let order = &scene.papers.work_order;
    let ordered = order.run.as_ref().map_or(0, |run| run.filters.len());
    let first = usize::from(run.fresh_filters) + 1 >= ordered;
    order.check_of_own_line().is_some() && scene.has(Field::CheckOutcome) && first
}

/// The controller trimmed, the timer set, a fresh chart, and away.
fn set_up(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let power = &scene.view.power;
    if power.blower_plug != BlowerPlug::Controller {
        let plug = Action::PlugBlower { into: BlowerPlug::Controller };
        return act("timer-in-charge", Goal::BlowerOnController, plug);
    }
    if !power.sampler_cord_in {
        return act("timer-in-charge", Goal::AsDone, Action::PlugSampler);
    }
    if !scene.has(Field::StartChart) {
        return trim(scene);
    }
    if power.timer_switch == TimerSwitch::On {
        let off = Action::SwitchTimer { to: TimerSwitch::Off };
        return act("timer-as-ordered", Goal::OffForTimer, off);
    }
    let order = scene.papers.work_order.run.as_ref()?;
    if let Some(step) = timer("timer-as-ordered", [order.on, order.off], scene, run) {
        return Some(step);
    }
    if !scene.has(Field::MeterBefore) {
        return enter("meter-before", Field::MeterBefore);
    }
    if power.timer_switch != TimerSwitch::Auto {
        let auto = Action::SwitchTimer { to: TimerSwitch::Auto };
        return act("timer-in-charge", Goal::TimerInCharge, auto);
    }
    if let Some(step) = chart(["chart-at-hour", "pen-ready", "doors-shut"], scene) {
        return Some(step);
    }
    act("run-made", Goal::SiteLeft, Action::LeaveSite)
}

/// The next run's filter, timer and chart, where one is ordered.
fn set_up_next(scene: &Scene<'_>, run: &RunView) -> Option<Advice> {
    let order = scene.papers.work_order.next_run()?;
    if let Some(step) = filter(scene, run, Field::NextFilterNumber) {
        return Some(step);
    }
    let power = &scene.view.power;
    if power.blower_plug != BlowerPlug::Controller {
        let plug = Action::PlugBlower { into: BlowerPlug::Controller };
        return act("next-timer", Goal::BlowerOnController, plug);
    }
    if !power.sampler_cord_in {
        return act("next-timer", Goal::DialPowered, Action::PlugSampler);
    }
    if let Some(step) = timer("next-timer", [order.on, order.off], scene, run) {
        return Some(step);
    }
    if power.timer_switch != TimerSwitch::Auto {
        let auto = Action::SwitchTimer { to: TimerSwitch::Auto };
        return act("next-timer", Goal::TimerInCharge, auto);
    }
    chart(["next-chart"; 3], scene)
}

/// The dial as on the watch, the trippers on the ordered hours.
fn timer(
    rule: &'static str,
    [on, off]: [ScheduledTime; 2],
    scene: &Scene<'_>,
    run: &RunView,
) -> Option<Advice> {
    let (day, hours) = (scene.view.date.weekday(), scene.view.time.hours());
    let dial = &run.timer;
    if dial.weekday != day || (dial.hours - hours).abs() > DIAL_H {
        return act(rule, Goal::DialSet, set_dial_to_watch(&scene.view));
    }
    // The days of the order count from the day on which the work began.
    let first = scene.papers.station.date;
    for (trip, at, stands) in [(Trip::On, on, dial.on), (Trip::Off, off, dial.off)] {
        let weekday = first.later(i64::from(at.day)).weekday();
        let hours = at.at.hours();
        if stands.weekday != Some(weekday) || (stands.hours - hours).abs() > DIAL_H {
            let set = Action::SetTripper { trip, weekday, hours };
            return act(rule, Goal::TripperSet(trip), set);
        }
        if stands.loose == Some(true) {
            return act(rule, Goal::TripperTight(trip), Action::FastenTripper { trip });
        }
    }
    None
}

/// A fresh chart, the pen on it, the door shut; the rules that ask for each.
fn chart([fresh, pen, door]: [&'static str; 3], scene: &Scene<'_>) -> Option<Advice> {
    let recorder = &scene.view.recorder;
    if recorder.trace.len() > USED {
        let action = match (recorder.door_open, recorder.on_paper) {
            (false, _) => Action::OpenDoor,
            (true, true) => Action::LiftPen,
            (true, false) => Action::FitChart,
        };
        return act(fresh, Goal::FreshChart, action);
    }
    if recorder.capped || !recorder.on_paper {
        let action = match (recorder.door_open, recorder.capped) {
            (false, _) => Action::OpenDoor,
            (true, true) => Action::UncapPen,
            (true, false) => Action::LowerPen,
        };
        return act(pen, Goal::PenOnPaper, action);
    }
    if recorder.door_open {
        return act(door, Goal::AsDone, Action::CloseDoor);
    }
    None
}

fn trim(scene: &Scene<'_>) -> Option<Advice> {
    let recorder = &scene.view.recorder;
    let ready = match (recorder.door_open, recorder.capped, recorder.on_paper) {
        (false, _, _) => Some(Action::OpenDoor),
        (true, true, _) => Some(Action::UncapPen),
        (true, false, false) => Some(Action::LowerPen),
        (true, false, true) => None,
    };
    if let Some(action) = ready {
        return act("pen-ready", Goal::AsDone, action);
    }
    if scene.view.power.timer_switch != TimerSwitch::On {
        let on = Action::SwitchTimer { to: TimerSwitch::On };
        return act("set-on-warm-blower", Goal::WarmOnController, on);
    }
    if let Some(step) = screw::warm(scene) {
        return Some(step);
    }
    // The screw at which the standard told the flow is left alone.
    let check = scene.papers.work_order.check_of_own_line();
    let left_alone = check.is_some_and(|check| check.flow_of_run == FlowOfRun::Check);
    if !left_alone && let Some(step) = screw::brought(scene) {
        return Some(step);
    }
    screw::tapped(scene).or_else(|| enter("trimmed-to-set-point", Field::StartChart))
}
