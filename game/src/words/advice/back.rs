//! Back at the site: meter, chart, end reading, filter; then the sums of the run.

use sim_core::field_book::Field;
use sim_core::rig::parts::{PartPlace, RigPart, TimerSwitch};
use sim_core::session::view::run::RunView;

use super::{Blank, Next, Scene, first_blank, mount, next, screw};

/// Meter, chart, end reading, filter.
pub(super) fn recover(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
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
    if mounting.place(RigPart::Frame) == PartPlace::Holder {
        let on = mounting.nuts.iter().any(|nut| nut.quarter_turns > 0);
        let sentence = if on { "loosen nuts" } else { "carry frame to ground" };
        return next("filter-folded", "Take the frame off.", sentence);
    }
    let step = "Take the filter out by its edges, fold it dirty side in, put it in its envelope.";
    let sentence = match (mounting.place(RigPart::Filter), seen.folded_out) {
        (PartPlace::Hand, None) => "fold filter smooth side out",
        (PartPlace::Hand, Some(_)) => "put it in case",
        _ => "take filter by its edges",
    };
    next("filter-folded", step, sentence)
}

/// The sums of the run.
pub(super) fn volume(scene: &Scene<'_>, run: &RunView) -> Option<Next> {
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
    let weighed = |(field, ..): &Blank| *field != Field::Concentration || run.masses.is_some();
    first_blank(scene, fields.into_iter().filter(weighed))
}
