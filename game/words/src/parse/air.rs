//! Thermometer and barometer.

use sim_core::session::action::Action;

use super::form::{Form, form, one};

pub(super) const FORMS: &[Form] = &[
    form(
        &["put|place|hold|stand|move|hang|set thermometer in|into|to <exposure>"],
        &["put thermometer in shade", "put thermometer in sun"],
        "where it stands",
        |caught, _| one(Action::PlaceThermometer { at: caught.exposure()? }),
    ),
    form(
        &["set|turn barometer to <reference>"],
        &["set barometer to station pressure", "set barometer to sea level"],
        "what its dial shows",
        |caught, _| one(Action::SetBarometer { to: caught.reference()? }),
    ),
];
