//! What can be wrong, as a change to the rig, the papers or the weather. Each fault has a size that
//! the trainer sets, a physical cause, signs, a check that confirms it, and right responses.

pub(crate) mod in_force;
mod remedy;
mod size;

use serde::{Deserialize, Serialize};

use crate::rig::parts::{Leg, Nut};

pub use remedy::{FaultPlace, Response};
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
    /// The certificate that lies on top is older than a year. The scenario gives its date.
    CertificateExpired,
    /// The certificate that lies on top is another calibrator's.
    CertificateOfAnother,
    /// The certificate prints its actual-conditions pair first.
    CertificateActualFirst,
    /// The copy in the box has two digits of the slope exchanged; the original hangs behind it.
    CertificateDigitsExchanged,
}

impl Fault {
    /// Its name, as a scenario writes it.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::ManometerValveLeaks { .. } => "ManometerValveLeaks",
            Self::ManometerBubble { .. } => "ManometerBubble",
            Self::ManometerOutOfPlumb { .. } => "ManometerOutOfPlumb",
            Self::ManometerWrongFluid { .. } => "ManometerWrongFluid",
            Self::ManometerScaleStuck => "ManometerScaleStuck",
            Self::ManometerUnequalBores { .. } => "ManometerUnequalBores",
            Self::TubeKinked => "TubeKinked",
            Self::TubeCracked { .. } => "TubeCracked",
            Self::TubeWet { .. } => "TubeWet",
            Self::OrificeNicked { .. } => "OrificeNicked",
            Self::OrificeFouled { .. } => "OrificeFouled",
            Self::CalibratorGasketMissing { .. } => "CalibratorGasketMissing",
            Self::HolderGasketMissing { .. } => "HolderGasketMissing",
            Self::NutLoose { .. } => "NutLoose",
            Self::PlateWarped { .. } => "PlateWarped",
            Self::WornBrushes { .. } => "WornBrushes",
            Self::WanderingVoltage { .. } => "WanderingVoltage",
            Self::LowVoltage { .. } => "LowVoltage",
            Self::BearingDrag { .. } => "BearingDrag",
            Self::PenSticks { .. } => "PenSticks",
            Self::PenZeroOff { .. } => "PenZeroOff",
            Self::PenDry => "PenDry",
            Self::RecorderLineLeaks { .. } => "RecorderLineLeaks",
            Self::ExitOrificeBlocked { .. } => "ExitOrificeBlocked",
            Self::ChartClockSlow { .. } => "ChartClockSlow",
            Self::BarometerAtSeaLevel => "BarometerAtSeaLevel",
            Self::BarometerOff { .. } => "BarometerOff",
            Self::ThermometerInSun { .. } => "ThermometerInSun",
            Self::Gusts { .. } => "Gusts",
            Self::FilterTorn { .. } => "FilterTorn",
            Self::FilterPinholes { .. } => "FilterPinholes",
            Self::FilterUpsideDown => "FilterUpsideDown",
            Self::FilterOffCentre => "FilterOffCentre",
            Self::FilterWet { .. } => "FilterWet",
            Self::FilterClogs { .. } => "FilterClogs",
            Self::TripperLoose { .. } => "TripperLoose",
            Self::TimerGains { .. } => "TimerGains",
            Self::TimerWrongDay => "TimerWrongDay",
            Self::PowerCut { .. } => "PowerCut",
            Self::CertificateExpired => "CertificateExpired",
            Self::CertificateOfAnother => "CertificateOfAnother",
            Self::CertificateActualFirst => "CertificateActualFirst",
            Self::CertificateDigitsExchanged => "CertificateDigitsExchanged",
        }
    }

    /// Whether it can come about while the work goes on, or is so from the start if at all.
    pub const fn arises(&self) -> Arises {
        match self {
            Self::ManometerWrongFluid { .. }
            | Self::ManometerUnequalBores { .. }
            | Self::CalibratorGasketMissing { .. }
            | Self::HolderGasketMissing { .. }
            | Self::PlateWarped { .. }
            | Self::BarometerAtSeaLevel
            | Self::FilterTorn { .. }
            | Self::FilterPinholes { .. }
            | Self::FilterUpsideDown
            | Self::FilterOffCentre
            | Self::FilterWet { .. }
            | Self::TripperLoose { .. }
            | Self::TimerGains { .. }
            | Self::TimerWrongDay
            | Self::CertificateExpired
            | Self::CertificateOfAnother
            | Self::CertificateActualFirst
            | Self::CertificateDigitsExchanged => Arises::FromTheStart,
            _ => Arises::AtAnyTime,
        }
    }

    /// Where it sits: what a remark about it must name.
    pub const fn place(&self) -> FaultPlace {
        match self {
            Self::ManometerValveLeaks { .. }
            | Self::ManometerBubble { .. }
            | Self::ManometerOutOfPlumb { .. }
            | Self::ManometerWrongFluid { .. }
            | Self::ManometerScaleStuck
            | Self::ManometerUnequalBores { .. } => FaultPlace::Manometer,
            Self::TubeKinked | Self::TubeCracked { .. } | Self::TubeWet { .. } => FaultPlace::Tube,
            Self::OrificeNicked { .. } | Self::OrificeFouled { .. } => FaultPlace::Calibrator,
            Self::CalibratorGasketMissing { .. }
            | Self::HolderGasketMissing { .. }
            | Self::NutLoose { .. }
            | Self::PlateWarped { .. } => FaultPlace::Mounting,
            Self::WornBrushes { .. }
            | Self::WanderingVoltage { .. }
            | Self::LowVoltage { .. }
            | Self::BearingDrag { .. }
            | Self::PowerCut { .. } => FaultPlace::Blower,
            Self::PenSticks { .. }
            | Self::PenZeroOff { .. }
            | Self::PenDry
            | Self::RecorderLineLeaks { .. }
            | Self::ExitOrificeBlocked { .. }
            | Self::ChartClockSlow { .. } => FaultPlace::Recorder,
            Self::BarometerAtSeaLevel | Self::BarometerOff { .. } => FaultPlace::Barometer,
            Self::ThermometerInSun { .. } => FaultPlace::Thermometer,
            Self::Gusts { .. } => FaultPlace::Weather,
            Self::FilterTorn { .. }
            | Self::FilterPinholes { .. }
            | Self::FilterUpsideDown
            | Self::FilterOffCentre
            | Self::FilterWet { .. }
            | Self::FilterClogs { .. } => FaultPlace::Filter,
            Self::TripperLoose { .. } | Self::TimerGains { .. } | Self::TimerWrongDay => {
                FaultPlace::Timer
            }
            Self::CertificateExpired
            | Self::CertificateOfAnother
            | Self::CertificateActualFirst
            | Self::CertificateDigitsExchanged => FaultPlace::Certificate,
        }
    }
}

impl Fault {
    /// Whether it can show only where a run is ordered.
    pub const fn belongs_to_run(&self) -> bool {
        matches!(
            self,
            Self::FilterTorn { .. }
                | Self::FilterPinholes { .. }
                | Self::FilterUpsideDown
                | Self::FilterOffCentre
                | Self::FilterWet { .. }
                | Self::FilterClogs { .. }
                | Self::TripperLoose { .. }
                | Self::TimerGains { .. }
                | Self::TimerWrongDay
                | Self::PowerCut { .. }
        )
    }

    /// Whether it comes about only while nobody is there.
    pub const fn only_during_run(&self) -> bool {
        matches!(self, Self::FilterClogs { .. } | Self::PowerCut { .. })
    }
}

/// When a fault can come about.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arises {
    /// At any time, also while the work goes on.
    AtAnyTime,
    /// Only before the trainee arrives.
    FromTheStart,
}

/// When a fault begins.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Onset {
    /// Before the trainee arrives.
    #[default]
    Start,
    /// So many minutes after the session begins.
    AfterMinutes(f64),
    /// So many minutes after the blower first runs.
    AfterRunningMinutes(f64),
    /// So many hours after the moment at which the run was to begin.
    AfterRunHours(f64),
}
