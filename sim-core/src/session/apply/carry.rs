//! Picking up parts and putting them somewhere.

use super::super::state::SessionState;
use super::refusal::{Refusal, refuse};
use crate::rig::parts::{PartPlace, RigPart};

/// Picks up a part.
pub(super) fn take(state: &mut SessionState, part: RigPart) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    if let Some(held) = rig.mounting.hand() {
        return refuse(format!("you are holding the {}: put it down first", held.words()));
    }
    let place = rig.mounting.place(part);
    let nuts_on = rig.mounting.nuts.iter().any(|&turns| turns > 0);
    let at = |other: RigPart, place: PartPlace| rig.mounting.place(other) == place;
    match (part, place) {
        (RigPart::Frame | RigPart::Filter | RigPart::Adapter, PartPlace::Holder)
            if !rig.mounting.lid_open =>
        {
            return refuse("the lid is closed: open it first");
        }
        (RigPart::Frame, PartPlace::Holder) if nuts_on => {
            return refuse("the nuts still hold the frame down: take all four nuts off first");
        }
        (RigPart::Filter, PartPlace::Holder) if at(RigPart::Frame, PartPlace::Holder) => {
            return refuse("the hold-down frame is on the filter: take the frame off first");
        }
        (RigPart::Filter, PartPlace::Holder) if at(RigPart::Adapter, PartPlace::Holder) => {
            return refuse("the adapter plate is on the filter: take the plate off first");
        }
        (RigPart::Filter, PartPlace::Holder) if rig.added.cover() => {
            return refuse("an added filter lies on it: take that off first");
        }
        (RigPart::Adapter, PartPlace::Holder) if at(RigPart::Calibrator, PartPlace::Adapter) => {
            return refuse("the calibrator is on the adapter plate: take the calibrator off first");
        }
        (RigPart::Adapter, PartPlace::Holder) if nuts_on => {
            return refuse(
                "the nuts still hold the adapter plate down: take all four nuts off first",
            );
        }
        _ => {}
    }
    if matches!(
        (part, place),
        (RigPart::Calibrator, PartPlace::Adapter) | (RigPart::Manometer, PartPlace::Hook)
    ) {
        // Lifting either of them with the tube on the pressure tap pulls the tube off.
        rig.tube.disconnect();
    }
    if part == RigPart::Manometer && place == PartPlace::Hook {
        rig.take_down_manometer();
    }
    rig.mounting.set_place(part, PartPlace::Hand);
    if matches!(place, PartPlace::Holder | PartPlace::Adapter) {
        rig.flow_was_changed();
    }
    Ok(())
}

/// Puts what is in the hand somewhere.
pub(super) fn put(state: &mut SessionState, place: PartPlace) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    let Some(part) = rig.mounting.hand() else {
        return refuse("your hand is empty: pick something up first");
    };
    let at = |other: RigPart, place: PartPlace| rig.mounting.place(other) == place;
    match (part, place) {
        (_, PartPlace::Hand) => {
            return refuse(format!("you are already holding the {}", part.words()));
        }
        (_, PartPlace::Case | PartPlace::Ground) => {}
        (RigPart::Frame | RigPart::Filter | RigPart::Adapter, PartPlace::Holder) => {
            if !rig.mounting.lid_open {
                return refuse("the lid is closed: open it first");
            }
            if at(RigPart::Frame, PartPlace::Holder) {
                return refuse("the hold-down frame is on the holder: take it off first");
            }
            if at(RigPart::Adapter, PartPlace::Holder) {
                return refuse("the adapter plate is on the holder: take it off first");
            }
            rig.mounting.nuts = [0; 4];
        }
        (RigPart::Calibrator, PartPlace::Adapter) => {
            if !at(RigPart::Adapter, PartPlace::Holder) {
                return refuse("the adapter plate is not on the holder: put it there first");
            }
        }
        (RigPart::Manometer, PartPlace::Hook) => {}
        _ => return refuse(format!("the {} does not belong there", part.words())),
    }
    rig.mounting.set_place(part, place);
    if (part, place) == (RigPart::Manometer, PartPlace::Hook) {
        rig.hang_manometer();
    }
    if matches!(place, PartPlace::Holder | PartPlace::Adapter) {
        rig.flow_was_changed();
    }
    Ok(())
}
