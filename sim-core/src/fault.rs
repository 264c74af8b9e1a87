//! What can be wrong, as a change to the rig, the papers or the weather. Each fault has a size that
//! the trainer sets, a physical cause, signs, a check that confirms it, and right responses.

pub(crate) mod in_force;
mod known;
mod onset;
mod remedy;
mod sheet;
#[cfg(test)]
mod sheet_tests;
mod size;

use serde::{Deserialize, Serialize};

use crate::rig::parts::{Leg, Nut};

pub use onset::{Event, Onset};
pub use remedy::{FaultPlace, Response};
pub use sheet::{Arises, Noticed, Sheet, sheets};
pub use size::{Signs, Size};

/// A fault and its size.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Fault {
    /// A valve of the manometer leaks to the air beside it. `ratio` is the leak's area over that of
    /// the open valve (0.02 to 1): the leg reads 1/(1 + ratio^2) of the pressure.
    ManometerValveLeaks {
        /// Which valve.
        leg: Leg,
        /// Area of the leak over that of the open valve.
        ratio: f64,
    },
    /// The stem of a valve turns but its plug hardly lifts: the area that it gives at most, over
    /// that of the open valve (0.005 to 0.2). The column creeps after the pressure.
    ManometerValveBarelyOpens {
        /// Which valve.
        leg: Leg,
        /// Area at most, over that of the open valve.
        passes: f64,
    },
    /// The stem of a valve turns but its plug stays shut.
    ManometerValveShut {
        /// Which valve.
        leg: Leg,
    },
    /// A bubble sits in the bend and lengthens the column on one side, mm of water (0.5 to 20).
    ManometerBubble {
        /// Length of the bubble, mm.
        length_mm: f64,
    },
    /// The hook is bent: the manometer hangs out of plumb until it is swung upright, degrees.
    ManometerOutOfPlumb {
        /// Tilt in its plane, degrees (1 to 15).
        tilt_deg: f64,
    },
    /// The fluid is not water: its density over that of water (0.75 to 1.1).
    ManometerWrongFluid {
        /// Density over that of water.
        relative_density: f64,
    },
    /// The scale does not slide.
    ManometerScaleStuck,
    /// One limb is wider than the other: the left bore is wider by this much, mm (0.2 to 2).
    ManometerUnequalBores {
        /// Difference of the bores, mm.
        wider_mm: f64,
    },
    /// The tube is kinked: pressure creeps through until it is straightened.
    TubeKinked,
    /// The tube is cracked: area of the crack over that of its bore (0.02 to 1).
    TubeCracked {
        /// Area of the crack over that of the bore.
        ratio: f64,
    },
    /// The tube sits loosely on the tap until it is pushed on once more: area of the gap over that of
    /// the bore (0.02 to 1).
    TubeLoose {
        /// Area of the gap over that of the bore.
        ratio: f64,
    },
    /// Water stands in a low bend of the tube, inches (0.1 to 2), until it is shaken out.
    TubeWet {
        /// Standing height, inches of water.
        height_in: f64,
    },
    /// The measuring orifice is nicked: its area is larger by this much, percent (1 to 15).
    OrificeNicked {
        /// Area gained, percent.
        area_pct: f64,
    },
    /// The measuring orifice is fouled: its area is smaller by this much, percent (1 to 15).
    OrificeFouled {
        /// Area lost, percent.
        area_pct: f64,
    },
    /// The knob slips while the blower runs: part of the opening a minute (-0.1 to 0.1, at least
    /// 0.005), positive opens.
    KnobSlips {
        /// Change of the opening a minute.
        per_min: f64,
    },
    /// The gasket between adapter plate and calibrator is missing; leak area in mm2 (5 to 60).
    CalibratorGasketMissing {
        /// Effective area of the leak (discharge coefficient included), mm2.
        leak_mm2: f64,
    },
    /// The gasket on the filter holder is missing; leak area in mm2 (5 to 60).
    HolderGasketMissing {
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// A nut works loose by itself while the blower runs; leak area in mm2 when loose (5 to 60).
    NutLoose {
        /// Which nut.
        nut: Nut,
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// A washer lies below the frame; leak area in mm2 (5 to 60), until it is put above.
    WasherBelow {
        /// At which nut.
        nut: Nut,
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// The adapter plate is warped; leak area in mm2 that no nut closes (2 to 40).
    PlateWarped {
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// Worn brushes: resistance added to the motor, ohm (0.3 to 3), more when it wanders.
    WornBrushes {
        /// Resistance added, ohm.
        added_ohm: f64,
    },
    /// The mains wander, as on a generator: standard deviation, V (0.5 to 8).
    WanderingVoltage {
        /// Standard deviation, V.
        sd_v: f64,
    },
    /// The line voltage is low by this much, V (3 to 30).
    LowVoltage {
        /// By how much, V.
        by_v: f64,
    },
    /// The bearings drag: friction is this many times the usual (1.2 to 4).
    BearingDrag {
        /// Friction over the usual.
        factor: f64,
    },
    /// The flow controller drifts: error of its ambient sensor gained each hour, K (-5 to 5, at least
    /// 0.5). A sensor that reads high takes the flow for larger than it is.
    ControllerDrifts {
        /// Error gained each hour, K.
        k_h: f64,
    },
    /// The flow controller's probe is fouled: part of its cooling lost (0.01 to 0.2).
    ControllerProbeFouled {
        /// Part of the cooling by the flow that is lost.
        share: f64,
    },
    /// The flow controller saturates: voltage that it cannot give, V (10 to 80).
    ControllerSaturates {
        /// Voltage lost below that of the line, V.
        lost_v: f64,
    },
    /// The pen sticks: half-width of its play, inches of water at the bellows (0.12 to 0.6).
    PenSticks {
        /// Half-width of the play, inches of water.
        play_inh2o: f64,
    },
    /// The pen's zero is off, chart divisions (-5 to 5, at least a quarter).
    PenZeroOff {
        /// By how much, chart divisions.
        divisions: f64,
    },
    /// The pen is dry and leaves no trace.
    PenDry,
    /// The recorder's line leaks: area of the leak over that of the line (0.05 to 1).
    RecorderLineLeaks {
        /// Area of the leak over that of the line.
        ratio: f64,
    },
    /// The exit orifice is partly blocked: area lost, percent (1 to 30).
    ExitOrificeBlocked {
        /// Area lost, percent.
        area_pct: f64,
    },
    /// Charts of another range lie in the box: so much more is printed on the same width, percent
    /// (-60 to 60, at least 5).
    ChartOfAnotherRange {
        /// How much more is printed, percent.
        pct: f64,
    },
    /// The chart's clock loses time, percent (0.5 to 10).
    ChartClockSlow {
        /// Loss, percent.
        pct: f64,
    },
    /// The barometer was set to sea level.
    BarometerAtSeaLevel,
    /// The barometer is off, mmHg (-20 to 20, at least 1).
    BarometerOff {
        /// By how much, mmHg.
        mmhg: f64,
    },
    /// The thermometer was left in the sun and reads high by this much when settled, K (1 to 20).
    ThermometerInSun {
        /// By how much, K.
        by_k: f64,
    },
    /// Gusts press on the open leg: standard deviation, Pa (5 to 60).
    Gusts {
        /// Standard deviation, Pa.
        sd_pa: f64,
    },
    /// The first fresh filter is torn: effective area of the tear, mm2 (20 to 200).
    FilterTorn {
        /// Effective area of the tear (discharge coefficient included), mm2.
        area_mm2: f64,
    },
    /// The first fresh filter has pinholes: their effective area, mm2 (0.5 to 15).
    FilterPinholes {
        /// Effective area of the holes, mm2.
        area_mm2: f64,
    },
    /// The first fresh filter comes out of its envelope with the smooth side up.
    FilterUpsideDown,
    /// The filter slips aside when the frame is first laid on it.
    FilterOffCentre,
    /// The first fresh filter is wet: its resistance over that of a dry one (1.2 to 2.5).
    FilterWet {
        /// Resistance over that of a dry one.
        factor: f64,
    },
    /// Four hours of dust load the filter: dust over the usual (3 to 60).
    FilterClogs {
        /// Dust over the usual.
        factor: f64,
    },
    /// The off tripper is loose and slides by this much while nobody is there, h (-6 to 6, at least
    /// half an hour).
    TripperLoose {
        /// By how much it slides, h.
        by_h: f64,
    },
    /// The timer's clockwork gains time, percent (0.5 to 10).
    TimerGains {
        /// Gain, percent.
        pct: f64,
    },
    /// The timer's dial was found a day ahead.
    TimerWrongDay,
    /// The power fails for a time, min (5 to 600).
    PowerCut {
        /// How long, min.
        minutes: f64,
    },
    /// A front passes: the temperature changes by so much an hour, K (-20 to 20, at least 6), and the
    /// pressure against it.
    FastWeather {
        /// Change of the temperature an hour, K.
        k_h: f64,
    },
    /// The certificate that lies on top is older than a year. The scenario gives its date.
    CertificateExpired,
    /// The certificate that lies on top is another calibrator's.
    CertificateOfAnother,
    /// The certificate prints its actual-conditions pair first.
    CertificateActualFirst,
    /// The calibrator was certified again, and the paper on top is far from last year's below it.
    CertificateFarFromLast,
    /// The copy in the box has two digits of the slope exchanged; the original hangs behind it.
    CertificateDigitsExchanged,
}
