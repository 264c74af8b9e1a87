//! For every fault, what a careful operator looks at and says about it. Several faults may show in the
//! same thing, and two may be reported in the same words where nothing on a roof tells them apart.

mod calibrator;
mod display;
mod filter_and_timer;
mod recorder;
mod station;
mod upkeep;
mod water;

use sim_core::fault::Fault;

use super::probe::Telltale;

/// What tells a fault.
pub const fn telltale(fault: &Fault) -> Telltale {
    let (probe, says) = match fault {
        Fault::ManometerValveLeaks { .. } => (water::SINKS, "left valve leaks"),
        Fault::ManometerValveBarelyOpens { .. } => (water::DIPS, "hardly follows a breath"),
        Fault::ManometerValveShut { .. } => (water::DIPS, "does not follow a breath"),
        Fault::ManometerBubble { .. } => (water::LEGS, "bubble"),
        Fault::ManometerOutOfPlumb { .. } => (water::PLUMB, "out of plumb"),
        Fault::ManometerWrongFluid { .. } => (water::COLUMN, "line is far from the last"),
        Fault::ManometerScaleStuck => (water::ZERO, "scale does not slide"),
        Fault::ManometerUnequalBores { .. } => (water::RISE_AND_FALL, "one leg moves further"),
        Fault::ManometerFrozen => (water::GLASS, "was frozen"),
        Fault::ManometerLowWater { .. } => (water::MARK, "below the fill mark"),
        Fault::ManometerDirtyWater { .. } => (water::GLASS, "was dirty"),
        Fault::TubeKinked => (water::CREEPS, "kinked"),
        Fault::TubeCracked { .. } => (water::COLUMN, "cracked"),
        Fault::TubeLoose { .. } => (water::COLUMN, "half on the tap"),
        Fault::TubeWet { .. } => (water::COLUMN, "water stood"),
        Fault::OrificeNicked { .. } => (calibrator::EDGE, "nicked"),
        Fault::OrificeFouled { .. } => (calibrator::EDGE, "dirty"),
        Fault::KnobSlips { .. } => (calibrator::KNOB, "knob slips"),
        Fault::CalibratorGasketMissing { .. } => (recorder::COVERED, "gasket between plate"),
        Fault::HolderGasketMissing { .. } => (recorder::COVERED, "gasket"),
        Fault::NutLoose { .. } => (recorder::COVERED_LATER, "nut was loose"),
        Fault::WasherBelow { .. } => (recorder::COVERED, "washer"),
        Fault::PlateWarped { .. } => (recorder::COVERED, "air hisses in although"),
        Fault::WornBrushes { .. } => (station::SOUND, "brushes"),
        Fault::WanderingVoltage { .. } => (recorder::WANDERS, "mains"),
        Fault::LowVoltage { .. } => (water::COLUMN, "low mains"),
        Fault::BearingDrag { .. } => (station::RUN_DOWN, "bearings drag"),
        Fault::PowerCut { .. } => (filter_and_timer::DIAL, "power failed"),
        Fault::ControllerDrifts { .. } => (recorder::ON_CONTROLLER_LATER, "on the controller"),
        Fault::ControllerProbeFouled { .. } | Fault::ControllerSaturates { .. } => {
            (recorder::ON_CONTROLLER, "on the controller")
        }
        Fault::PenSticks { .. } => (recorder::JUMPS, "pen sticks"),
        Fault::PenZeroOff { .. } => (recorder::ZERO, "did not stand at zero"),
        Fault::PenDry => (recorder::TRACE, "dry"),
        Fault::RecorderLineLeaks { .. } | Fault::ExitOrificeBlocked { .. } => {
            (recorder::PEN, "line is far from the last")
        }
        Fault::ChartOfAnotherRange { .. } => (recorder::PRINT, "another range"),
        Fault::ChartClockSlow { .. } => (recorder::CLOCK, "clock loses time"),
        Fault::BarometerAtSeaLevel => (station::BAROMETER, "set to sea level"),
        Fault::BarometerOff { .. } => (station::BAROMETER, "barometer"),
        Fault::ThermometerInSun { .. } => (station::THERMOMETER, "in the sun"),
        Fault::Gusts { .. } => (water::SWINGS, "gusts"),
        Fault::FastWeather { .. } => (station::WARMING, "weather changed"),
        Fault::CertificateExpired => (calibrator::CERTIFICATE_AGE, "more than a year old"),
        Fault::CertificateOfAnother => (calibrator::CERTIFICATE_SERIAL, "another calibrator"),
        Fault::CertificateActualFirst => (calibrator::FIRST_SLOPE, "actual-conditions pair"),
        Fault::CertificateFarFromLast => (calibrator::CERTIFIED_FLOW, "certificate is far"),
        Fault::CertificateDigitsExchanged => (calibrator::TOP_SLOPE, "does not agree"),
        Fault::FilterTorn { .. } => (filter_and_timer::LIGHT, "torn"),
        Fault::FilterPinholes { .. } => (filter_and_timer::LIGHT, "pinholes"),
        Fault::FilterUpsideDown => (filter_and_timer::SIDE_UP, "smooth side up"),
        Fault::FilterOffCentre => (filter_and_timer::MARGINS, "centred"),
        Fault::FilterWet { .. } => (filter_and_timer::FEEL, "damp"),
        Fault::FilterClogs { .. } => (filter_and_timer::TRACE_FALLS, "trace falls"),
        Fault::TripperLoose { .. } => (filter_and_timer::TRIPPER, "tripper"),
        Fault::TimerGains { .. } => (filter_and_timer::DIAL, "timer gains"),
        Fault::DisplayBatteryLow { .. } => (display::BATTERY, "low-battery sign"),
        Fault::DisplayZeroDrifts { .. } => (display::ZERO_LATER, "zero of the electronic"),
        Fault::DisplayCalibrationExpired { .. } => (display::LABEL, "more than a year ago"),
        Fault::TimerWrongDay => (filter_and_timer::DAY, "another day"),
        Fault::MeterDead => (upkeep::METER, "meter is dead"),
        Fault::ExhaustBlocked { .. } => (upkeep::EXHAUST, "in the exhaust"),
        Fault::InletBlocked { .. } => (upkeep::INLET, "under the lid"),
        Fault::RecorderLineOff => (upkeep::TUBING, "off its fitting"),
        Fault::RecorderLineKinked { .. } => (upkeep::TUBING, "was kinked"),
        Fault::RecorderLineWet { .. } => (upkeep::TUBING, "water stood"),
        Fault::ChartSlips { .. } => (upkeep::HOUR, "slipped on its hub"),
        Fault::PenArmBent { .. } => (upkeep::ARM, "arm of the pen is bent"),
        Fault::GasketFlattened { .. } => (upkeep::GASKET, "flat and hard"),
        Fault::GroundFaultTrips { .. } => (upkeep::OUTLET, "ground-fault"),
        Fault::BarometerOutOfCertification { .. } => (upkeep::BAROMETER_STICKER, "out of date"),
        Fault::ThermometerOutOfCertification { .. } => (upkeep::THERMOMETER_STICKER, "out of date"),
        Fault::BrushesNotRunIn { .. } => (station::SOUND, "brushes"),
    };
    Telltale { probe, says }
}
