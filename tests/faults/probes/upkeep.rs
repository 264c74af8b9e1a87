//! What shows of the sampler's upkeep: openings, outlet, gaskets, the recorder's tubing and arm.

use sim_core::rig::parts::{BlowerPlug, Gasket, Stopper};
use sim_core::session::action::{Action, OnOff, Sight};

use crate::faults::probe::{Probe, number, word};

pub const METER: Probe = number!("the elapsed-time meter, gained in a run", "min", 1.0, |bench| {
    let before = bench.look(Sight::Timer).run.unwrap().timer.meter_min;
    bench.after_the_run();
    bench.look(Sight::Timer).run.unwrap().timer.meter_min - before
});

pub const EXHAUST: Probe = word!("the exhaust from outside", |bench| {
    stopper(bench.look(Sight::Plugs).mounting.exhaust)
});

pub const INLET: Probe = word!("the gap under the open lid", |bench| {
    bench.act(Action::OpenLid);
    stopper(bench.look(Sight::Holder).mounting.inlet)
});

fn stopper(seen: Option<Stopper>) -> String {
    match seen {
        None => "free",
        Some(Stopper::Nest) => "a nest",
        Some(Stopper::Snow) => "packed snow",
    }
    .to_owned()
}

pub const TUBING: Probe = word!("the recorder's tubing", |bench| {
    let seen = bench.look(Sight::Recorder).recorder;
    let told = [
        (seen.line_off, "off its fitting"),
        (seen.line_kinked, "kinked"),
        (seen.line_drops, "drops in it"),
    ];
    told.iter().find(|(so, _)| *so).map_or("in order", |(_, what)| what).to_owned()
});

pub const ARM: Probe = word!("the arm of the pen", |bench| {
    if bench.look(Sight::Recorder).recorder.arm_bent { "bent" } else { "straight" }.to_owned()
});

pub const HOUR: Probe = number!(
    "the hour under the pen behind the watch after 8 min of running",
    "min",
    1.0,
    |bench| {
        bench.running(480.0);
        let seen = bench.look(Sight::Recorder);
        60.0 * ((seen.time.hours() - seen.recorder.chart_hour + 12.0).rem_euclid(24.0) - 12.0)
    }
);

pub const GASKET: Probe = word!("the gasket on the bare holder", |bench| {
    bench.filter_off();
    let seen = bench.look(Sight::Holder).mounting;
    if seen.flat_gasket == Some(Gasket::Holder) { "flat and hard" } else { "soft" }.to_owned()
});

pub const OUTLET: Probe = word!("the outlet, with the blower switched on at it", |bench| {
    bench.act(Action::PlugBlower { into: BlowerPlug::LineOutlet });
    bench.act(Action::SwitchLine { to: OnOff::On });
    bench.wait(10.0);
    if bench.view().blower.loudness > 0.5 { "the blower runs" } else { "nothing runs" }.to_owned()
});

pub const BAROMETER_STICKER: Probe =
    number!("the age of the sticker on the barometer", "d", 1.0, |bench| {
        let seen = bench.look(Sight::Barometer);
        seen.date.days_since(seen.barometer.certified.unwrap()) as f64
    });

pub const THERMOMETER_STICKER: Probe =
    number!("the age of the sticker on the thermometer", "d", 1.0, |bench| {
        let seen = bench.look(Sight::Thermometer);
        seen.date.days_since(seen.thermometer.certified.unwrap()) as f64
    });
