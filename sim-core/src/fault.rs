//! What can be wrong, as a change to the rig, the certificates or the weather. Each fault has a size
//! that the trainer sets, a physical cause, signs, a check that confirms it, and right responses.
//!
//! The table below lists the faults as scenarios and journals write them. All else about a fault is
//! one declaration, in the file of its family: what is known about it, what it does when it begins,
//! and how it goes again.

mod blower;
mod calibrator;
mod certificate;
mod certification;
pub(crate) mod declared;
mod electronic;
mod filter;
mod flow_controller;
mod manometer;
mod manometer_water;
mod mounting;
mod onset;
mod openings;
mod outlet;
mod recorder;
mod recorder_line;
mod remedy;
mod report;
mod sheet;
#[cfg(test)]
mod sheet_tests;
mod size;
mod surroundings;
mod table;
mod timer;
mod tube;

use serde::{Deserialize, Serialize};

use crate::rig::manometer::electronic::ManometerKind;
use crate::rig::parts::{Gasket, Leg, Nut, Stopper};

use declared::{Declared, Site};
use table::faults;

pub use onset::{Event, Onset};
pub use remedy::{AllowedFor, PutRight, Remedy};
pub use report::{FaultPlace, Response};
pub use sheet::{Arises, Noticed, Sheet};
pub use size::{Signs, Size};

faults! {
    /// A valve of the manometer leaks to the air beside it. `ratio` is the leak's area over that of
    /// the open valve (0.02 to 1): the leg reads 1/(1 + ratio^2) of the pressure.
    manometer: ManometerValveLeaks {
        /// Which valve.
        leg: Leg,
        /// Area of the leak over that of the open valve.
        ratio: f64,
    },
    /// The stem of a valve turns but its plug hardly lifts: the area that it gives at most, over
    /// that of the open valve (0.005 to 0.2). The column creeps after the pressure.
    manometer: ManometerValveBarelyOpens {
        /// Which valve.
        leg: Leg,
        /// Area at most, over that of the open valve.
        passes: f64,
    },
    /// The stem of a valve turns but its plug stays on its seat.
    manometer: ManometerValveShut {
        /// Which valve.
        leg: Leg,
    },
    /// A bubble sits in the bend and lengthens the column on one side, mm of water (0.5 to 20).
    manometer: ManometerBubble {
        /// Length of the bubble, mm.
        length_mm: f64,
    },
    /// The hook is bent: the manometer hangs out of plumb until it is swung upright, degrees.
    manometer: ManometerOutOfPlumb {
        /// Tilt in its plane, degrees (1 to 15).
        tilt_deg: f64,
    },
    /// The fluid is not water: its density over that of water (0.75 to 1.1).
    manometer: ManometerWrongFluid {
        /// Density over that of water.
        relative_density: f64,
    },
    /// The scale does not slide.
    manometer: ManometerScaleStuck,
    /// The legs are of unequal bore: the left one is wider by this much, mm (0.2 to 2).
    manometer: ManometerUnequalBores {
        /// Difference of the bores, mm.
        wider_mm: f64,
    },
    /// The water is frozen when the manometer comes out of its case.
    manometer_water: ManometerFrozen,
    /// There is too little water: level below the fill mark, mm (5 to 80), until it is topped up.
    manometer_water: ManometerLowWater {
        /// Level below the fill mark, mm.
        below_mm: f64,
    },
    /// The water is dirty: it holds each meniscus back by up to this height, mm (0.5 to 6), until it is
    /// changed.
    manometer_water: ManometerDirtyWater {
        /// Height by which a meniscus is held back, mm.
        clings_mm: f64,
    },
    /// The tubing is kinked: pressure only creeps through until it is straightened.
    tube: TubeKinked,
    /// The tubing is cracked: area of the crack over that of its bore (0.02 to 1).
    tube: TubeCracked {
        /// Area of the crack over that of the bore.
        ratio: f64,
    },
    /// The tubing sits loosely on the pressure tap until it is pushed on once more: area of the gap over
    /// that of the bore (0.02 to 1).
    tube: TubeLoose {
        /// Area of the gap over that of the bore.
        ratio: f64,
    },
    /// Water stands in a low bend of the tubing, inches (0.1 to 2), until it is shaken out.
    tube: TubeWet {
        /// Standing height, inches of water.
        height_in: f64,
    },
    /// The measuring orifice is nicked: its area is larger by this much, percent (1 to 15).
    calibrator: OrificeNicked {
        /// Area gained, percent.
        area_pct: f64,
    },
    /// The measuring orifice is fouled: its area is smaller by this much, percent (1 to 15).
    calibrator: OrificeFouled {
        /// Area lost, percent.
        area_pct: f64,
    },
    /// The knob slips while the blower runs: part of the opening a minute (-0.1 to 0.1, at least
    /// 0.005), positive opens.
    calibrator: KnobSlips {
        /// Change of the opening a minute.
        per_min: f64,
    },
    /// The gasket between adapter plate and calibrator is missing; leak area in mm2 (5 to 60).
    mounting: CalibratorGasketMissing {
        /// Effective area of the leak (discharge coefficient included), mm2.
        leak_mm2: f64,
    },
    /// The gasket on the filter holder is missing; leak area in mm2 (5 to 60).
    mounting: HolderGasketMissing {
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// A nut works loose by itself while the blower runs; leak area in mm2 when loose (5 to 60).
    mounting: NutLoose {
        /// Which nut.
        nut: Nut,
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// A washer lies under the hold-down frame; leak area in mm2 (5 to 60), until it is put above.
    mounting: WasherBelow {
        /// At which nut.
        nut: Nut,
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// The adapter plate is warped; leak area in mm2 that no nut closes (2 to 40).
    mounting: PlateWarped {
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// Worn brushes: resistance added to the motor, ohm (0.3 to 3), more when it wanders.
    blower: WornBrushes {
        /// Resistance added, ohm.
        added_ohm: f64,
    },
    /// The mains voltage wanders, as on a generator: standard deviation, V (0.5 to 8).
    blower: WanderingVoltage {
        /// Standard deviation, V.
        sd_v: f64,
    },
    /// The mains voltage is low by this much, V (3 to 30).
    blower: LowVoltage {
        /// By how much, V.
        by_v: f64,
    },
    /// The bearings drag: friction is this many times the usual (1.2 to 4).
    blower: BearingDrag {
        /// Friction over the usual.
        factor: f64,
    },
    /// The flow controller drifts: error of its ambient sensor gained each hour, K (-5 to 5, at least
    /// 0.5). A sensor that reads high takes the flow for larger than it is.
    flow_controller: ControllerDrifts {
        /// Error gained each hour, K.
        k_h: f64,
    },
    /// The flow controller's probe is fouled: part of its cooling lost (0.01 to 0.2).
    flow_controller: ControllerProbeFouled {
        /// Part of the cooling by the flow that is lost.
        share: f64,
    },
    /// The flow controller saturates: voltage that it cannot give, V (10 to 80).
    flow_controller: ControllerSaturates {
        /// Voltage lost below that of the mains, V.
        lost_v: f64,
    },
    /// The pen sticks: half-width of its backlash, inches of water at the bellows (0.12 to 0.6).
    recorder: PenSticks {
        /// Half-width of the backlash, inches of water.
        play_inh2o: f64,
    },
    /// The pen's zero is off, chart divisions (-5 to 5, at least a quarter).
    recorder: PenZeroOff {
        /// By how much, chart divisions.
        divisions: f64,
    },
    /// The pen is dry and leaves no trace.
    recorder: PenDry,
    /// The recorder's tubing leaks: area of the leak over that of the tubing (0.05 to 1).
    recorder: RecorderLineLeaks {
        /// Area of the leak over that of the tubing.
        ratio: f64,
    },
    /// The exhaust orifice is partly blocked: area lost, percent (1 to 30).
    recorder: ExitOrificeBlocked {
        /// Area lost, percent.
        area_pct: f64,
    },
    /// Charts of another range lie in the box: this much more is printed across the same width, percent
    /// (-60 to 60, at least 5).
    recorder: ChartOfAnotherRange {
        /// How much more is printed, percent.
        pct: f64,
    },
    /// The chart's clock loses time, percent (0.5 to 10).
    recorder: ChartClockSlow {
        /// Loss, percent.
        pct: f64,
    },
    /// The barometer was set to sea level.
    surroundings: BarometerAtSeaLevel,
    /// The barometer is off, mmHg (-20 to 20, at least 1).
    surroundings: BarometerOff {
        /// By how much, mmHg.
        mmhg: f64,
    },
    /// The thermometer was left in the sun and reads high by this much once it is steady, K (1 to 20).
    surroundings: ThermometerInSun {
        /// By how much, K.
        by_k: f64,
    },
    /// Gusts press on the open leg: standard deviation, Pa (5 to 60).
    surroundings: Gusts {
        /// Standard deviation, Pa.
        sd_pa: f64,
    },
    /// The first fresh filter is torn: effective area of the tear, mm2 (20 to 200).
    filter: FilterTorn {
        /// Effective area of the tear (discharge coefficient included), mm2.
        area_mm2: f64,
    },
    /// The first fresh filter has pinholes: their effective area, mm2 (0.5 to 15).
    filter: FilterPinholes {
        /// Effective area of the holes, mm2.
        area_mm2: f64,
    },
    /// The first fresh filter comes out of its envelope with the smooth side up.
    filter: FilterUpsideDown,
    /// The filter slips aside when the hold-down frame is first laid on it.
    filter: FilterOffCentre,
    /// The first fresh filter is wet: its resistance over that of a dry one (1.2 to 2.5).
    filter: FilterWet {
        /// Resistance over that of a dry one.
        factor: f64,
    },
    /// Four hours of dust load the filter: dust over the usual (3 to 60).
    filter: FilterClogs {
        /// Dust over the usual.
        factor: f64,
    },
    /// The off tripper is loose and slides by this much while nobody is there, h (-6 to 6, at least
    /// half an hour).
    timer: TripperLoose {
        /// By how much it slides, h.
        by_h: f64,
    },
    /// The timer's clockwork gains time, percent (0.5 to 10).
    timer: TimerGains {
        /// Gain, percent.
        pct: f64,
    },
    /// The timer's dial was left a day ahead.
    timer: TimerWrongDay,
    /// The power fails for a time, min (5 to 600).
    blower: PowerCut {
        /// How long, min.
        minutes: f64,
    },
    /// A front passes: the temperature changes by this much an hour, K (-20 to 20, at least 6), and
    /// the pressure the other way.
    surroundings: FastWeather {
        /// Change of the temperature an hour, K.
        k_h: f64,
    },
    /// The certificate on top is more than a year old. The scenario gives its date.
    certificate: CertificateExpired,
    /// The certificate on top belongs to another calibrator.
    certificate: CertificateOfAnother,
    /// The certificate on top prints the pair for actual conditions first.
    certificate: CertificateActualFirst,
    /// The calibrator was certified again, and the certificate on top is far from last year's below
    /// it.
    certificate: CertificateFarFromLast,
    /// The certificate on top is a copy with two digits of the slope transposed; the original lies
    /// below it.
    certificate: CertificateDigitsExchanged,
    /// The battery of the electronic manometer has so many minutes left (2 to 29): the low-battery sign
    /// is on.
    electronic: DisplayBatteryLow {
        /// Running time left, min.
        minutes: f64,
    },
    /// The zero of the electronic manometer drifts, inches of water an hour (-3 to 3, at least 1.2).
    electronic: DisplayZeroDrifts {
        /// Drift, inches of water an hour.
        in_h: f64,
    },
    /// The electronic manometer was calibrated more than a year ago: error of its span, percent (-8 to
    /// 8, at least 1).
    electronic: DisplayCalibrationExpired {
        /// Error of its span, percent.
        span_pct: f64,
    },
    /// The elapsed-time meter stands still.
    timer: MeterDead,
    /// A nest or packed snow lies in the exhaust grill: part of the exhaust's area that it takes,
    /// percent (5 to 60).
    openings: ExhaustBlocked {
        /// What lies there.
        by: Stopper,
        /// Area lost, percent.
        area_pct: f64,
    },
    /// A nest or packed snow lies in the gap under the lid: its resistance, percent of that of a clean
    /// filter (5 to 200).
    openings: InletBlocked {
        /// What lies there.
        by: Stopper,
        /// Resistance over that of a clean filter, percent.
        pct: f64,
    },
    /// The recorder's tubing is off its fitting.
    recorder_line: RecorderLineOff,
    /// The recorder's tubing is kinked: lag that the kink adds, s (10 to 180).
    recorder_line: RecorderLineKinked {
        /// Lag added, s.
        lag_s: f64,
    },
    /// Condensed water stands in a low bend of the recorder's tubing: its head, inches (0.1 to 2).
    recorder_line: RecorderLineWet {
        /// Head of the water, inches.
        head_in: f64,
    },
    /// The chart slips on its hub once, by this many minutes (-180 to 180, at least 10).
    recorder: ChartSlips {
        /// By how many minutes, positive forwards.
        minutes: f64,
    },
    /// The arm of the pen is bent: every reading is larger by this much, percent (-20 to 20, at least
    /// 2).
    recorder: PenArmBent {
        /// By how much, percent of the reading.
        pct: f64,
    },
    /// A gasket has gone flat and hard; leak area in mm2 that no nut closes (2 to 30).
    mounting: GasketFlattened {
        /// Which gasket.
        gasket: Gasket,
        /// Effective area of the leak, mm2.
        leak_mm2: f64,
    },
    /// The outlet's ground-fault protection has tripped over a damaged cord. Reset, it trips again after
    /// this many minutes of running (1 to 60).
    outlet: GroundFaultTrips {
        /// Minutes of running until it trips again.
        after_min: f64,
    },
    /// The barometer's certification is past its year by this many days (1 to 700).
    certification: BarometerOutOfCertification {
        /// Days beyond the year.
        days: f64,
    },
    /// The thermometer's certification is past its year by this many days (1 to 700).
    certification: ThermometerOutOfCertification {
        /// Days beyond the year.
        days: f64,
    },
    /// The motor's brushes are new and not yet run in: resistance added to the motor at first, ohm (0.5
    /// to 3).
    blower: BrushesNotRunIn {
        /// Resistance added at first, ohm.
        added_ohm: f64,
    },
}

impl Fault {
    /// Every fault once, in its usual size, place by place in the order of the work.
    pub fn examples() -> impl Iterator<Item = Self> {
        let of_place = |place| TABLE.iter().filter(move |fault| fault.place() == place).copied();
        ORDER_OF_WORK.into_iter().flat_map(of_place)
    }

    /// What is known about it, whatever its size.
    pub const fn sheet(&self) -> &'static Sheet {
        self.kind().sheet()
    }

    /// Its name, as a scenario writes it.
    pub const fn name(&self) -> &'static str {
        self.sheet().name
    }

    /// Its name, with the valve or the nut where there are several that it can be at.
    pub fn which(&self) -> String {
        match self.at() {
            Some(at) => format!("{} {at}", self.name()),
            None => self.name().to_owned(),
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

    /// The kind of manometer that it can be in; none where it is in something else, or in either kind.
    pub const fn manometer(&self) -> Option<ManometerKind> {
        match self {
            Self::DisplayBatteryLow { .. }
            | Self::DisplayZeroDrifts { .. }
            | Self::DisplayCalibrationExpired { .. } => Some(ManometerKind::Electronic),
            _ if matches!(self.place(), FaultPlace::Manometer) => Some(ManometerKind::WaterColumn),
            _ => None,
        }
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

    /// Lets it begin. Faults of the certificates are there from the start: a scenario prints them.
    pub(crate) fn begin(&self, mut site: Site<'_>) {
        self.begin_as_declared(&mut site);
        site.rig.flow_was_disturbed();
    }

    /// Takes it away again. One that does not come and go stays.
    pub(crate) fn end(&self, mut site: Site<'_>) {
        self.end_as_declared(&mut site);
        site.rig.flow_was_disturbed();
    }
}

impl FaultKind {
    /// Where it sits.
    pub const fn place(self) -> FaultPlace {
        self.sheet().place
    }

    /// What can be wrong at a place, in the order of the table.
    pub fn of_place(place: FaultPlace) -> impl Iterator<Item = Self> {
        Self::ALL.iter().copied().filter(move |kind| kind.place() == place)
    }
}

/// The places of faults in the order of the work.
const ORDER_OF_WORK: [FaultPlace; 13] = [
    FaultPlace::Certificate,
    FaultPlace::Barometer,
    FaultPlace::Thermometer,
    FaultPlace::Weather,
    FaultPlace::Mounting,
    FaultPlace::Calibrator,
    FaultPlace::Manometer,
    FaultPlace::Tube,
    FaultPlace::Blower,
    FaultPlace::FlowController,
    FaultPlace::Recorder,
    FaultPlace::Filter,
    FaultPlace::Timer,
];

/// What is known about every fault, place by place, in the order of the work.
pub fn sheets() -> impl Iterator<Item = &'static Sheet> {
    Fault::examples().map(|fault| fault.sheet())
}
