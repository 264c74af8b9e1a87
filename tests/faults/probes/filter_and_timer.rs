//! What shows where a run is ordered: the fresh filter, the timer, and what the run has left.

use sim_core::rig::parts::{FilterSide, Seat};
use sim_core::session::action::Sight;
use sim_core::session::view::run::Holes;
use sim_core::session::view::{EYE_CHART, EYE_DIAL_H};

use crate::faults::bench::Bench;
use crate::faults::probe::{Probe, number, word};

/// A pen below this draws no run, divisions.
const DRAWS: f64 = 10.0;

pub const LIGHT: Probe = word!("the fresh filter against the light", |bench| {
    bench.filter_in_hand();
    match bench.run().filter.holes.unwrap() {
        Holes::Sound => "no light",
        Holes::Pinholes => "points of light",
        Holes::Tear => "a tear",
    }
    .to_owned()
});

pub const SIDE_UP: Probe = word!("the side of the fresh filter that is up", |bench| {
    bench.filter_in_hand();
    let rough = bench.run().filter.up == FilterSide::Rough;
    if rough { "rough" } else { "smooth" }.to_owned()
});

pub const MARGINS: Probe = word!("the filter's margins under the hold-down frame", |bench| {
    bench.filter_framed();
    let seen = bench.look(Sight::Filter).run.unwrap();
    if seen.filter.seat == Some(Seat::Shifted) { "one is bare" } else { "even" }.to_owned()
});

pub const FEEL: Probe = word!("how the fresh filter feels", |bench| {
    bench.filter_in_hand();
    if bench.run().filter.damp { "damp" } else { "dry" }.to_owned()
});

pub const TRACE_FALLS: Probe = number!(
    "lowest of the trace below its highest, a run of 24 h",
    "divisions",
    EYE_CHART,
    |bench| {
        bench.after_the_run();
        let trace = bench.look(Sight::Recorder).recorder.trace;
        // Not the hour in which the run began and ended.
        let drawn = trace.iter().filter(|(hour, _)| (1.0..=23.0).contains(hour));
        let pens = drawn.map(|&(_, pen)| pen).filter(|pen| *pen > DRAWS);
        let low_high = (f64::INFINITY, f64::NEG_INFINITY);
        let (low, high) = pens.fold(low_high, |(low, high), pen| (low.min(pen), high.max(pen)));
        high - low
    }
);

pub const TRIPPER: Probe = word!("the off tripper under the finger", |bench| {
    let seen = bench.look(Sight::Timer).run.unwrap();
    if seen.timer.off.loose == Some(true) { "gives way" } else { "holds" }.to_owned()
});

pub const DAY: Probe = word!("the day under the dial's pointer", |bench| {
    let seen = bench.look(Sight::Timer);
    let today = seen.run.unwrap().timer.weekday == seen.date.weekday();
    if today { "today's" } else { "not today's" }.to_owned()
});

pub const DIAL: Probe =
    number!("the dial ahead of the watch after the run", "min", 60.0 * EYE_DIAL_H, |bench| {
        bench.after_the_run();
        dial_ahead_min(bench)
    });

/// How far the dial is ahead of the watch, min; negative behind it.
fn dial_ahead_min(bench: &mut Bench) -> f64 {
    let seen = bench.look(Sight::Timer);
    let (timer, days) = (seen.run.unwrap().timer, f64::from(seen.date.weekday()));
    let ahead_h = 24.0 * f64::from(timer.weekday) + timer.hours - 24.0 * days - seen.time.hours();
    60.0 * ((ahead_h + 84.0).rem_euclid(168.0) - 84.0)
}
