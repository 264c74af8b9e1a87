//! What a drawn order asks for.

use super::level::Level;

/// What a drawn order asks for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum OrderKind {
    /// A calibration with a manometer with water and a calibrator with a knob.
    Calibration,
    /// The same, and one sample with its volume.
    WithRun,
    /// A flow check of the last calibration line.
    FlowCheck,
    /// A calibration with fixed plates.
    Plates,
    /// A calibration with an electronic manometer.
    Display,
}

impl OrderKind {
    /// Every kind.
    pub const ALL: [Self; 5] =
        [Self::Calibration, Self::WithRun, Self::FlowCheck, Self::Plates, Self::Display];

    /// Those that are drawn at a level.
    pub(super) const fn at(level: Level) -> &'static [Self] {
        match level {
            Level::One => &[Self::Calibration],
            Level::Two => &[Self::Calibration, Self::Calibration, Self::FlowCheck, Self::WithRun],
            Level::Three => &[
                Self::Calibration,
                Self::Calibration,
                Self::Calibration,
                Self::WithRun,
                Self::FlowCheck,
                Self::Plates,
                Self::Display,
            ],
        }
    }
}
