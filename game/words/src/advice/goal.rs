//! What an advice wants to be reached.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::flow::plates::Plate;
use sim_core::rig::parts::{RigPart, Trip};

/// What is to be reached. What it is called for people stands in one place, beside the sentences.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Goal {
    /// What the deeds do, and nothing beyond.
    AsDone,
    /// A value that was read or worked out stands in the book.
    Enter(Field),
    /// The same where the averages of the season are built into the line.
    WithAverages(Field),
    /// The same where the day is too far from the averages that the order asks for.
    WithoutAverages(Field),

    /// The hours of a run have passed.
    RunOver,
    /// The blower is off before the roof is left to a thunderstorm.
    OffInThunder,
    /// The roof is left to a thunderstorm.
    AwayFromThunder,

    /// Edge, ladder, sky and order are known.
    KnowTheSite,
    /// The calibrator's serial number stands in the book.
    CalibratorSerial,
    /// The right one of so many certificates is chosen.
    RightCertificate(usize),
    /// Its figures for standard conditions stand in the book.
    CertificateCopied,
    /// The thermometer stands in the shade.
    ThermometerShaded,
    /// The thermometer is at rest.
    ThermometerAtRest,
    /// Station pressure stands in the book.
    StationPressure,

    /// Nobody else can put the sampler on.
    Isolated,
    /// The rotor stands.
    BlowerStopped,
    /// The frame is off, for the calibrator or for the filter.
    FrameOff,
    /// The filter is out of the way of the calibrator.
    FilterInEnvelope,
    /// A missing gasket is on the holder.
    HolderGasket,
    /// A missing gasket is under the calibrator.
    CalibratorGasket,
    /// The plate is on a gasket that was looked at.
    AdapterOnGasket,
    /// All washers are above the plate.
    WashersAbove,
    /// All nuts are tight alike.
    NutsTight,
    /// The calibrator is out of its case, its gasket looked at.
    CalibratorOut,
    /// The calibrator is on the plate.
    CalibratorOn,

    /// The manometer hangs plumb.
    Plumb,
    /// The manometer is filled anew, in frost with antifreeze.
    FilledAnew,
    /// The manometer is topped up to its mark.
    ToppedUp,
    /// The water was seen to move, and both legs stand at zero.
    Zeroed,
    /// The zeroed manometer is joined to the calibrator.
    ZeroedAndJoined,

    /// The blower hangs on the mains, unregulated.
    BlowerOnLine,
    /// The highest flow comes first.
    KnobOpenFirst,
    /// An electronic manometer shows zero with its port open.
    DisplayZeroed,
    /// A point is read on display and pen, and written.
    DisplayRead(PointNumber),
    /// A plate is in the calibrator.
    PlateIn(Plate),
    /// The blower is at speed.
    BlowerAtSpeed,
    /// The pen has risen.
    PenRisen,
    /// The joints are proved tight.
    LeakChecked,
    /// The blower is warm before the first point.
    Warm,
    /// A point's number stands beside the trace.
    ChartMarked,
    /// The flow is set for a point.
    FlowForPoint(PointNumber),
    /// The flow has settled.
    FlowSettled,
    /// A point is read and written.
    PointRead(PointNumber),
    /// One value that a point lacks.
    PointCompleted(Field),
    /// The blower is off after the last point.
    BlowerOffAfterPoints,

    /// The adapter plate lies over a filter.
    AdapterOverFilter,
    /// The place under the calibrator is free for a filter.
    RoomForFilter,
    /// A part is off.
    Off(RigPart),
    /// A part is back where it belongs on the sampler.
    Back(RigPart),
    /// A part is in its case.
    PutAway(RigPart),
    /// The tube is on the pressure tap.
    Joined,
    /// A fresh filter is in the hand.
    FreshFilter,
    /// A filter was looked over.
    FilterInspected,
    /// A filter lies on the holder.
    FilterOnHolder,
    /// The blower hangs on its controller for the check.
    CheckedAsItRuns,
    /// One reading of the check is taken and written.
    CheckRead(PointNumber),
    /// The filter of the check is out.
    CheckFilterOut,

    /// A filter that cannot be used is put back.
    FilterRefused,
    /// The rough side is up.
    RoughSideUp,
    /// The filter lies centred.
    FilterCentred,
    /// The frame lies on the filter.
    FrameOnFilter,
    /// Another clean filter lies on the stack.
    FilterAdded,
    /// One added filter less lies on the stack.
    AddedFilterOff,
    /// The blower hangs on its controller.
    BlowerOnController,
    /// The blower has run on its controller until it is warm.
    WarmOnController,
    /// The pen was tapped to rest and read.
    PenTappedAndRead,
    /// The flow controller has come to rest.
    ControllerAtRest,
    /// The pen stands at the set point.
    AtSetPoint,
    /// The standard shows the ordered flow.
    AtOrderedFlow,
    /// The blower is off before the timer is set.
    OffForTimer,
    /// The dial goes as the watch does.
    DialSet,
    /// A tripper stands at its day and hour.
    TripperSet(Trip),
    /// A tripper holds.
    TripperTight(Trip),
    /// The dial has power to turn.
    DialPowered,
    /// The timer decides when the blower runs.
    TimerInCharge,
    /// A fresh chart is on.
    FreshChart,
    /// The pen writes.
    PenOnPaper,
    /// The site is left to the run.
    SiteLeft,

    /// The chart of the run is kept.
    ChartKept,
    /// The end reading is taken.
    EndReading,
    /// The sample is folded and in its envelope.
    SampleRecovered,

    /// The book is signed.
    Signed,
}
