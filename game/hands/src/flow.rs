//! What you can do to the calibrator, its knob and its openings.

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
        Spot::Knob => {
            let turn = |opening: f64| Action::TurnKnob { opening: opening.clamp(0.0, 1.0) };
            if seen.knob > 0.0 {
                list.act("close it a little", turn(seen.knob - 0.05));
            }
            if seen.knob < 1.0 {
                list.act("open it a little", turn(seen.knob + 0.05));
                list.act("turn it fully open", turn(1.0));
            }
            if seen.knob > 0.0 {
                list.act("turn it fully closed", turn(0.0));
            }
            list.look("look at the knob", Sight::Calibrator);
        }
        _ if seen.blocked => {
            list.act("uncover the openings", Action::FreeOpenings);
            list.act("listen for a hiss", Action::Listen);
        }
        _ => {
            list.act("cover the openings for the leak check", Action::BlockOpenings);
            list.act("listen", Action::Listen);
            list.look("look at the openings", Sight::Calibrator);
        }
    }
}
