//! When a fault begins, and whether it comes and goes.

use serde::{Deserialize, Serialize};

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
    /// Right after something was done.
    AtEvent(Event),
    /// It comes and goes: spells without it and with it follow each other, each as long as chance
    /// wants (exponential lengths, from the fault's own stream), beginning without it.
    Intermittent {
        /// Mean length of a spell with it, minutes (0.1 to 120).
        on_min: f64,
        /// Mean length of a spell without it, minutes (0.1 to 120).
        off_min: f64,
    },
}

/// Something done that a fault can begin with. The journal's actions say when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Event {
    /// The manometer is hung on its hook.
    ManometerHung,
    /// The tube is pushed onto the tap.
    TubeConnected,
    /// The calibrator is put on the adapter plate.
    CalibratorMounted,
    /// A fresh chart is fitted.
    ChartFitted,
    /// The knob is turned for the so many-th time.
    KnobTurned(u8),
    /// The chart reading of the point with this number is written.
    PointWritten(u8),
}
