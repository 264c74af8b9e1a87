//! What pen and chart show.

use sim_core::session::action::Action;
use sim_core::session::view::EYE_CHART;

use crate::faults::bench::{Bench, range};
use crate::faults::probe::{Probe, number, word};

pub const PEN: Probe = number!("the tapped pen, fully open", "divisions", EYE_CHART, |bench| {
    bench.running(310.0);
    bench.tapped_pen()
});

pub const COVERED: Probe =
    number!("the tapped pen with the openings covered", "divisions", EYE_CHART, |bench| {
        covered(bench, 60.0)
    });

pub const COVERED_LATER: Probe = number!(
    "the tapped pen with the openings covered, after 8 min of running",
    "divisions",
    EYE_CHART,
    |bench| covered(bench, 480.0)
);

/// The tapped pen with the openings covered, after so long of running, s.
fn covered(bench: &mut Bench, seconds: f64) -> f64 {
    bench.running(seconds);
    bench.act(Action::BlockOpenings);
    bench.wait(8.0);
    bench.tapped_pen()
}

pub const WANDERS: Probe = number!(
    "how far the pen wanders within 2 min, nothing touched",
    "divisions",
    EYE_CHART,
    |bench| {
        bench.running(310.0);
        range(bench, 120, |bench| {
            bench.act(Action::Tap);
            bench.pen()
        })
    }
);

pub const ON_CONTROLLER: Probe =
    number!("the tapped pen on the controller, filter fitted", "divisions", EYE_CHART, |bench| {
        bench.on_controller(60.0);
        bench.tapped_pen()
    });

pub const ON_CONTROLLER_LATER: Probe = number!(
    "the tapped pen on the controller after 45 min, filter fitted",
    "divisions",
    EYE_CHART,
    |bench| {
        bench.wait(2640.0);
        bench.on_controller(60.0);
        bench.tapped_pen()
    }
);

pub const JUMPS: Probe = number!(
    "how far the pen jumps when tapped after a change of flow",
    "divisions",
    EYE_CHART,
    |bench| {
        bench.running(60.0);
        bench.act(Action::TurnKnob { opening: 0.3 });
        bench.wait(60.0);
        let before = bench.pen();
        (bench.tapped_pen() - before).abs()
    }
);

pub const ZERO: Probe = number!(
    "the pen's zero below the chart's, blower off, by raising it off its stop",
    "divisions",
    EYE_CHART,
    |bench| {
        bench.recorder();
        let mut raised = 0.0;
        while bench.tapped_pen() < 0.25 && raised < 8.0 {
            bench.act(Action::SetPenZero { by: 1.0 });
            raised += 1.0;
        }
        raised - bench.tapped_pen()
    }
);

pub const TRACE: Probe = word!("the trace behind the pen", |bench| {
    bench.running(60.0);
    if bench.view().recorder.trace.is_empty() { "none" } else { "ink" }.to_owned()
});

pub const PRINT: Probe = number!("the last printed division", "divisions", 1.0, |bench| {
    bench.view().recorder.printed_to
});

pub const CLOCK: Probe = number!("the chart behind the watch after 40 min", "min", 1.0, |bench| {
    bench.recorder();
    let set = bench.view().recorder.chart_hour;
    bench.wait(2400.0);
    40.0 - (60.0 * (bench.view().recorder.chart_hour - set)).round()
});
