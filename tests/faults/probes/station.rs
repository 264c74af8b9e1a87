//! What blower, barometer and thermometer show.

use sim_core::session::action::{Action, OnOff, Sight};
use sim_core::session::view::{EYE_BAROMETER_MMHG, EYE_THERMOMETER_C};

use crate::faults::probe::{Probe, number, word};

pub const SOUND: Probe = word!("the blower's sound", |bench| {
    bench.running(60.0);
    if bench.view().blower.wavering { "wavers" } else { "is even" }.to_owned()
});

pub const RUN_DOWN: Probe =
    number!("time from switching off until the rotor stops", "s", 1.0, |bench| {
        bench.running(310.0);
        bench.act(Action::SwitchLine { to: OnOff::Off });
        let mut seconds = 0.0;
        while bench.view().blower.pitch_hz > 0.0 && seconds < 300.0 {
            bench.wait(1.0);
            seconds += 1.0;
        }
        seconds
    });

pub const BAROMETER: Probe = number!("the barometer", "mmHg", EYE_BAROMETER_MMHG, |bench| {
    bench.look(Sight::Barometer).barometer.pointer_mmhg
});

pub const THERMOMETER: Probe =
    number!("the thermometer as found", "degrees Celsius", EYE_THERMOMETER_C, |bench| {
        bench.wait(600.0);
        bench.look(Sight::Thermometer).thermometer.column_c
    });

pub const WARMING: Probe = number!(
    "the thermometer in the shade, 35 min after arrival less on arrival",
    "degrees Celsius",
    EYE_THERMOMETER_C,
    |bench| {
        let arrival_c = bench.look(Sight::Thermometer).thermometer.column_c;
        bench.wait(2100.0);
        bench.view().thermometer.column_c - arrival_c
    }
);
