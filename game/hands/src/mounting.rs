//! What you can do to the lid, the nuts and the filter holder.

use sim_core::rig::parts::{AirOpening, Gasket, Nut};
use sim_core::session::action::{Action, Sight, WasherSeat};
use sim_core::session::view::{NutFeel, View};

use super::carried;
use super::offer::Offers;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    match spot {
        Spot::Lid => {
            if view.mounting.lid_open {
                list.act_as(2, "close the lid", Action::CloseLid);
            } else {
                list.act_as(1, "open the lid", Action::OpenLid);
            }
            if view.mounting.inlet.is_some() {
                let opening = AirOpening::Inlet;
                list.act_as(3, "clear the gap under the lid", Action::ClearOpening { opening });
            }
        }
        Spot::Nut(which) => nut(view, which, list),
        _ => holder(view, list),
    }
}

/// A nut: on or off by whole turns, and its washer.
fn nut(view: &View, nut: Nut, list: &mut Offers) {
    let Some(seen) = view.mounting.nuts.get(nut.index()) else { return };
    let turn = |quarter_turns| Action::TurnNut { nut, quarter_turns };
    let tighten = [("screw it down hand-tight", 8), ("tighten it by a quarter turn", 1)];
    let loosen = [("unscrew it", -12), ("loosen it by a quarter turn", -1)];
    match seen.feel {
        NutFeel::Off | NutFeel::Free => {
            let missing = 8_i8.saturating_sub(seen.quarter_turns.try_into().unwrap_or(8));
            list.act_as(1, tighten[0].0, turn(missing.max(1)));
            list.act_as(2, tighten[1].0, turn(tighten[1].1));
            if seen.feel == NutFeel::Free {
                list.act_as(3, loosen[0].0, turn(loosen[0].1));
            }
        }
        NutFeel::Snug | NutFeel::Hard => {
            list.act_as(3, loosen[0].0, turn(loosen[0].1));
            list.act_as(4, loosen[1].0, turn(loosen[1].1));
            list.act_as(2, tighten[1].0, turn(tighten[1].1));
        }
    }
    if seen.feel == NutFeel::Off {
        match seen.washer {
            WasherSeat::Above => list.act_as(
                5,
                "put its washer underneath",
                Action::SetWasher { nut, seat: WasherSeat::Below },
            ),
            WasherSeat::Below => list.act_as(
                6,
                "put its washer on top, where it belongs",
                Action::SetWasher { nut, seat: WasherSeat::Above },
            ),
        }
    }
    list.look_as(7, "look at the nuts and washers", Sight::Holder);
}

/// The holder: what is put on it, its gasket.
fn holder(view: &View, list: &mut Offers) {
    carried::put_here(view, Spot::Holder, list);
    list.look("look at it closely", Sight::Holder);
    let gaskets = [
        (view.mounting.holder_gasket, "fit a gasket on the holder", Gasket::Holder),
        (view.mounting.calibrator_gasket, "fit a gasket for the calibrator", Gasket::Calibrator),
    ];
    for (seen, words, gasket) in gaskets {
        if seen == Some(false) {
            list.act(words, Action::FitGasket { gasket });
        }
    }
    match view.mounting.flat_gasket {
        Some(gasket @ Gasket::Holder) => {
            list.act("fit a fresh gasket on the holder", Action::FitGasket { gasket });
        }
        Some(gasket @ Gasket::Calibrator) => {
            list.act("fit a fresh gasket for the calibrator", Action::FitGasket { gasket });
        }
        None => {}
    }
    list.act("listen around the edge", Action::Listen);
}
