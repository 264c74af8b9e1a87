//! Where faults sit, and what is done about them.

use serde::{Deserialize, Serialize};

/// Where a fault can sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultPlace {
    /// The manometer and its valves.
    Manometer,
    /// The tubing.
    Tube,
    /// The calibrator itself.
    Calibrator,
    /// Its certificate.
    Certificate,
    /// Nuts, gaskets, washers and plates.
    Mounting,
    /// The blower and its supply.
    Blower,
    /// The flow controller.
    FlowController,
    /// The recorder and its chart.
    Recorder,
    /// The barometer.
    Barometer,
    /// The thermometer.
    Thermometer,
    /// Weather and roof.
    Weather,
    /// The filter.
    Filter,
    /// The timer.
    Timer,
}

/// What was done about a fault.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Response {
    /// Put right on the roof.
    Repaired,
    /// Allowed for in the calculations.
    Corrected,
    /// The instrument is not used.
    Rejected,
    /// Written down, nothing else.
    Noted,
}

impl FaultPlace {
    /// Every place, in a fixed order.
    pub const ALL: [Self; 13] = [
        Self::Manometer,
        Self::Tube,
        Self::Calibrator,
        Self::Certificate,
        Self::Mounting,
        Self::Blower,
        Self::FlowController,
        Self::Recorder,
        Self::Barometer,
        Self::Thermometer,
        Self::Weather,
        Self::Filter,
        Self::Timer,
    ];

    /// The place in words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Manometer => "manometer",
            Self::Tube => "tubing",
            Self::Calibrator => "calibrator",
            Self::Certificate => "certificate",
            Self::Mounting => "mounting",
            Self::Blower => "blower",
            Self::FlowController => "flow controller",
            Self::Recorder => "recorder",
            Self::Barometer => "barometer",
            Self::Thermometer => "thermometer",
            Self::Weather => "weather",
            Self::Filter => "filter",
            Self::Timer => "timer",
        }
    }
}
