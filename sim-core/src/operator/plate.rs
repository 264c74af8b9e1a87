//! A plate put into a calibrator with fixed plates by hand.

use super::Observation;
use super::memory::Memory;
use crate::rig::flow::plates::Plate;
use crate::session::action::Action;

/// Puts a plate in, and takes out what was there. Nothing is done at a calibrator with a knob.
pub(super) fn puts_in(plate: Plate, observed: &Observation<'_>, memory: &mut Memory) {
    let Some(plates) = observed.view.calibrator.plates else { return };
    if plates.inserted == Some(plate) {
        return;
    }
    if plates.inserted.is_some() {
        memory.does(Action::TakeOutPlate);
    }
    memory.does(Action::PutInPlate { plate });
}
