//! Thermometer and barometer.

use sim_core::session::action::{Action, Exposure};

use super::form::{Form, form, one};

pub(super) const FORMS: &[Form] = &[
    form(
        &[
            "put|place|hold|stand|move|hang|set thermometer back? in|into|to its? <exposure>",
            "take|get|move thermometer out|away sun",
            "take|get|move thermometer out|away from sun",
        ],
        &["put thermometer in shade", "put thermometer in sun"],
        "where it stands",
        |caught, _| {
            let at = caught.exposure().unwrap_or(Exposure::Shade);
            one(Action::PlaceThermometer { at })
        },
    ),
    form(
        &["set|turn|switch|change barometer back|over? to <reference>"],
        &["set barometer to station pressure", "set barometer to sea level"],
        "what its dial shows",
        |caught, _| one(Action::SetBarometer { to: caught.reference()? }),
    ),
];
