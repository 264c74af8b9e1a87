//! What you can do to the calibrator, its knob or plates, and its openings.

use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::RigPart;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use super::carried;
use super::offer::Offers;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    let seen = &view.calibrator;
    match spot {
        Spot::Calibrator => {
            carried::part_offers(view, RigPart::Calibrator, list);
            list.look("look at its plate and the orifice", Sight::Calibrator);
        }
        Spot::Plates => plates(view, list),
        // A calibrator with fixed plates has no knob.
        Spot::Knob if seen.plates.is_some() => {
            list.look("look at the calibrator", Sight::Calibrator);
        }
        Spot::Knob => {
            let turn = |opening: f64| Action::TurnKnob { opening: opening.clamp(0.0, 1.0) };
            if seen.knob > 0.0 {
                list.act_as(1, "close it a little", turn(seen.knob - 0.05));
            }
            if seen.knob < 1.0 {
                list.act_as(2, "open it a little", turn(seen.knob + 0.05));
                list.act_as(3, "turn it fully open", turn(1.0));
            }
            if seen.knob > 0.0 {
                list.act_as(4, "turn it fully closed", turn(0.0));
            }
            list.look_as(5, "look at the knob", Sight::Calibrator);
        }
        _ if seen.blocked => {
            list.act_as(2, "uncover the openings", Action::FreeOpenings);
            list.act_as(3, "listen for a hiss", Action::Listen);
        }
        _ => {
            list.act_as(1, "cover the openings for the leak check", Action::BlockOpenings);
            list.act_as(3, "listen", Action::Listen);
            list.look_as(4, "look at the openings", Sight::Calibrator);
        }
    }
}

/// What you can do to the plates: the one in the calibrator comes out before another goes in.
fn plates(view: &View, list: &mut Offers) {
    if let Some(plates) = view.calibrator.plates {
        match plates.inserted {
            Some(plate) => {
                let words = format!("take the plate with {} holes out", plate.holes());
                list.act(words, Action::TakeOutPlate);
            }
            None => {
                for plate in Plate::ALL {
                    let words = format!("put the plate with {} holes in", plate.holes());
                    list.act(words, Action::PutInPlate { plate });
                }
            }
        }
    }
    list.look("look at the calibrator and its plate", Sight::Calibrator);
}
