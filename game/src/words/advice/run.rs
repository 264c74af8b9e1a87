//! Filter, controller, timer and chart for the run; coming back; the volume.

use sim_core::field_book::Field;
use sim_core::rig::parts::{BlowerPlug, FilterSide, Part, Place, Seat, TimerSwitch};
use sim_core::scenario::setup::FlowOfRun;
use sim_core::session::view::run::{Holes, RunStanding, RunView};

use super::{Next, Scene, mount, next, screw};
use crate::words;

/// The next step of a run that is ordered; none where there is none.
pub(super) fn next_step(scene: &Scene<'_>) -> Option<Next> {
    let run = scene.view.run.as_deref()?;
    if scene.refused() {
        return None;
    }
    match run.standing {
        RunStanding::Before => filter(scene, run).or_else(|| arm(scene, run)),
        RunStanding::Away => None,
        RunStanding::Back => recover(scene, run).or_else(|| volume(scene, run)),
    }
}

/// A fresh filter, its rough side up, under a tight frame.
fn filter(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let (seen, mounting) = (&run.filter, &scene.view.mounting);
    let place = |part| mounting.place(part);
    let tight = mounting.nuts.iter().all(|nut| nut.quarter_turns >= 6);
    if place(Part::Frame) == Place::Holder && tight && scene.has(Field::FilterNumber) {
        return match mounting.lid_open {
            true => next("doors-shut", "Close the lid.", "close lid"),
            false => None,
        };
    }
    if let Some(step) = mount::dead(scene) {
        return Some(step);
    }
    match place(Part::Filter) {
        Place::Holder | Place::Hand if checked_over(scene, run) => {
            let held = place(Part::Filter) == Place::Hand;
            let sentence = if held { "put it in case" } else { "take filter by its edges" };
            next("filter-fitted", "Take out the filter over which the flow was checked.", sentence)
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
        Place::Hand if !scene.has(Field::FilterNumber) => {
            let step = "Write the filter's number.";
            next("custody-written", step, "write filter number ...")
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

/// Whether the filter at hand is the one over which the flow was checked: no other one was taken yet.
fn checked_over(scene: &Scene<'_>, run: &RunView) -> bool {
    let order = &scene.papers.work_order;
    let ordered = order.run.as_ref().map_or(0, |run| run.filters.len());
    let first = usize::from(run.fresh_filters) + 1 >= ordered;
    order.check_of_own_line().is_some() && scene.has(Field::CheckOutcome) && first
}

/// The controller trimmed, the timer set, a fresh chart, and away.
fn arm(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
    let (power, recorder) = (&scene.view.power, &scene.view.recorder);
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
    let (day, hours) = (scene.view.date.weekday(), scene.view.time.hours());
    let dial = &run.timer;
    if dial.weekday != day || (dial.hours - hours).abs() > 0.15 {
        let step = "Set the timer's dial to your watch.";
        return next("timer-as-ordered", step, "set dial to watch");
    }
    let order = scene.papers.work_order.run.as_ref()?;
    for (name, at, stands) in [("on", order.on, dial.on), ("off", order.off, dial.off)] {
        let wanted = (day + at.day) % 7;
        let off = (stands.hours - at.at.hours()).abs();
        if stands.weekday != Some(wanted) || off > 0.15 {
            let step = format!("Set the {name} tripper to its day and hour.");
            let day = words::weekday(wanted);
            let clock: String = at.at.to_string().chars().take(5).collect();
            let sentence = format!("set {name} tripper to {day} at {clock}");
            return next("timer-as-ordered", step, sentence);
        }
    }
    if !scene.has(Field::MeterBefore) {
        return next("meter-before", "Write the meter's reading.", "write meter before ...");
    }
    if power.timer_switch != TimerSwitch::Auto {
        return next("timer-in-charge", "Leave the timer in charge.", "set timer to auto");
    }
    if recorder.trace.len() > 20 {
        let step = "Fit a fresh chart, the pen lifted.";
        return next(
            "chart-at-hour",
            step,
            if recorder.on_paper { "lift pen" } else { "fit chart" },
        );
    }
    if recorder.capped || !recorder.on_paper {
        let sentence = if recorder.capped { "uncap pen" } else { "lower pen" };
        return next("pen-ready", "Set the pen on the paper.", sentence);
    }
    if recorder.door_open {
        return next("doors-shut", "Close the recorder's door.", "close door");
    }
    next("run-made", "All is ready: leave the site to the run.", "leave site")
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
        if recorder.on_paper
            && running
            && let Some(step) = screw::warm(scene).or_else(|| screw::tapped(scene))
        {
            return Some(step);
        }
        let sentence = match (recorder.on_paper, running) {
            (false, _) => "lower pen",
            (true, false) => "set timer to on",
            (true, true) => "write end chart ...",
        };
        return next("end-reading", step, sentence);
    }
    let seen = &run.filter;
    if seen.folded_out.is_some() && seen.in_envelope {
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
        return next("filter-folded", "Open the lid.", "open lid");
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
