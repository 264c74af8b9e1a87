//! What can be done to each thing now.

use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use crate::away::{is_away, lies_ahead};
use crate::offer::{Offer, Offers};
use crate::spot::Spot;
use crate::{air, carried, flow, manometer, mounting, power, recorder, run};

/// What can be done to a thing now, the likeliest first.
pub fn offers(view: &View, spot: Spot) -> Vec<Offer> {
    let mut list = Offers::default();
    // Whoever is away has the papers along, and nothing else.
    if is_away(view) && !matches!(spot, Spot::WorkOrder | Spot::Certificates) {
        return Vec::new();
    }
    match spot {
        Spot::Sky => list.look("look at the sky", Sight::Sky),
        Spot::RoofEdge => {
            list.look("look at the edge and the ladder", Sight::RoofEdge);
            if lies_ahead(view) {
                list.act("leave the site until the run has ended", Action::LeaveSite);
            }
            list.act("leave the roof and end the session", Action::LeaveRoof);
        }
        Spot::WorkOrder => list.look("read the work order", Sight::WorkOrder),
        Spot::Certificates => {
            list.look("read the top certificate", Sight::Certificate(0));
            list.look("read the next certificate", Sight::Certificate(1));
        }
        Spot::Barometer | Spot::Thermometer => air::offers(view, spot, &mut list),
        Spot::Lid | Spot::Nut(_) | Spot::Holder => mounting::offers(view, spot, &mut list),
        Spot::Frame | Spot::Filter | Spot::Adapter | Spot::Case | Spot::Ground => {
            carried::offers(view, spot, &mut list);
        }
        Spot::Calibrator | Spot::Knob | Spot::Openings | Spot::Plates => {
            flow::offers(view, spot, &mut list);
        }
        Spot::Manometer
        | Spot::Valve(_)
        | Spot::Leg(_)
        | Spot::Scale
        | Spot::Tube
        | Spot::Display => {
            manometer::offers(view, spot, &mut list);
        }
        Spot::Cord
        | Spot::BlowerPlug
        | Spot::LineOutlet
        | Spot::Timer
        | Spot::Controller
        | Spot::Blower => power::offers(view, spot, &mut list),
        Spot::Dial | Spot::Tripper(_) | Spot::KeptChart | Spot::WeatherSheet => {
            run::offers(view, spot, &mut list);
        }
        Spot::Recorder | Spot::Door | Spot::Pen | Spot::Cap | Spot::Chart | Spot::ZeroScrew => {
            recorder::offers(view, spot, &mut list);
        }
    }
    list.numbered()
}
