//! What you see when you look at a thing.

use sim_core::rig::parts::Leg;
use sim_core::session::action::Sight;

use crate::spot::Spot;

/// What you see when you look at a thing.
pub const fn sight_of(spot: Spot) -> Sight {
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
        Spot::Calibrator | Spot::Knob | Spot::Openings | Spot::Plates => Sight::Calibrator,
        Spot::Tube => Sight::Tube,
        Spot::Manometer | Spot::Valve(_) | Spot::Scale => Sight::Manometer,
        Spot::Display => Sight::Display,
        Spot::Leg(Leg::Left) => Sight::LeftLeg,
        Spot::Leg(Leg::Right) => Sight::RightLeg,
        Spot::Recorder | Spot::Door | Spot::Chart | Spot::KeptChart => Sight::Recorder,
        Spot::WeatherSheet => Sight::WeatherSheet,
        Spot::Pen | Spot::Cap | Spot::ZeroScrew => Sight::Pen,
    }
}
