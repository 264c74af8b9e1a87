//! Names of things, the first for each being the one that is said back. Articles are left out.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Gasket, Grip, Leg, Part, Place, TimerSwitch, Trip,
};
use sim_core::session::action::{
    BarometerReference, Exposure, FaultPlace, HelpTopic, OnOff, Response, WasherSeat,
};

use crate::words::names::Names;

/// A field of one point of the field book.
pub(crate) type PointField = fn(PointNumber) -> Field;

pub(in crate::words) const LEGS: Names<Leg> = &[("left", Leg::Left), ("right", Leg::Right)];

pub(in crate::words) const PARTS: Names<Part> = &[
    ("hold-down frame", Part::Frame),
    ("filter frame", Part::Frame),
    ("frame", Part::Frame),
    ("filter", Part::Filter),
    ("adapter plate", Part::Adapter),
    ("adapter", Part::Adapter),
    ("plate", Part::Adapter),
    ("calibrator", Part::Calibrator),
    ("orifice calibrator", Part::Calibrator),
    ("orifice", Part::Calibrator),
    ("transfer standard", Part::Calibrator),
    ("manometer", Part::Manometer),
    ("u-tube", Part::Manometer),
];

pub(in crate::words) const PLACES: Names<Place> = &[
    ("case", Place::Case),
    ("carrying case", Place::Case),
    ("box", Place::Case),
    ("envelope", Place::Case),
    ("ground", Place::Ground),
    ("roof", Place::Ground),
    ("hand", Place::Hand),
    ("holder", Place::Holder),
    ("filter holder", Place::Holder),
    ("adapter", Place::Adapter),
    ("adapter plate", Place::Adapter),
    ("plate", Place::Adapter),
    ("throat", Place::Adapter),
    ("hook", Place::Hook),
];

pub(in crate::words) const GASKETS: Names<Gasket> = &[
    ("holder", Gasket::Holder),
    ("filter holder", Gasket::Holder),
    ("calibrator", Gasket::Calibrator),
    ("adapter", Gasket::Calibrator),
];

pub(in crate::words) const SEATS: Names<WasherSeat> = &[
    ("above", WasherSeat::Above),
    ("over", WasherSeat::Above),
    ("below", WasherSeat::Below),
    ("under", WasherSeat::Below),
    ("beneath", WasherSeat::Below),
];

pub(in crate::words) const ON_OFF: Names<OnOff> = &[("on", OnOff::On), ("off", OnOff::Off)];

pub(in crate::words) const TIMER: Names<TimerSwitch> = &[
    ("on", TimerSwitch::On),
    ("off", TimerSwitch::Off),
    ("auto", TimerSwitch::Auto),
    ("automatic", TimerSwitch::Auto),
];

/// Where the blower's plug goes; loose is said as `unplug the blower`.
pub(in crate::words) const PLUGS: Names<BlowerPlug> = &[
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

pub(in crate::words) const EXPOSURES: Names<Exposure> = &[
    ("shade", Exposure::Shade),
    ("screen", Exposure::Shade),
    ("shaded screen", Exposure::Shade),
    ("sun", Exposure::Sun),
];

pub(in crate::words) const REFERENCES: Names<BarometerReference> = &[
    ("station pressure", BarometerReference::Station),
    ("station", BarometerReference::Station),
    ("sea level", BarometerReference::SeaLevel),
    ("sea-level pressure", BarometerReference::SeaLevel),
    ("sea level pressure", BarometerReference::SeaLevel),
];

pub(in crate::words) const ASKS: Names<HelpTopic> = &[
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

pub(in crate::words) const FAULT_PLACES: Names<FaultPlace> = &[
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

pub(in crate::words) const RESPONSES: Names<Response> = &[
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
pub(in crate::words) const FIELDS: Names<Field> = &[
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
pub(in crate::words) const POINT_FIELDS: Names<PointField> = &[
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
pub(in crate::words) const PART_FIELDS: Names<PointField> =
    &[("chart", Field::PartChart), ("minutes", Field::PartMinutes)];

/// Fields of a reading of a flow check.
pub(in crate::words) const CHECK_FIELDS: Names<PointField> =
    &[("up", Field::CheckUp), ("down", Field::CheckDown), ("chart", Field::CheckChart)];

pub(in crate::words) const TRIPS: Names<Trip> = &[("on", Trip::On), ("off", Trip::Off)];

pub(in crate::words) const GRIPS: Names<Grip> =
    &[("edges", Grip::Edges), ("edge", Grip::Edges), ("face", Grip::Face)];

pub(in crate::words) const SIDES: Names<FilterSide> = &[
    ("rough", FilterSide::Rough),
    ("dirty", FilterSide::Rough),
    ("smooth", FilterSide::Smooth),
    ("clean", FilterSide::Smooth),
];

/// Days of the dial.
pub(in crate::words) const WEEKDAYS: Names<u8> = &[
    ("monday", 0),
    ("tuesday", 1),
    ("wednesday", 2),
    ("thursday", 3),
    ("friday", 4),
    ("saturday", 5),
    ("sunday", 6),
];
