//! What can be looked at.

use serde::{Deserialize, Serialize};

use crate::digest::digest_names;

/// Something that can be looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Sight {
    /// The whole station.
    Station,
    /// The work order.
    WorkOrder,
    /// A certificate in the box, by number: 0 is the one on top.
    Certificate(u8),
    /// The sky.
    Sky,
    /// The edge of the roof and the ladder.
    RoofEdge,
    /// The barometer.
    Barometer,
    /// The thermometer.
    Thermometer,
    /// The holder with its nuts, washers and gasket.
    Holder,
    /// The filter.
    Filter,
    /// The calibrator: its plate with the serial number, knob, holes and pressure tap.
    Calibrator,
    /// The tube.
    Tube,
    /// The whole manometer: hook, plumb, valves, scale.
    Manometer,
    /// The left leg, for reading.
    LeftLeg,
    /// The right leg, for reading.
    RightLeg,
    /// The recorder as a whole.
    Recorder,
    /// The tip of the pen on the chart, for reading.
    Pen,
    /// The flow controller.
    Controller,
    /// The timer.
    Timer,
    /// Cords and plugs.
    Plugs,
    /// The blower in the cut-away.
    Blower,
    /// The watch.
    Watch,
    /// The sheet on which the station's logger prints the weather, hour by hour.
    WeatherSheet,
    /// The display of an electronic manometer, for reading.
    Display,
}

digest_names!(Sight);
