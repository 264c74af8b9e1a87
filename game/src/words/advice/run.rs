//! Filter, controller, timer and chart for the run, and for the one after it.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, FilterSide, PartPlace, RigPart, Seat, TimerSwitch};
use sim_core::scenario::run::ScheduledTime;
use sim_core::scenario::setup::FlowOfRun;
use sim_core::session::view::run::{Holes, RunStanding, RunView};

use super::{Next, Scene, back, mount, next, screw};
use crate::words;

/// The next step of a run that is ordered; none where there is none.
pub(super) fn next_step(scene: &Scene<'_>) -> Option<Next> {
    let run = scene.view.run.as_deref()?;
    if scene.refused() {
        return None;
    }
    match run.standing {
        RunStanding::Before => filter(scene, run, Field::FilterNumber).or_else(|| arm(scene, run)),
        RunStanding::Away => None,
        RunStanding::Back => back::recover(scene, run)
            .or_else(|| arm_next(scene, run))
            .or_else(|| back::volume(scene, run)),
    }
}

/// A fresh filter, its rough side up, under a tight frame, its number written in a field.
fn filter(scene: &Scene<'_>, run: &RunView, number: Field) -> Option<Next> {
    let (seen, mounting) = (&run.filter, &scene.view.mounting);
    let place = |part| mounting.place(part);
    let tight = mounting.nuts.iter().all(|nut| nut.quarter_turns >= 6);
    if place(RigPart::Frame) == PartPlace::Holder && tight && scene.has(number) {
        return match mounting.lid_open {
            true => next("doors-shut", "Close the lid.", "close lid"),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    if !mounting.lid_open {
        return next("dead-before-hands", "Open the lid of the shelter.", "open lid");
    }
    let held = mounting.nuts.iter().any(|nut| nut.quarter_turns > 0);
    match place(RigPart::Filter) {
        PartPlace::Holder | PartPlace::Hand if checked_over(scene, run) => {
            let held = place(RigPart::Filter) == PartPlace::Hand;
            let sentence = if held { "put it in case" } else { "take filter by its edges" };
            next("filter-fitted", "Take out the filter over which the flow was checked.", sentence)
        }
        PartPlace::Case | PartPlace::Ground if place(RigPart::Frame) == PartPlace::Holder => {
            let sentence = if held { "loosen nuts" } else { "carry frame to ground" };
            next("filter-fitted", "Take the frame off.", sentence)
        }
        PartPlace::Hand
            if matches!(seen.holes, Some(Holes::Tear | Holes::Pinholes)) || seen.damp =>
        {
            next("filter-sound", "This filter cannot be used: take another.", "put it in case")
        }
        PartPlace::Hand if seen.holes.is_none() => {
            let step = "Hold the filter against the light.";
            next("filter-inspected", step, "hold filter to light")
        }
        PartPlace::Hand if seen.up == FilterSide::Smooth => {
            next("filter-rough-up", "Turn the rough side up.", "turn filter over")
        }
        PartPlace::Hand if !scene.has(number) => {
            let step = "Write the filter's number.";
            match number {
                Field::NextFilterNumber => {
                    next("next-filter-written", step, "write next filter number ...")
                }
                _ => next("custody-written", step, "write filter number ..."),
            }
        }
        PartPlace::Hand => next("filter-fitted", "Lay it on the holder.", "put it on holder"),
        PartPlace::Holder if seen.seat == Some(Seat::Shifted) => {
            let step = "The filter lies shifted: frame off, and centre it.";
            next("filter-centred", step, "centre filter")
        }
        PartPlace::Holder if place(RigPart::Frame) != PartPlace::Holder => {
            next("filter-fitted", "Lay the frame on the filter.", "carry frame to holder")
        }
        PartPlace::Holder => next("frame-tight", "Tighten the nuts.", "tighten nuts"),
        _ => next("filter-by-edges", "Take a fresh filter.", "take filter by its edges"),
    }
}

/// Whether the filter at hand is the one over which the flow was checked: no other one was taken yet.
fn checked_over(scene: &Scene<'_>, run: &RunView) -> bool {
    let order = &scene.papers.work_order;
    let ordered = order.run.as_ref().map_or(0, |run| run.filters.len());
    let first = usize::from(run.fresh_filters) + 1 >= ordered;
    order.check_of_own_line().is_some() && scene.has(Field::CheckOutcome) && first
}

/// The controller trimmed, the timer set, a fresh chart, and away.
fn arm(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let power = &scene.view.power;
    if power.blower_plug != BlowerPlug::Controller {
        let step = "Put the blower's plug into the flow controller.";
        return next("timer-in-charge", step, "plug blower into controller");
    }
    if !power.sampler_cord_in {
        return next("timer-in-charge", "Put the sampler's cord in.", "plug in sampler");
    }
    if !scene.has(Field::StartChart) {
        return trim(scene);
    }
    if power.timer_switch == TimerSwitch::On {
        return next("timer-as-ordered", "Stop the blower, and set the timer.", "set timer to off");
    }
    let order = scene.papers.work_order.run.as_ref()?;
    if let Some(step) = timer("timer-as-ordered", [order.on, order.off], scene, run) {
        return Some(step);
    }
    if !scene.has(Field::MeterBefore) {
        return next("meter-before", "Write the meter's reading.", "write meter before ...");
    }
    if power.timer_switch != TimerSwitch::Auto {
        return next("timer-in-charge", "Leave the timer in charge.", "set timer to auto");
    }
    if let Some(step) = chart(["chart-at-hour", "pen-ready", "doors-shut"], scene) {
        return Some(step);
    }
    next("run-made", "All is ready: leave the site to the run.", "leave site")
}

/// The next run's filter, timer and chart, where one is ordered.
fn arm_next(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let order = scene.papers.work_order.next_run()?;
    if let Some(step) = filter(scene, run, Field::NextFilterNumber) {
        return Some(step);
    }
    let power = &scene.view.power;
    if power.blower_plug != BlowerPlug::Controller {
        let step = "Put the blower's plug into the flow controller.";
        return next("next-timer", step, "plug blower into controller");
    }
    if !power.sampler_cord_in {
        let step = "Put the sampler's cord in: without mains the dial stands still.";
        return next("next-timer", step, "plug in sampler");
    }
    if let Some(step) = timer("next-timer", [order.on, order.off], scene, run) {
        return Some(step);
    }
    if power.timer_switch != TimerSwitch::Auto {
        return next("next-timer", "Leave the timer in charge.", "set timer to auto");
    }
    chart(["next-chart"; 3], scene)
}

/// The dial as on the watch, the trippers on the ordered hours.
fn timer(
    rule: &'static str,
    [on, off]: [ScheduledTime; 2],
    scene: &Scene<'_>,
    run: &RunView,
) -> Option<Next> {
    let (day, hours) = (scene.view.date.weekday(), scene.view.time.hours());
    let dial = &run.timer;
    if dial.weekday != day || (dial.hours - hours).abs() > 0.15 {
        return next(rule, "Set the timer's dial to your watch.", "set dial to watch");
    }
    // The days of the order count from the day on which the work began.
    let first = scene.papers.station.date;
    for (name, at, stands) in [("on", on, dial.on), ("off", off, dial.off)] {
        let wanted = first.later(i64::from(at.day)).weekday();
        let off = (stands.hours - at.at.hours()).abs();
        if stands.weekday != Some(wanted) || off > 0.15 {
            let step = format!("Set the {name} tripper to its day and hour.");
            let day = words::weekday(wanted);
            let clock: String = at.at.to_string().chars().take(5).collect();
            let sentence = format!("set {name} tripper to {day} at {clock}");
            return next(rule, step, sentence);
        }
        if stands.loose == Some(true) {
            let step = format!("The {name} tripper gives way: tighten its screw.");
            return next(rule, step, format!("tighten {name} tripper"));
        }
    }
    None
}

/// A fresh chart, the pen on it, the door shut; the rules that ask for each.
fn chart([fresh, pen, door]: [&'static str; 3], scene: &Scene<'_>) -> Option<Next> {
    let recorder = &scene.view.recorder;
    if recorder.trace.len() > 20 {
        let sentence = match (recorder.door_open, recorder.on_paper) {
            (false, _) => "open door",
            (true, true) => "lift pen",
            (true, false) => "fit chart",
        };
        return next(fresh, "Fit a fresh chart, the pen lifted.", sentence);
    }
    if recorder.capped || !recorder.on_paper {
        let sentence = match (recorder.door_open, recorder.capped) {
            (false, _) => "open door",
            (true, true) => "uncap pen",
            (true, false) => "lower pen",
        };
        return next(pen, "Set the pen on the paper.", sentence);
    }
    if recorder.door_open {
        return next(door, "Close the recorder's door.", "close door");
    }
    None
}

fn trim(scene: &Scene<'_>) -> Option<Next> {
    let recorder = &scene.view.recorder;
    if !recorder.door_open {
        return next("pen-ready", "Open the recorder's door.", "open door");
    }
    if recorder.capped {
        return next("pen-ready", "Uncap the pen.", "uncap pen");
    }
    if !recorder.on_paper {
        return next("pen-ready", "Lower the pen.", "lower pen");
    }
    if scene.view.power.timer_switch != TimerSwitch::On {
        let step = "Start the blower on its controller and let it run five minutes.";
        return next("set-on-warm-blower", step, "set timer to on");
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
    if let Some(step) = screw::tapped(scene) {
        return Some(step);
    }
    let step = "Write where the pen stands.";
    next("trimmed-to-set-point", step, "write start chart ...")
}
