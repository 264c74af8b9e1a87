//! Faults and their places in words, and the right answers to each.

use crate::fault::Fault;
use crate::session::action::FaultPlace;
use crate::session::action::Response::{self, Corrected, Noted, Rejected, Repaired};

/// What a fault is called, and every response to it that is right.
pub fn answer(fault: &Fault) -> (&'static str, &'static [Response]) {
    match fault {
        Fault::ManometerValveLeaks { .. } => ("a leaking manometer valve", &[Rejected]),
        Fault::ManometerBubble { .. } => ("a bubble in the manometer", &[Rejected, Corrected]),
        Fault::ManometerOutOfPlumb { .. } => ("a manometer out of plumb", &[Repaired]),
        Fault::ManometerWrongFluid { .. } => ("a wrong fluid", &[Rejected, Corrected]),
        Fault::ManometerScaleStuck => ("a stuck scale", &[Corrected, Rejected, Noted]),
        Fault::ManometerUnequalBores { .. } => {
            ("limbs of unequal bore", &[Corrected, Rejected, Noted])
        }
        Fault::TubeKinked => ("a kinked tube", &[Repaired]),
        Fault::TubeCracked { .. } => ("a cracked tube", &[Rejected]),
        Fault::TubeWet { .. } => ("water in the tube", &[Repaired]),
        Fault::OrificeNicked { .. } => ("a nicked orifice", &[Rejected]),
        Fault::OrificeFouled { .. } => ("a fouled orifice", &[Rejected]),
        Fault::CalibratorGasketMissing { .. } => ("no gasket under the calibrator", &[Repaired]),
        Fault::HolderGasketMissing { .. } => ("no gasket on the holder", &[Repaired]),
        Fault::NutLoose { .. } => ("a nut that works loose", &[Repaired]),
        Fault::PlateWarped { .. } => ("a warped plate", &[Rejected]),
        Fault::WornBrushes { .. } => ("worn brushes", &[Noted, Rejected]),
        Fault::WanderingVoltage { .. } => ("wandering mains", &[Noted, Rejected]),
        Fault::LowVoltage { .. } => ("low mains voltage", &[Noted, Rejected]),
        Fault::BearingDrag { .. } => ("dragging bearings", &[Noted, Rejected]),
        Fault::PenSticks { .. } => ("a sticking pen", &[Corrected, Noted, Repaired, Rejected]),
        Fault::PenZeroOff { .. } => ("a pen off its zero", &[Repaired, Corrected]),
        Fault::PenDry => ("a dry pen", &[Repaired, Noted, Rejected]),
        Fault::RecorderLineLeaks { .. } => ("a leaking recorder line", &[Rejected, Noted]),
        Fault::ExitOrificeBlocked { .. } => ("a partly blocked exit orifice", &[Rejected, Noted]),
        Fault::ChartClockSlow { .. } => ("a slow chart clock", &[Noted, Corrected, Rejected]),
        Fault::BarometerAtSeaLevel => ("a barometer set to sea level", &[Repaired, Corrected]),
        Fault::BarometerOff { .. } => ("a barometer that is off", &[Corrected, Rejected, Noted]),
        Fault::ThermometerInSun { .. } => ("a thermometer in the sun", &[Repaired]),
        Fault::Gusts { .. } => ("gusts on the open leg", &[Noted, Corrected]),
        Fault::CertificateExpired => ("a certificate out of date", &[Rejected]),
        Fault::CertificateOfAnother => ("another calibrator's certificate", &[Rejected]),
        Fault::CertificateActualFirst => {
            ("the actual-conditions pair printed first", &[Noted, Corrected])
        }
        Fault::CertificateDigitsExchanged => {
            ("digits exchanged in a certificate's copy", &[Rejected, Corrected])
        }
    }
}

/// A place in words.
pub const fn place_words(place: FaultPlace) -> &'static str {
    match place {
        FaultPlace::Manometer => "manometer",
        FaultPlace::Tube => "tube",
        FaultPlace::Calibrator => "calibrator",
        FaultPlace::Certificate => "certificate",
        FaultPlace::Mounting => "mounting",
        FaultPlace::Blower => "blower",
        FaultPlace::FlowController => "flow controller",
        FaultPlace::Recorder => "recorder",
        FaultPlace::Barometer => "barometer",
        FaultPlace::Thermometer => "thermometer",
        FaultPlace::Weather => "weather",
        FaultPlace::Filter => "filter",
        FaultPlace::Timer => "timer",
    }
}
