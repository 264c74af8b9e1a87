//! The size of each fault and the range it must lie in.

use super::Fault;

/// The size of a fault and the range it must lie in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// The field that holds it.
    pub field: &'static str,
    /// The size.
    pub value: f64,
    /// The smallest size, without regard to sign where both signs are allowed.
    pub smallest: f64,
    /// The largest size, without regard to sign where both signs are allowed.
    pub largest: f64,
    /// Which signs are allowed.
    pub signs: Signs,
    /// Its unit.
    pub unit: &'static str,
}

/// Which signs a size may have.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Signs {
    /// Positive only.
    Positive,
    /// Either sign: below zero it reads low, above zero it reads high.
    Either,
}

impl Fault {
    /// The size that the trainer sets and the range it must lie in; `None` for a fault that is
    /// there or not. All ranges are CHOSEN: from what can just be noticed to what ends the work.
    pub const fn size(&self) -> Option<Size> {
        Some(match *self {
            Self::ManometerValveLeaks { ratio, .. } => size("ratio", ratio, 0.02, 1.0, ""),
            Self::ManometerValveBarelyOpens { passes, .. } => {
                size("passes", passes, 0.005, 0.2, "")
            }
            Self::ManometerBubble { length_mm } => size("length_mm", length_mm, 0.5, 20.0, "mm"),
            Self::ManometerOutOfPlumb { tilt_deg } => {
                size("tilt_deg", tilt_deg, 1.0, 15.0, "degrees")
            }
            Self::ManometerWrongFluid { relative_density } => {
                size("relative_density", relative_density, 0.75, 1.1, "")
            }
            Self::ManometerUnequalBores { wider_mm } => size("wider_mm", wider_mm, 0.2, 2.0, "mm"),
            Self::TubeCracked { ratio } | Self::TubeLoose { ratio } => {
                size("ratio", ratio, 0.02, 1.0, "")
            }
            Self::TubeWet { height_in } => size("height_in", height_in, 0.1, 2.0, "in"),
            Self::OrificeNicked { area_pct } | Self::OrificeFouled { area_pct } => {
                size("area_pct", area_pct, 1.0, 15.0, "%")
            }
            Self::KnobSlips { per_min } => signed("per_min", per_min, 0.005, 0.1, "a minute"),
            Self::CalibratorGasketMissing { leak_mm2 }
            | Self::HolderGasketMissing { leak_mm2 }
            | Self::WasherBelow { leak_mm2, .. }
            | Self::NutLoose { leak_mm2, .. } => size("leak_mm2", leak_mm2, 5.0, 60.0, "mm2"),
            Self::PlateWarped { leak_mm2 } => size("leak_mm2", leak_mm2, 2.0, 40.0, "mm2"),
            Self::WornBrushes { added_ohm } => size("added_ohm", added_ohm, 0.3, 3.0, "ohm"),
            Self::WanderingVoltage { sd_v } => size("sd_v", sd_v, 0.5, 8.0, "V"),
            Self::LowVoltage { by_v } => size("by_v", by_v, 3.0, 30.0, "V"),
            Self::BearingDrag { factor } => size("factor", factor, 1.2, 4.0, ""),
            Self::ControllerDrifts { k_h } => signed("k_h", k_h, 0.5, 5.0, "K/h"),
            Self::ControllerProbeFouled { share } => size("share", share, 0.01, 0.2, ""),
            Self::ControllerSaturates { lost_v } => size("lost_v", lost_v, 10.0, 80.0, "V"),
            Self::PenSticks { play_inh2o } => size("play_inh2o", play_inh2o, 0.12, 0.6, "inH2O"),
            Self::PenZeroOff { divisions } => {
                signed("divisions", divisions, 0.25, 5.0, "divisions")
            }
            Self::RecorderLineLeaks { ratio } => size("ratio", ratio, 0.05, 1.0, ""),
            Self::ExitOrificeBlocked { area_pct } => size("area_pct", area_pct, 1.0, 30.0, "%"),
            Self::ChartOfAnotherRange { pct } => signed("pct", pct, 5.0, 60.0, "%"),
            Self::ChartClockSlow { pct } => size("pct", pct, 0.5, 10.0, "%"),
            Self::BarometerOff { mmhg } => signed("mmhg", mmhg, 1.0, 20.0, "mmHg"),
            Self::ThermometerInSun { by_k } => size("by_k", by_k, 1.0, 20.0, "K"),
            Self::Gusts { sd_pa } => size("sd_pa", sd_pa, 5.0, 60.0, "Pa"),
            Self::FilterTorn { area_mm2 } => size("area_mm2", area_mm2, 20.0, 200.0, "mm2"),
            Self::FilterPinholes { area_mm2 } => size("area_mm2", area_mm2, 0.5, 15.0, "mm2"),
            Self::FilterWet { factor } => size("factor", factor, 1.2, 2.5, ""),
            Self::FilterClogs { factor } => size("factor", factor, 3.0, 60.0, ""),
            Self::TripperLoose { by_h } => signed("by_h", by_h, 0.5, 6.0, "h"),
            Self::TimerGains { pct } => size("pct", pct, 0.5, 10.0, "%"),
            Self::PowerCut { minutes } => size("minutes", minutes, 5.0, 600.0, "min"),
            Self::FastWeather { k_h } => signed("k_h", k_h, 6.0, 20.0, "K/h"),
            Self::FilterUpsideDown
            | Self::FilterOffCentre
            | Self::TimerWrongDay
            | Self::ManometerValveShut { .. }
            | Self::ManometerScaleStuck
            | Self::TubeKinked
            | Self::PenDry
            | Self::BarometerAtSeaLevel
            | Self::CertificateExpired
            | Self::CertificateOfAnother
            | Self::CertificateActualFirst
            | Self::CertificateFarFromLast
            | Self::CertificateDigitsExchanged => return None,
        })
    }
}

impl Size {
    /// Whether the size lies in its range. What is not finite never does.
    pub fn in_range(&self) -> bool {
        let value = match self.signs {
            Signs::Positive => self.value,
            Signs::Either => self.value.abs(),
        };
        (self.smallest..=self.largest).contains(&value)
    }
}

const fn size(
    field: &'static str,
    value: f64,
    smallest: f64,
    largest: f64,
    unit: &'static str,
) -> Size {
    Size { field, value, smallest, largest, signs: Signs::Positive, unit }
}

const fn signed(
    field: &'static str,
    value: f64,
    smallest: f64,
    largest: f64,
    unit: &'static str,
) -> Size {
    Size { field, value, smallest, largest, signs: Signs::Either, unit }
}
