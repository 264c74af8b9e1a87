//! What hands do to an electronic manometer.

use super::super::action::Action;
use super::super::state::SessionState;
use super::refusal::{Refusal, refuse};
use crate::rig::parts::{OnOff, PartPlace, RigPart};

/// Presses a key, or changes the battery.
pub(super) fn apply(state: &mut SessionState, action: &Action) -> Result<(), Refusal> {
    if !state.rig.is_electronic() {
        return refuse("this manometer has water in it, and neither keys nor a battery");
    }
    if state.rig.mounting.place(RigPart::Manometer) == PartPlace::Case {
        return refuse("the manometer is in its case: take it out first");
    }
    let manometer = &mut state.rig.electronic;
    match *action {
        Action::SwitchManometer { to: OnOff::On } if manometer.is_on() => {
            refuse("the manometer is already on")
        }
        Action::SwitchManometer { to: OnOff::Off } if !manometer.is_on() => {
            refuse("the manometer is already off")
        }
        Action::SwitchManometer { to } => {
            manometer.switch(to);
            if to == OnOff::On && !manometer.is_on() {
                return refuse("the display stays dark: the battery is flat. Change the battery");
            }
            Ok(())
        }
        Action::ZeroManometer if !manometer.is_on() => {
            refuse("the manometer is off: switch it on first")
        }
        Action::ZeroManometer => {
            manometer.zero();
            Ok(())
        }
        _ => {
            manometer.change_battery();
            Ok(())
        }
    }
}

/// Refuses what is done to a part that only a manometer with water has.
pub(super) fn has_no(action: &Action) -> Result<(), Refusal> {
    refuse(match action {
        Action::TurnValve { .. } => "this manometer is an electronic one: it has no valves",
        Action::SlideScale { .. } => {
            "this manometer is an electronic one: it has no scale. Zero it by its key"
        }
        Action::SwingManometer { .. } => {
            "this manometer is an electronic one: it reads the same whichever way it hangs"
        }
        _ => {
            "do not blow into an electronic manometer: breath is moist and may overload its sensor"
        }
    })
}
