//! Names of things, the first for each being the one that is said back. Articles are left out.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Gasket, Grip, Leg, PartPlace, RigPart, TimerSwitch, Trip,
};
use sim_core::session::action::{
    BarometerReference, Exposure, FaultPlace, HelpTopic, OnOff, Response, WasherSeat,
};

use crate::names::Names;

/// A field of one point of the field book.
pub(crate) type PointField = fn(PointNumber) -> Field;

pub(crate) const LEGS: Names<Leg> = &[("left", Leg::Left), ("right", Leg::Right)];

pub(crate) const PARTS: Names<RigPart> = &[
    ("hold-down frame", RigPart::Frame),
    ("filter frame", RigPart::Frame),
    ("frame", RigPart::Frame),
    ("filter", RigPart::Filter),
    ("adapter plate", RigPart::Adapter),
    ("adapter", RigPart::Adapter),
    ("plate", RigPart::Adapter),
    ("calibrator", RigPart::Calibrator),
    ("orifice calibrator", RigPart::Calibrator),
    ("orifice", RigPart::Calibrator),
    ("transfer standard", RigPart::Calibrator),
    ("manometer", RigPart::Manometer),
    ("u-tube", RigPart::Manometer),
];

pub(crate) const PLACES: Names<PartPlace> = &[
    ("case", PartPlace::Case),
    ("carrying case", PartPlace::Case),
    ("box", PartPlace::Case),
    ("envelope", PartPlace::Case),
    ("ground", PartPlace::Ground),
    ("roof", PartPlace::Ground),
    ("hand", PartPlace::Hand),
    ("holder", PartPlace::Holder),
    ("filter holder", PartPlace::Holder),
    ("adapter", PartPlace::Adapter),
    ("adapter plate", PartPlace::Adapter),
    ("plate", PartPlace::Adapter),
    ("throat", PartPlace::Adapter),
    ("hook", PartPlace::Hook),
];

pub(crate) const GASKETS: Names<Gasket> = &[
    ("holder", Gasket::Holder),
    ("filter holder", Gasket::Holder),
    ("calibrator", Gasket::Calibrator),
    ("adapter", Gasket::Calibrator),
];

pub(crate) const SEATS: Names<WasherSeat> = &[
    ("above", WasherSeat::Above),
    ("over", WasherSeat::Above),
    ("below", WasherSeat::Below),
    ("under", WasherSeat::Below),
    ("beneath", WasherSeat::Below),
];

pub(crate) const ON_OFF: Names<OnOff> = &[("on", OnOff::On), ("off", OnOff::Off)];

pub(crate) const TIMER: Names<TimerSwitch> = &[
    ("on", TimerSwitch::On),
    ("off", TimerSwitch::Off),
    ("auto", TimerSwitch::Auto),
    ("automatic", TimerSwitch::Auto),
];

/// Where the blower's plug goes; loose is said as `unplug the blower`.
pub(crate) const PLUGS: Names<BlowerPlug> = &[
    ("controller", BlowerPlug::Controller),
    ("flow controller", BlowerPlug::Controller),
    ("controller socket", BlowerPlug::Controller),
    ("switched mains outlet", BlowerPlug::LineOutlet),
    ("switched outlet", BlowerPlug::LineOutlet),
    ("line outlet", BlowerPlug::LineOutlet),
    ("line", BlowerPlug::LineOutlet),
    ("outlet", BlowerPlug::LineOutlet),
    ("mains", BlowerPlug::LineOutlet),
    ("mains outlet", BlowerPlug::LineOutlet),
];

pub(crate) const EXPOSURES: Names<Exposure> = &[
    ("shade", Exposure::Shade),
    ("screen", Exposure::Shade),
    ("shaded screen", Exposure::Shade),
    ("sun", Exposure::Sun),
];

pub(crate) const REFERENCES: Names<BarometerReference> = &[
    ("station pressure", BarometerReference::Station),
    ("station", BarometerReference::Station),
    ("sea level", BarometerReference::SeaLevel),
    ("sea-level pressure", BarometerReference::SeaLevel),
    ("sea level pressure", BarometerReference::SeaLevel),
];

pub(crate) const ASKS: Names<HelpTopic> = &[
    ("what now", HelpTopic::WhatNow),
    ("what next", HelpTopic::WhatNow),
    ("what to do", HelpTopic::WhatNow),
    ("why", HelpTopic::Why),
    ("show me", HelpTopic::ShowMe),
    ("to show me", HelpTopic::ShowMe),
    ("to be shown", HelpTopic::ShowMe),
    ("for calculations", HelpTopic::Sums),
    ("calculations", HelpTopic::Sums),
    ("for sums", HelpTopic::Sums),
    ("sums", HelpTopic::Sums),
    ("for plot", HelpTopic::Plot),
    ("plot", HelpTopic::Plot),
];

pub(crate) const FAULT_PLACES: Names<FaultPlace> = &[
    ("manometer", FaultPlace::Manometer),
    ("tube", FaultPlace::Tube),
    ("tubing", FaultPlace::Tube),
    ("calibrator", FaultPlace::Calibrator),
    ("certificate", FaultPlace::Certificate),
    ("mounting", FaultPlace::Mounting),
    ("holder", FaultPlace::Mounting),
    ("blower", FaultPlace::Blower),
    ("motor", FaultPlace::Blower),
    ("flow controller", FaultPlace::FlowController),
    ("controller", FaultPlace::FlowController),
    ("recorder", FaultPlace::Recorder),
    ("flow recorder", FaultPlace::Recorder),
    ("barometer", FaultPlace::Barometer),
    ("thermometer", FaultPlace::Thermometer),
    ("weather", FaultPlace::Weather),
    ("filter", FaultPlace::Filter),
    ("timer", FaultPlace::Timer),
];

pub(crate) const RESPONSES: Names<Response> = &[
    ("repaired", Response::Repaired),
    ("mended", Response::Repaired),
    ("fixed", Response::Repaired),
    ("put right", Response::Repaired),
    ("corrected", Response::Corrected),
    ("allowed for", Response::Corrected),
    ("rejected", Response::Rejected),
    ("not used", Response::Rejected),
    ("noted", Response::Noted),
    ("written down", Response::Noted),
];

/// Fields of the book that belong to no point.
pub(crate) const FIELDS: Names<Field> = &[
    ("calibrator serial", Field::CalibratorSerial),
    ("serial", Field::CalibratorSerial),
    ("serial number", Field::CalibratorSerial),
    ("certificate serial", Field::CertificateSerial),
    ("certificate date", Field::CertificateDate),
    ("date", Field::CertificateDate),
    ("certificate slope", Field::CertificateSlope),
    ("certificate intercept", Field::CertificateIntercept),
    ("temperature", Field::Temperature),
    ("air temperature", Field::Temperature),
    ("pressure", Field::Pressure),
    ("station pressure", Field::Pressure),
    ("expression", Field::Expression),
    ("slope", Field::Slope),
    ("intercept", Field::Intercept),
    ("correlation", Field::Correlation),
    ("correlation coefficient", Field::Correlation),
    ("r", Field::Correlation),
    ("decision", Field::Decision),
    ("target flow", Field::TargetFlow),
    ("target", Field::TargetFlow),
    ("set point", Field::SetPoint),
    ("setpoint", Field::SetPoint),
    ("check temperature", Field::CheckTemperature),
    ("check pressure", Field::CheckPressure),
    ("check flow", Field::CheckFlow),
    ("check calibration line flow", Field::CheckLineFlow),
    ("check line flow", Field::CheckLineFlow),
    ("check percent difference", Field::CheckDifference),
    ("check difference", Field::CheckDifference),
    ("percent difference", Field::CheckDifference),
    ("check outcome", Field::CheckOutcome),
    ("filter number", Field::FilterNumber),
    ("elapsed-time meter before", Field::MeterBefore),
    ("meter before", Field::MeterBefore),
    ("start chart", Field::StartChart),
    ("end chart", Field::EndChart),
    ("elapsed-time meter after", Field::MeterAfter),
    ("meter after", Field::MeterAfter),
    ("run minutes", Field::RunMinutes),
    ("minutes", Field::RunMinutes),
    ("mean chart", Field::MeanChart),
    ("run pressure", Field::RunPressure),
    ("run temperature", Field::RunTemperature),
    ("run flow", Field::RunFlow),
    ("mean flow", Field::RunFlow),
    ("volume", Field::Volume),
    ("concentration", Field::Concentration),
    ("validity", Field::Validity),
    ("chain of custody", Field::Custody),
    ("custody", Field::Custody),
    ("next filter number", Field::NextFilterNumber),
    ("next filter", Field::NextFilterNumber),
    ("remarks", Field::Remarks),
    ("remark", Field::Remarks),
];

/// Fields of a point.
pub(crate) const POINT_FIELDS: Names<PointField> = &[
    ("up", Field::Up),
    ("down", Field::Down),
    ("sum", Field::DeltaH),
    ("delta h", Field::DeltaH),
    ("dh", Field::DeltaH),
    ("chart", Field::Chart),
    ("pen", Field::Chart),
    ("flow", Field::PointFlow),
    ("corrected chart reading", Field::ChartTerm),
    ("corrected chart", Field::ChartTerm),
    ("chart term", Field::ChartTerm),
    ("term", Field::ChartTerm),
];

/// Fields of a part of a run.
pub(crate) const PART_FIELDS: Names<PointField> =
    &[("chart", Field::PartChart), ("minutes", Field::PartMinutes)];

/// Fields of a reading of a flow check.
pub(crate) const CHECK_FIELDS: Names<PointField> =
    &[("up", Field::CheckUp), ("down", Field::CheckDown), ("chart", Field::CheckChart)];

pub(crate) const TRIPS: Names<Trip> = &[("on", Trip::On), ("off", Trip::Off)];

pub(crate) const GRIPS: Names<Grip> =
    &[("edges", Grip::Edges), ("edge", Grip::Edges), ("face", Grip::Face)];

pub(crate) const SIDES: Names<FilterSide> = &[
    ("rough", FilterSide::Rough),
    ("dirty", FilterSide::Rough),
    ("smooth", FilterSide::Smooth),
    ("clean", FilterSide::Smooth),
];

/// Days of the dial.
pub(crate) const WEEKDAYS: Names<u8> = &[
    ("monday", 0),
    ("tuesday", 1),
    ("wednesday", 2),
    ("thursday", 3),
    ("friday", 4),
    ("saturday", 5),
    ("sunday", 6),
];
