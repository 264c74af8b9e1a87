//! What calibrator and certificates show.

use sim_core::scenario::setup::Certificate;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::OrificeEdge;

use crate::faults::bench::Bench;
use crate::faults::probe::{Probe, number, word};

pub const EDGE: Probe = word!("the edge of the orifice", |bench| {
    match bench.look(Sight::Calibrator).calibrator.edge.unwrap() {
        OrificeEdge::Sharp => "sharp",
        OrificeEdge::Nicked => "nicked",
        OrificeEdge::Dirty => "dirty",
    }
    .to_owned()
});

pub const KNOB: Probe =
    number!("the knob 2 min after it was set to 0.5", "of the opening", 0.01, |bench| {
        bench.running(60.0);
        bench.act(Action::TurnKnob { opening: 0.5 });
        bench.wait(123.0);
        bench.view().calibrator.knob
    });

pub const CERTIFICATE_AGE: Probe = number!("age of the certificate on top", "days", 1.0, |bench| {
    let today = bench.view().date;
    today.days_since(top(bench).date) as f64
});

pub const CERTIFICATE_SERIAL: Probe = word!("serial number on the certificate", |bench| {
    let plate = bench.look(Sight::Calibrator).calibrator.serial.unwrap();
    let same = top(bench).serial == plate;
    if same { "the plate's" } else { "not the plate's" }.to_owned()
});

pub const FIRST_SLOPE: Probe = number!("the slope printed first", "", 1e-4, |bench| {
    let certificate = top(bench);
    if certificate.actual_first { certificate.actual.slope } else { certificate.standard.slope }
});

pub const CERTIFIED_FLOW: Probe =
    number!("flow at 4 inches of water by the certificate on top", "m3/min", 0.001, |bench| {
        let pair = top(bench).standard;
        (2.0 - pair.intercept) / pair.slope
    });

pub const TOP_SLOPE: Probe =
    number!("the slope on the certificate on top", "", 1e-4, |bench| top(bench).standard.slope);

/// The certificate on top.
fn top(bench: &Bench) -> Certificate {
    bench.session().papers().certificates[0].clone()
}
