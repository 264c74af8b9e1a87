//! What hands can do to the things on the roof, as things stand. No window in here.
//!
//! [`offers`] lists what can be done to a thing now, the likeliest first, in the words of the
//! trade; [`turn`] is what a wheel, a drag or an arrow key does to it. Pointer, keyboard and screen
//! reader all speak through these two.

mod air;
mod carried;
mod flow;
mod manometer;
mod mounting;
mod offer;
mod power;
mod recorder;
mod run;
mod spot;
mod state;
mod steps;
#[cfg(test)]
mod tests;
mod turning;

pub use carried::{allowed, part_of, spot_of_place};
pub use offer::Offer;
pub use run::{day, day_and_time, is_away, seen_from_afar};
pub use spot::Spot;
pub use state::state_of;
pub use steps::{How, Step, in_hands, next_step, spot_of};
pub use turning::{Grain, turn};

use sim_core::session::action::{Action, Sight};
use sim_core::session::view::View;

use offer::Offers;

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
            if run::lies_ahead(view) {
                list.act("leave the site to the run, until it is over", Action::LeaveSite);
            }
            list.act("leave the roof; the session ends", Action::LeaveRoof);
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
        Spot::Calibrator | Spot::Knob | Spot::Openings => flow::offers(view, spot, &mut list),
        Spot::Manometer | Spot::Valve(_) | Spot::Leg(_) | Spot::Scale | Spot::Tube => {
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

/// What comes before the eyes when a thing is looked at.
pub const fn sight_of(spot: Spot) -> Sight {
    use sim_core::rig::parts::Leg;
    match spot {
        Spot::Sky => Sight::Sky,
        Spot::RoofEdge => Sight::RoofEdge,
        Spot::WorkOrder => Sight::WorkOrder,
        Spot::Certificates => Sight::Certificate(0),
        Spot::Barometer => Sight::Barometer,
        Spot::Thermometer => Sight::Thermometer,
        Spot::Cord | Spot::BlowerPlug | Spot::LineOutlet => Sight::Plugs,
        Spot::Timer | Spot::Dial | Spot::Tripper(_) => Sight::Timer,
        Spot::Controller => Sight::Controller,
        Spot::Blower => Sight::Blower,
        Spot::Lid | Spot::Case | Spot::Ground => Sight::Station,
        Spot::Nut(_) | Spot::Holder | Spot::Frame | Spot::Adapter => Sight::Holder,
        Spot::Filter => Sight::Filter,
        Spot::Calibrator | Spot::Knob | Spot::Openings => Sight::Calibrator,
        Spot::Tube => Sight::Tube,
        Spot::Manometer | Spot::Valve(_) | Spot::Scale => Sight::Manometer,
        Spot::Leg(Leg::Left) => Sight::LeftLeg,
        Spot::Leg(Leg::Right) => Sight::RightLeg,
        Spot::Recorder | Spot::Door | Spot::Chart | Spot::KeptChart => Sight::Recorder,
        Spot::WeatherSheet => Sight::WeatherSheet,
        Spot::Pen | Spot::Cap | Spot::ZeroScrew => Sight::Pen,
    }
}
