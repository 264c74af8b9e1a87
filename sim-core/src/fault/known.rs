//! From a fault to what is known about it.

use super::sheet::{self, Arises, Sheet};
use super::{Fault, FaultPlace, Response};

impl Fault {
    /// What is known about it, whatever its size.
    pub const fn sheet(&self) -> &'static Sheet {
        use sheet::{
            blower, calibrator, certificate, filter, flow_controller, manometer, mounting,
            recorder, surroundings, timer, tube,
        };
        match self {
            Self::ManometerValveLeaks { .. } => &manometer::VALVE_LEAKS,
            Self::ManometerValveBarelyOpens { .. } => &manometer::VALVE_BARELY_OPENS,
            Self::ManometerValveShut { .. } => &manometer::VALVE_SHUT,
            Self::ManometerBubble { .. } => &manometer::BUBBLE,
            Self::ManometerOutOfPlumb { .. } => &manometer::OUT_OF_PLUMB,
            Self::ManometerWrongFluid { .. } => &manometer::WRONG_FLUID,
            Self::ManometerScaleStuck => &manometer::SCALE_STUCK,
            Self::ManometerUnequalBores { .. } => &manometer::UNEQUAL_BORES,
            Self::TubeKinked => &tube::KINKED,
            Self::TubeCracked { .. } => &tube::CRACKED,
            Self::TubeLoose { .. } => &tube::LOOSE,
            Self::TubeWet { .. } => &tube::WET,
            Self::OrificeNicked { .. } => &calibrator::NICKED,
            Self::OrificeFouled { .. } => &calibrator::FOULED,
            Self::KnobSlips { .. } => &calibrator::KNOB_SLIPS,
            Self::CalibratorGasketMissing { .. } => &mounting::CALIBRATOR_GASKET_MISSING,
            Self::HolderGasketMissing { .. } => &mounting::HOLDER_GASKET_MISSING,
            Self::NutLoose { .. } => &mounting::NUT_LOOSE,
            Self::WasherBelow { .. } => &mounting::WASHER_BELOW,
            Self::PlateWarped { .. } => &mounting::PLATE_WARPED,
            Self::WornBrushes { .. } => &blower::WORN_BRUSHES,
            Self::WanderingVoltage { .. } => &blower::WANDERING_VOLTAGE,
            Self::LowVoltage { .. } => &blower::LOW_VOLTAGE,
            Self::BearingDrag { .. } => &blower::BEARING_DRAG,
            Self::ControllerDrifts { .. } => &flow_controller::DRIFTS,
            Self::ControllerProbeFouled { .. } => &flow_controller::PROBE_FOULED,
            Self::ControllerSaturates { .. } => &flow_controller::SATURATES,
            Self::PenSticks { .. } => &recorder::PEN_STICKS,
            Self::PenZeroOff { .. } => &recorder::PEN_ZERO_OFF,
            Self::PenDry => &recorder::PEN_DRY,
            Self::RecorderLineLeaks { .. } => &recorder::LINE_LEAKS,
            Self::ExitOrificeBlocked { .. } => &recorder::EXIT_ORIFICE_BLOCKED,
            Self::ChartOfAnotherRange { .. } => &recorder::CHART_OF_ANOTHER_RANGE,
            Self::ChartClockSlow { .. } => &recorder::CHART_CLOCK_SLOW,
            Self::BarometerAtSeaLevel => &surroundings::BAROMETER_AT_SEA_LEVEL,
            Self::BarometerOff { .. } => &surroundings::BAROMETER_OFF,
            Self::ThermometerInSun { .. } => &surroundings::THERMOMETER_IN_SUN,
            Self::Gusts { .. } => &surroundings::GUSTS,
            Self::FastWeather { .. } => &surroundings::FAST_WEATHER,
            Self::FilterTorn { .. } => &filter::TORN,
            Self::FilterPinholes { .. } => &filter::PINHOLES,
            Self::FilterUpsideDown => &filter::UPSIDE_DOWN,
            Self::FilterOffCentre => &filter::OFF_CENTRE,
            Self::FilterWet { .. } => &filter::WET,
            Self::FilterClogs { .. } => &filter::CLOGS,
            Self::TripperLoose { .. } => &timer::TRIPPER_LOOSE,
            Self::TimerGains { .. } => &timer::GAINS,
            Self::TimerWrongDay => &timer::WRONG_DAY,
            Self::PowerCut { .. } => &blower::POWER_CUT,
            Self::CertificateExpired => &certificate::EXPIRED,
            Self::CertificateOfAnother => &certificate::OF_ANOTHER,
            Self::CertificateActualFirst => &certificate::ACTUAL_FIRST,
            Self::CertificateFarFromLast => &certificate::FAR_FROM_LAST,
            Self::CertificateDigitsExchanged => &certificate::DIGITS_EXCHANGED,
        }
    }

    /// Its name, as a scenario writes it.
    pub const fn name(&self) -> &'static str {
        self.sheet().name
    }

    /// Its name, with the valve or the nut where there are several that it can be at.
    pub fn which(&self) -> String {
        match self {
            Self::ManometerValveLeaks { leg, .. }
            | Self::ManometerValveBarelyOpens { leg, .. }
            | Self::ManometerValveShut { leg } => format!("{} {leg:?}", self.name()),
            Self::NutLoose { nut, .. } | Self::WasherBelow { nut, .. } => {
                format!("{} {}", self.name(), nut.number())
            }
            _ => self.name().to_owned(),
        }
    }

    /// Whether it can come about while the work goes on, or is so from the start if at all.
    pub const fn arises(&self) -> Arises {
        self.sheet().arises
    }

    /// Whether it can show only where a run is ordered.
    pub const fn belongs_to_run(&self) -> bool {
        matches!(self.place(), FaultPlace::Filter | FaultPlace::Timer) || self.only_during_run()
    }

    /// Whether it comes about only while nobody is there.
    pub const fn only_during_run(&self) -> bool {
        matches!(self.arises(), Arises::DuringRun)
    }

    /// Where it sits: what a remark about it must name.
    pub const fn place(&self) -> FaultPlace {
        self.sheet().place
    }

    /// What it is called, and every response to it that is right.
    pub const fn answer(&self) -> (&'static str, &'static [Response]) {
        let sheet = self.sheet();
        (sheet.title, sheet.right)
    }
}
