//! Filter, controller, timer and chart for the run; coming back; the volume.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, FilterSide, Part, Place, Seat, TimerSwitch};
use sim_core::scenario::run::Moment;
use sim_core::session::view::run::{Holes, RunStanding, RunView};

use super::{Next, Scene, mount, next};
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
        RunStanding::Back => {
            recover(scene, run).or_else(|| arm_next(scene, run)).or_else(|| volume(scene, run))
        }
    }
}

/// A fresh filter, its rough side up, under a tight frame, its number written in a field.
fn filter(scene: &Scene<'_>, run: &RunView, number: Field) -> Option<Next> {
    let (seen, mounting) = (&run.filter, &scene.view.mounting);
    let place = |part| mounting.place(part);
    let tight = mounting.nuts.iter().all(|nut| nut.quarter_turns >= 6);
    if place(Part::Frame) == Place::Holder && tight && scene.has(number) {
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
    match place(Part::Filter) {
        Place::Case | Place::Ground if place(Part::Frame) == Place::Holder => {
            let sentence = if held { "loosen nuts" } else { "carry frame to ground" };
            next("filter-fitted", "Take the frame off.", sentence)
        }
        Place::Hand if matches!(seen.holes, Some(Holes::Tear | Holes::Pinholes)) || seen.damp => {
            next("filter-sound", "This filter cannot be used: take another.", "put it in case")
        }
        Place::Hand if seen.holes.is_none() => {
            let step = "Hold the filter against the light.";
            next("filter-inspected", step, "hold filter to light")
        }
        Place::Hand if seen.up == FilterSide::Smooth => {
            next("filter-rough-up", "Turn the rough side up.", "turn filter over")
        }
        Place::Hand if !scene.has(number) => {
            let step = "Write the filter's number.";
            match number {
                Field::NextFilterNumber => {
                    next("next-filter-written", step, "write next filter number ...")
                }
                _ => next("custody-written", step, "write filter number ..."),
            }
        }
        Place::Hand => next("filter-fitted", "Lay it on the holder.", "put it on holder"),
        Place::Holder if seen.seat == Some(Seat::Shifted) => {
            let step = "The filter lies shifted: frame off, and centre it.";
            next("filter-centred", step, "centre filter")
        }
        Place::Holder if place(Part::Frame) != Place::Holder => {
            next("filter-fitted", "Lay the frame on the filter.", "carry frame to holder")
        }
        Place::Holder => next("frame-tight", "Tighten the nuts.", "tighten nuts"),
        _ => next("filter-by-edges", "Take a fresh filter.", "take filter by its edges"),
    }
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
    [on, off]: [Moment; 2],
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
            let (hour, minute, _) = at.at.parts();
            let sentence = format!("set {name} tripper to {day} at {hour}:{minute:02}");
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
    let step = "After five minutes tap, read the pen, turn the screw until it stands at the set \
                point, and write where it stands.";
    next("trimmed-to-set-point", step, "write start chart ...")
}

/// Meter, chart, end reading, filter.
fn recover(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let (power, recorder) = (&scene.view.power, &scene.view.recorder);
    if !scene.has(Field::MeterAfter) {
        let step = "Read the meter before anything runs.";
        return next("meter-after", step, "write meter after ...");
    }
    if run.kept_chart.is_none() {
        let sentence = match (recorder.door_open, recorder.on_paper) {
            (false, _) => "open door",
            (true, true) => "lift pen",
            (true, false) => "take chart off",
        };
        return next("chart-kept", "Take the chart off and keep it.", sentence);
    }
    if !scene.has(Field::EndChart) {
        let step = "Lower the pen, run the blower five minutes, tap and read the pen.";
        let running = power.timer_switch == TimerSwitch::On;
        let sentence = match (recorder.on_paper, running) {
            (false, _) => "lower pen",
            (true, false) => "set timer to on",
            (true, true) => "write end chart ...",
        };
        return next("end-reading", step, sentence);
    }
    let seen = &run.filter;
    if run.sample.is_some() || seen.folded_out.is_some() && seen.in_envelope {
        return match scene.has(Field::Custody) {
            true => None,
            false => next("custody-written", "Write who has the sample.", "write custody ..."),
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    let mounting = &scene.view.mounting;
    if !mounting.lid_open {
        return next("dead-before-hands", "Open the lid of the shelter.", "open lid");
    }
    if mounting.place(Part::Frame) == Place::Holder {
        let on = mounting.nuts.iter().any(|nut| nut.quarter_turns > 0);
        let sentence = if on { "loosen nuts" } else { "carry frame to ground" };
        return next("filter-folded", "Take the frame off.", sentence);
    }
    let step = "Take the filter out by its edges, fold it dirty side in, put it in its envelope.";
    let sentence = match (mounting.place(Part::Filter), seen.folded_out) {
        (Place::Hand, None) => "fold filter smooth side out",
        (Place::Hand, Some(_)) => "put it in case",
        _ => "take filter by its edges",
    };
    next("filter-folded", step, sentence)
}

/// The sums of the run.
fn volume(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let fields = [
        (Field::RunMinutes, "run-minutes", "Subtract the meter readings.", "write run minutes ..."),
        (
            Field::MeanChart,
            "mean-chart",
            "Read the trace hour by hour (look at recorder), and take the mean.",
            "write mean chart ...",
        ),
        (
            Field::RunPressure,
            "run-air",
            "Take the mean pressure of the run from the weather sheet.",
            "write run pressure ...",
        ),
        (
            Field::RunTemperature,
            "run-air",
            "Take the mean temperature of the run from the weather sheet.",
            "write run temperature ...",
        ),
        (
            Field::RunFlow,
            "run-volume",
            "Work out the mean flow: (I sqrt(P/760 298/T) - intercept)/slope.",
            "write run flow ...",
        ),
        (Field::Volume, "run-volume", "Volume is flow times minutes.", "write volume ..."),
        (
            Field::Concentration,
            "concentration",
            "Look at the filter for its masses: (W2 - W1) 10^6 / V, grams and m3.",
            "write concentration ...",
        ),
        (
            Field::Validity,
            "validity-judged",
            "Valid or not: 1380 to 1500 min, 1.1 to 1.7 m3/min, a sound filter.",
            "write validity ...",
        ),
    ];
    fields
        .into_iter()
        .filter(|(field, ..)| *field != Field::Concentration || run.masses.is_some())
        .find(|(field, ..)| !scene.has(*field))
        .and_then(|(_, rule, step, sentence)| next(rule, step, sentence))
}
