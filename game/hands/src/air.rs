//! What you can do to the thermometer and the barometer.

use sim_core::session::action::{Action, BarometerReference, Exposure, Sight};
use sim_core::session::view::View;

use super::offer::Offers;
use super::spot::Spot;

pub(super) fn offers(view: &View, spot: Spot, list: &mut Offers) {
    match spot {
        Spot::Thermometer => {
            list.look("read the thermometer", Sight::Thermometer);
            match view.thermometer.exposure {
                Exposure::Shade => {
                    let at = Exposure::Sun;
                    list.act_as(2, "move it into the open", Action::PlaceThermometer { at });
                }
                Exposure::Sun => {
                    let at = Exposure::Shade;
                    list.act_as(
                        3,
                        "put it into the shaded screen",
                        Action::PlaceThermometer { at },
                    );
                }
            }
        }
        _ => {
            list.look("read the barometer", Sight::Barometer);
            let references = [
                ("set it to read station pressure", BarometerReference::Station),
                ("set it to read sea-level pressure", BarometerReference::SeaLevel),
            ];
            for (number, (words, to)) in (2..).zip(references) {
                // What it is set to shows only from close by.
                if view.barometer.set_to != Some(to) {
                    list.act_as(number, words, Action::SetBarometer { to });
                }
            }
        }
    }
}
