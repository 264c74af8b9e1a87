//! What an electronic manometer shows.

use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{OnOff, PartPlace, RigPart};
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::DisplayView;

use crate::faults::bench::Bench;
use crate::faults::probe::{Probe, number, word};

pub const BATTERY: Probe = word!("the display's battery", |bench| {
    let low = on(bench).battery_low;
    if low { "the low-battery sign is on" } else { "no sign" }.to_owned()
});

pub const ZERO_LATER: Probe =
    number!("the display with its port open, 10 min after it was zeroed", "in", 0.01, |bench| {
        on(bench);
        bench.act(Action::ZeroManometer);
        bench.wait(600.0);
        match bench.look(Sight::Display).manometer.display.unwrap().shows {
            Shown::Reading(reading_in) => reading_in,
            other => panic!("{other:?} instead of a reading"),
        }
    });

pub const LABEL: Probe = number!("age of the calibration on the label", "days", 1.0, |bench| {
    on(bench);
    let view = bench.look(Sight::Manometer);
    let date = view.manometer.display.unwrap().calibrated.unwrap();
    view.date.days_since(date) as f64
});

/// Hangs the manometer, switches it on, and reads its display once it is steady.
fn on(bench: &mut Bench) -> DisplayView {
    bench.act(Action::Take { part: RigPart::Manometer });
    bench.act(Action::Put { place: PartPlace::Hook });
    bench.act(Action::SwitchManometer { to: OnOff::On });
    bench.wait(30.0);
    bench.look(Sight::Display).manometer.display.unwrap()
}
