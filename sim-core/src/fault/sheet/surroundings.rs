//! Faults of barometer and thermometer, and trouble with the weather.

use super::{Arises, Noticed, Sheet};
use crate::fault::Response::{Corrected, Noted, Rejected, Repaired};
use crate::fault::{Fault, FaultPlace, Onset};

/// Every one of them.
pub(super) const ALL: &[&Sheet] =
    &[&BAROMETER_AT_SEA_LEVEL, &BAROMETER_OFF, &THERMOMETER_IN_SUN, &GUSTS, &FAST_WEATHER];

pub(in crate::fault) const BAROMETER_AT_SEA_LEVEL: Sheet = Sheet {
    name: "BarometerAtSeaLevel",
    place: FaultPlace::Barometer,
    arises: Arises::FromTheStart,
    title: "a barometer set to sea level",
    right: &[Repaired, Corrected],
    cause: "The dial was set as weather forecasts want it, reduced to sea level.",
    sign: "Its index says so, and above 100 m it reads higher than the air at that height can be.",
    check: "Look at the index; hold the reading against the standard atmosphere at the station.",
    usual: Fault::BarometerAtSeaLevel,
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const BAROMETER_OFF: Sheet = Sheet {
    name: "BarometerOff",
    place: FaultPlace::Barometer,
    arises: Arises::AtAnyTime,
    title: "a barometer that is off",
    right: &[Corrected, Rejected, Noted],
    cause: "The capsule has aged, or a knock has moved the pointer.",
    sign: "None by itself: the weather moves the pressure by more. 6 mmHg are 0.4 % of a flow.",
    check: "A second barometer, which nobody carries onto a roof.",
    usual: Fault::BarometerOff { mmhg: 6.0 },
    begins: Onset::Start,
    noticed: Noticed::Never(
        "weather moves the pressure by up to 25 mmHg about the standard atmosphere, the only other \
         figure at hand",
    ),
};

pub(in crate::fault) const THERMOMETER_IN_SUN: Sheet = Sheet {
    name: "ThermometerInSun",
    place: FaultPlace::Thermometer,
    arises: Arises::AtAnyTime,
    title: "a thermometer in the sun",
    right: &[Repaired],
    cause: "It was left where the sun shines on it.",
    sign: "It stands in the sun, and its column falls when it is moved.",
    check: "Move it into the shaded screen and wait until the column rests.",
    usual: Fault::ThermometerInSun { by_k: 6.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const GUSTS: Sheet = Sheet {
    name: "Gusts",
    place: FaultPlace::Weather,
    arises: Arises::ComesAndGoes,
    title: "gusts on the open leg",
    right: &[Noted, Corrected],
    cause: "Wind across the open end presses on the right leg.",
    sign: "The wind is felt, and the column moves to and fro while the pen rests.",
    check: "Shelter the open end, or read the middle of the swing several times.",
    usual: Fault::Gusts { sd_pa: 20.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};

pub(in crate::fault) const FAST_WEATHER: Sheet = Sheet {
    name: "FastWeather",
    place: FaultPlace::Weather,
    arises: Arises::ComesAndGoes,
    title: "fast-changing weather",
    right: &[Noted, Corrected],
    cause: "A front passes: the air cools or warms within the hour, and the pressure goes the \
            other way by 0.4 mmHg for each kelvin.",
    sign: "The thermometer in the shade stands elsewhere after the points than before them.",
    check: "Read thermometer and barometer again after the last point; reckon with the middle.",
    usual: Fault::FastWeather { k_h: -10.0 },
    begins: Onset::Start,
    noticed: Noticed::Readably,
};
