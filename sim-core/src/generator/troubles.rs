//! The faults that are drawn: each with the habit that overlooks it, and the orders on which the careful
//! operator is proven to find it.

use super::dice::Dice;
use super::level::Level;
use super::order::OrderKind::{self, Calibration, Display, FlowCheck, Plates, WithRun};
use crate::fault::{Fault, FaultKind, Onset};
use crate::rig::parts::{Leg, Nut};

/// A fault that may be drawn.
#[derive(Debug, Clone, Copy)]
pub struct Trouble {
    /// Its kind.
    pub kind: FaultKind,
    /// The habit of an operator who overlooks it or falls for it.
    pub habit: &'static str,
    /// The lowest level at which it is drawn.
    pub level: Level,
    /// The orders on which it is drawn.
    pub orders: &'static [OrderKind],
    /// Draws its size.
    pub(super) size: fn(Dice) -> Fault,
    /// When it begins.
    pub onset: Onset,
}

/// Orders with a manometer with water, on which a line is made with the knob.
const OF_LINE: &[OrderKind] = &[Calibration, WithRun];
/// All orders with a manometer with water.
const OF_WATER: &[OrderKind] = &[Calibration, WithRun, FlowCheck, Plates];
/// Every order.
const ALL: &[OrderKind] = &[Calibration, WithRun, FlowCheck, Plates, Display];
/// Every order on which a line is made.
const LINES: &[OrderKind] = &[Calibration, WithRun, Plates, Display];

/// Every fault that may be drawn.
pub const TROUBLES: &[Trouble] = &[
    Trouble {
        kind: FaultKind::CalibratorGasketMissing,
        habit: "skips-leak-check",
        level: Level::One,
        orders: ALL,
        size: |dice| Fault::CalibratorGasketMissing {
            leak_mm2: dice.between("gasket", 17.0, 23.0).round(),
        },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::CertificateExpired,
        habit: "trusts-certificates",
        level: Level::One,
        orders: ALL,
        size: |_| Fault::CertificateExpired,
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::PenSticks,
        habit: "hurried",
        level: Level::One,
        orders: OF_LINE,
        size: |dice| Fault::PenSticks { play_inh2o: tenths(dice.between("pen", 36.0, 44.0)) },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::TubeWet,
        habit: "skips-tube-check",
        level: Level::One,
        orders: OF_WATER,
        size: |dice| Fault::TubeWet { height_in: tenths(dice.between("tube", 50.0, 70.0)) },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::ManometerUnequalBores,
        habit: "one-leg",
        level: Level::One,
        orders: OF_LINE,
        size: |dice| Fault::ManometerUnequalBores {
            wider_mm: tenths(dice.between("bores", 90.0, 110.0)),
        },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::BarometerAtSeaLevel,
        habit: "trusts-barometer",
        level: Level::Two,
        orders: ALL,
        size: |_| Fault::BarometerAtSeaLevel,
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::BarometerOff,
        habit: "trusts-barometer",
        level: Level::Two,
        orders: ALL,
        size: |dice| Fault::BarometerOff { mmhg: dice.between("barometer", 18.0, 20.0).round() },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::ThermometerInSun,
        habit: "ignores-thermometer",
        level: Level::Two,
        orders: ALL,
        size: |dice| Fault::ThermometerInSun { by_k: dice.between("sun", 11.0, 14.0).round() },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::CertificateActualFirst,
        habit: "first-pair",
        level: Level::Two,
        orders: ALL,
        size: |_| Fault::CertificateActualFirst,
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::CertificateOfAnother,
        habit: "trusts-certificates",
        level: Level::Two,
        orders: ALL,
        size: |_| Fault::CertificateOfAnother,
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::PenZeroOff,
        habit: "skips-pen-zero",
        level: Level::Two,
        orders: LINES,
        size: |dice| Fault::PenZeroOff { divisions: -tenths(dice.between("zero", 420.0, 600.0)) },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::NutLoose,
        habit: "listens-once",
        level: Level::Two,
        orders: &[Calibration, WithRun, Display],
        size: |dice| Fault::NutLoose {
            nut: dice.one_of("nut", &Nut::ALL).unwrap_or(Nut::ALL[0]),
            leak_mm2: dice.between("leak", 28.0, 33.0).round(),
        },
        onset: Onset::AfterRunningMinutes(10.0),
    },
    Trouble {
        kind: FaultKind::ChartClockSlow,
        habit: "never-looks-back",
        level: Level::Two,
        orders: &[Calibration, Display],
        size: |dice| Fault::ChartClockSlow { pct: tenths(dice.between("clock", 700.0, 800.0)) },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::ExitOrificeBlocked,
        habit: "accepts-any-line",
        level: Level::Three,
        orders: OF_LINE,
        size: |dice| Fault::ExitOrificeBlocked {
            area_pct: tenths(dice.between("exhaust", 900.0, 1000.0)),
        },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::ManometerWrongFluid,
        habit: "accepts-any-line",
        level: Level::Three,
        orders: OF_LINE,
        size: |dice| Fault::ManometerWrongFluid {
            relative_density: tenths(dice.between("fluid", 82.0, 84.0)),
        },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::ManometerValveLeaks,
        habit: "skips-hold-test+accepts-any-line",
        level: Level::Three,
        orders: OF_LINE,
        size: |dice| Fault::ManometerValveLeaks {
            leg: Leg::Left,
            ratio: tenths(dice.between("valve", 28.0, 34.0)),
        },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::LowVoltage,
        habit: "ignores-blower",
        level: Level::Three,
        orders: OF_LINE,
        size: |dice| Fault::LowVoltage { by_v: dice.between("mains", 17.0, 19.0).round() },
        onset: Onset::Start,
    },
    Trouble {
        kind: FaultKind::PlateWarped,
        habit: "skips-leak-check+accepts-any-line",
        level: Level::Three,
        orders: OF_LINE,
        size: |dice| Fault::PlateWarped { leak_mm2: dice.between("plate", 17.0, 21.0).round() },
        onset: Onset::Start,
    },
];

/// A number of hundredths, rounded to whole ones.
fn tenths(hundredths: f64) -> f64 {
    hundredths.round() / 100.0
}

/// The fault of a kind, if it may be drawn.
pub fn trouble(kind: FaultKind) -> Option<&'static Trouble> {
    TROUBLES.iter().find(|trouble| trouble.kind == kind)
}
