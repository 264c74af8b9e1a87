//! How a session shows that a fault was put right or allowed for, and how it would have gone without
//! the fault. The marks look these up in what happened; a fault only names them.

/// What shows that a fault was put right in time for the readings, whatever was said about it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PutRight {
    /// Nothing that is known of a session shows it.
    Unknown,
    /// The manometer hung plumb at the first reading.
    ManometerPlumb,
    /// The tubing was straightened.
    TubeStraightened,
    /// The tubing was pushed on more than once.
    TubePushedOnAgain,
    /// The tubing was drained.
    TubeDrained,
    /// The leak was closed at the last reading, however it looked.
    LeakClosed,
    /// Every washer was above at the first reading.
    WashersAbove,
    /// The calibrator had its gasket at the first reading.
    CalibratorGasketFitted,
    /// The filter holder had its gasket at the first reading.
    HolderGasketFitted,
    /// The zero screw was turned, and the pen stood nearer to its zero at the last reading.
    PenAtZero,
    /// The barometer showed the station's pressure when it was written down.
    BarometerAtStation,
    /// The thermometer was in the shade when it was written down.
    ThermometerShaded,
    /// The run was left to another filter than the first.
    AnotherFilterFitted,
    /// The run was left to a filter with its rough side up.
    RoughSideUp,
    /// The run was left to a filter that lay in the centre.
    FilterCentred,
    /// The run was left to trippers that hold.
    TrippersTight,
    /// The run was left to a dial that was set.
    DialSet,
    /// The right pair of the right certificate was copied as it is printed.
    RightCertificateUsed,
    /// There was no ice in the manometer at the first reading.
    ManometerThawed,
    /// The manometer was filled to its mark at the first reading.
    ManometerFilled,
    /// The manometer was emptied and filled anew.
    ManometerFluidChanged,
    /// A fresh battery was put into the electronic manometer.
    BatteryChanged,
    /// The exhaust was cleared before the last reading.
    ExhaustCleared,
    /// The inlet was cleared before the run was left, or at all.
    InletCleared,
    /// The recorder's tubing was put in order before the last reading.
    LineTended,
    /// New tubing was fitted to the recorder before the last reading.
    LineRenewed,
    /// A fresh gasket was fitted before the last reading.
    GasketRenewed,
    /// Another cord was laid.
    CordChanged,
    /// The motor's brushes were changed before the last reading.
    BrushesChanged,
}

/// Which entries show that a fault was allowed for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AllowedFor {
    /// None: what is said about it is believed.
    Unknown,
    /// The chart readings, written nearer to a pen without faults than the pen stood.
    InChartReadings,
    /// The pressure, written nearer to the air's than the barometer showed.
    InPressure,
}

/// What changes in a session when a fault is taken out of it, beyond the fault itself. Most of these
/// are repairs of a slip as well: whoever makes the slip undoes the fault with it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Remedy {
    /// Nothing changes, and no repair undoes it.
    Absence,
    /// Closing a leak undoes it.
    CloseLeak,
    /// The manometer is swung upright.
    PlumbManometer,
    /// The manometer's scale is slid to zero.
    ZeroManometer,
    /// Clearing the tubing undoes it. Done after the points it comes too late for them.
    ClearTube,
    /// Setting the barometer to the station's pressure undoes it.
    StationPressure,
    /// Shading the thermometer undoes it.
    ShadeTemperature,
    /// Tapping the pen undoes it.
    TapPen,
    /// A zero screw that was turned against it is left alone.
    PenZeroLeftAlone,
    /// The right certificate is used.
    RightCertificate,
    /// The pair for standard conditions is used.
    StandardPair,
    /// The certificate is copied as the original prints it.
    CopyCertificate,
    /// A fresh battery undoes it.
    FreshBattery,
}
