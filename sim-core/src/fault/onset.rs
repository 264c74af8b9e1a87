//! When a fault begins, and whether it comes and goes.

use serde::{Deserialize, Serialize};

/// When a fault begins.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub enum Onset {
    /// Before the trainee arrives.
    #[default]
    Start,
    /// This many minutes after the session begins.
    AfterMinutes(f64),
    /// This many minutes after the blower first runs.
    AfterRunningMinutes(f64),
    /// This many hours after the moment at which the run was to begin.
    AfterRunHours(f64),
    /// Right after something was done.
    AtEvent(Event),
    /// It comes and goes: times without it and with it follow each other, each of random length
    /// (exponential, from the fault's own stream), beginning without it.
    Intermittent {
        /// Mean time with it, minutes (0.1 to 120).
        on_min: f64,
        /// Mean time without it, minutes (0.1 to 120).
        off_min: f64,
    },
}

/// Something done that a fault can begin with: the actions in the journal say when.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub enum Event {
    /// The manometer is hung on its hook.
    ManometerHung,
    /// The tubing is pushed onto the pressure tap.
    TubeConnected,
    /// The calibrator is put on the adapter plate.
    CalibratorMounted,
    /// A fresh chart is fitted.
    ChartFitted,
    /// The knob is turned for the n-th time.
    KnobTurned(u8),
    /// All readings of the point with this number are written, in whichever order: both legs or
    /// their sum, and the pen. At the latest, the knob is turned, or the plate taken out, after the
    /// first of them.
    PointWritten(u8),
    /// The n-th plate is put into a calibrator with fixed plates.
    PlatePutIn(u8),
}
