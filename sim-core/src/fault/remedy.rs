//! Where faults sit, what is done about them, and the right answers to each.

use serde::{Deserialize, Serialize};

use super::Fault;
use Response::{Corrected, Noted, Rejected, Repaired};

/// Where a fault can sit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FaultPlace {
    /// The manometer and its valves.
    Manometer,
    /// The tube.
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
    /// Allowed for in the sums.
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
            Self::Tube => "tube",
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

impl Fault {
    /// What it is called, and every response to it that is right.
    pub const fn answer(&self) -> (&'static str, &'static [Response]) {
        match self {
            Self::ManometerValveLeaks { .. } => ("a leaking manometer valve", &[Rejected]),
            Self::ManometerBubble { .. } => ("a bubble in the manometer", &[Rejected, Corrected]),
            Self::ManometerOutOfPlumb { .. } => ("a manometer out of plumb", &[Repaired]),
            Self::ManometerWrongFluid { .. } => ("a wrong fluid", &[Rejected, Corrected]),
            Self::ManometerScaleStuck => ("a stuck scale", &[Corrected, Rejected, Noted]),
            Self::ManometerUnequalBores { .. } => {
                ("limbs of unequal bore", &[Corrected, Rejected, Noted])
            }
            Self::TubeKinked => ("a kinked tube", &[Repaired]),
            Self::TubeCracked { .. } => ("a cracked tube", &[Rejected]),
            Self::TubeWet { .. } => ("water in the tube", &[Repaired]),
            Self::OrificeNicked { .. } => ("a nicked orifice", &[Rejected]),
            Self::OrificeFouled { .. } => ("a fouled orifice", &[Rejected]),
            Self::CalibratorGasketMissing { .. } => ("no gasket under the calibrator", &[Repaired]),
            Self::HolderGasketMissing { .. } => ("no gasket on the holder", &[Repaired]),
            Self::NutLoose { .. } => ("a nut that works loose", &[Repaired]),
            Self::PlateWarped { .. } => ("a warped plate", &[Rejected]),
            Self::WornBrushes { .. } => ("worn brushes", &[Noted, Rejected]),
            Self::WanderingVoltage { .. } => ("wandering mains", &[Noted, Rejected]),
            Self::LowVoltage { .. } => ("low mains voltage", &[Noted, Rejected]),
            Self::BearingDrag { .. } => ("dragging bearings", &[Noted, Rejected]),
            Self::PenSticks { .. } => ("a sticking pen", &[Corrected, Noted, Repaired, Rejected]),
            Self::PenZeroOff { .. } => ("a pen off its zero", &[Repaired, Corrected]),
            Self::PenDry => ("a dry pen", &[Repaired, Noted, Rejected]),
            Self::RecorderLineLeaks { .. } => ("a leaking recorder line", &[Rejected, Noted]),
            Self::ExitOrificeBlocked { .. } => {
                ("a partly blocked exit orifice", &[Rejected, Noted])
            }
            Self::ChartClockSlow { .. } => ("a slow chart clock", &[Noted, Corrected, Rejected]),
            Self::BarometerAtSeaLevel => ("a barometer set to sea level", &[Repaired, Corrected]),
            Self::BarometerOff { .. } => ("a barometer that is off", &[Corrected, Rejected, Noted]),
            Self::ThermometerInSun { .. } => ("a thermometer in the sun", &[Repaired]),
            Self::Gusts { .. } => ("gusts on the open leg", &[Noted, Corrected]),
            Self::FilterTorn { .. } => ("a torn filter", &[Rejected]),
            Self::FilterPinholes { .. } => ("a filter with pinholes", &[Rejected]),
            Self::FilterUpsideDown => ("a filter with its smooth side up", &[Repaired]),
            Self::FilterOffCentre => ("a filter off centre", &[Repaired]),
            Self::FilterWet { .. } => ("a wet filter", &[Rejected]),
            Self::FilterClogs { .. } => ("a filter that clogged", &[Noted, Rejected]),
            Self::TripperLoose { .. } => ("a loose tripper", &[Repaired]),
            Self::TimerGains { .. } => ("a timer that gains", &[Noted, Corrected, Rejected]),
            Self::TimerWrongDay => ("a timer set to another day", &[Repaired]),
            Self::PowerCut { .. } => ("a power cut", &[Noted, Corrected, Rejected]),
            Self::CertificateExpired => ("a certificate out of date", &[Rejected]),
            Self::CertificateOfAnother => ("another calibrator's certificate", &[Rejected]),
            Self::CertificateActualFirst => {
                ("the actual-conditions pair printed first", &[Noted, Corrected])
            }
            Self::CertificateDigitsExchanged => {
                ("digits exchanged in a certificate's copy", &[Rejected, Corrected])
            }
        }
    }
}
