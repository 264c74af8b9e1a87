//! Picking up parts and putting them somewhere.

use super::super::State;
use super::{Refusal, refuse};
use crate::rig::parts::{Part, Place};

/// Picks up a part.
pub(super) fn take(state: &mut State, part: Part) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    if let Some(held) = rig.mounting.hand() {
        return refuse(format!("you are holding the {}: put it down first", held.words()));
    }
    let place = rig.mounting.place(part);
    let nuts_on = rig.mounting.nuts.iter().any(|&turns| turns > 0);
    let at = |other: Part, place: Place| rig.mounting.place(other) == place;
    match (part, place) {
        (Part::Frame | Part::Filter | Part::Adapter, Place::Holder) if !rig.mounting.lid_open => {
            return refuse("the lid is closed: open it first");
        }
        (Part::Frame, Place::Holder) if nuts_on => {
            return refuse("the nuts still hold the frame down: take all four nuts off first");
        }
        (Part::Filter, Place::Holder) if at(Part::Frame, Place::Holder) => {
            return refuse("the hold-down frame is on the filter: take the frame off first");
        }
        (Part::Filter, Place::Holder) if at(Part::Adapter, Place::Holder) => {
            return refuse("the adapter plate is on the filter: take the plate off first");
        }
        (Part::Adapter, Place::Holder) if at(Part::Calibrator, Place::Adapter) => {
            return refuse("the calibrator is on the adapter plate: take the calibrator off first");
        }
        (Part::Adapter, Place::Holder) if nuts_on => {
            return refuse(
                "the nuts still hold the adapter plate down: take all four nuts off first",
            );
        }
        _ => {}
    }
    if matches!((part, place), (Part::Calibrator, Place::Adapter) | (Part::Manometer, Place::Hook))
    {
        // Lifting either of them with the tube on the pressure tap pulls the tube off.
        rig.tube.disconnect();
    }
    if part == Part::Manometer && place == Place::Hook {
        rig.unhang_manometer();
    }
    rig.mounting.set_place(part, Place::Hand);
    if matches!(place, Place::Holder | Place::Adapter) {
        rig.flow_was_changed();
    }
    Ok(())
}

/// Puts what is in the hand somewhere.
pub(super) fn put(state: &mut State, place: Place) -> Result<(), Refusal> {
    let rig = &mut state.rig;
    let Some(part) = rig.mounting.hand() else {
        return refuse("your hand is empty: pick something up first");
    };
    let at = |other: Part, place: Place| rig.mounting.place(other) == place;
    match (part, place) {
        (_, Place::Hand) => {
            return refuse(format!("you are already holding the {}", part.words()));
        }
        (_, Place::Case | Place::Ground) => {}
        (Part::Frame | Part::Filter | Part::Adapter, Place::Holder) => {
            if !rig.mounting.lid_open {
                return refuse("the lid is closed: open it first");
            }
            if at(Part::Frame, Place::Holder) {
                return refuse("the hold-down frame is on the holder: take it off first");
            }
            if at(Part::Adapter, Place::Holder) {
                return refuse("the adapter plate is on the holder: take it off first");
            }
            rig.mounting.nuts = [0; 4];
        }
        (Part::Calibrator, Place::Adapter) => {
            if !at(Part::Adapter, Place::Holder) {
                return refuse("the adapter plate is not on the holder: put it there first");
            }
        }
        (Part::Manometer, Place::Hook) => {}
        _ => return refuse(format!("the {} does not belong there", part.words())),
    }
    rig.mounting.set_place(part, place);
    if (part, place) == (Part::Manometer, Place::Hook) {
        rig.hang_manometer();
    }
    if matches!(place, Place::Holder | Place::Adapter) {
        rig.flow_was_changed();
    }
    Ok(())
}
