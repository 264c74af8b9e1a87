//! Names of things, the first for each being the one that is said back. Articles are left out.

use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Gasket, GaugeFluid, Grip, Leg, PartPlace, RigPart, TimerSwitch, Trip,
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
    ("holding frame", RigPart::Frame),
    ("orifice plate", RigPart::Calibrator),
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
    ("lid case", PartPlace::Case),
    ("ground beside stand", PartPlace::Ground),
    ("floor", PartPlace::Ground),
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
    ("on top", WasherSeat::Above),
    ("underneath", WasherSeat::Below),
];

pub(crate) const ON_OFF: Names<OnOff> = &[("on", OnOff::On), ("off", OnOff::Off)];

pub(crate) const TIMER: Names<TimerSwitch> = &[
    ("on", TimerSwitch::On),
    ("off", TimerSwitch::Off),
    ("auto", TimerSwitch::Auto),
    ("automatic", TimerSwitch::Auto),
    ("manual on", TimerSwitch::On),
    ("manual", TimerSwitch::On),
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
    ("wall", BlowerPlug::LineOutlet),
    ("wall outlet", BlowerPlug::LineOutlet),
    ("wall socket", BlowerPlug::LineOutlet),
    ("mains socket", BlowerPlug::LineOutlet),
];

pub(crate) const FLUIDS: Names<GaugeFluid> = &[
    ("water", GaugeFluid::Water),
    ("fresh water", GaugeFluid::Water),
    ("clean water", GaugeFluid::Water),
    ("antifreeze", GaugeFluid::Antifreeze),
    ("glycol", GaugeFluid::Antifreeze),
    ("antifreeze fluid", GaugeFluid::Antifreeze),
    ("gauge oil", GaugeFluid::GaugeOil),
    ("oil", GaugeFluid::GaugeOil),
];

pub(crate) const EXPOSURES: Names<Exposure> = &[
    ("shade", Exposure::Shade),
    ("screen", Exposure::Shade),
    ("shaded screen", Exposure::Shade),
    ("sun", Exposure::Sun),
    ("shadow", Exposure::Shade),
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
    ("what should i do next", HelpTopic::WhatNow),
    ("what should i do now", HelpTopic::WhatNow),
    ("what should i do", HelpTopic::WhatNow),
    ("what do i do now", HelpTopic::WhatNow),
    ("what do i do next", HelpTopic::WhatNow),
    ("what is next", HelpTopic::WhatNow),
    ("what comes next", HelpTopic::WhatNow),
    ("why do i have to do that", HelpTopic::Why),
    ("why do i have to do this", HelpTopic::Why),
    ("why that", HelpTopic::Why),
    ("why is that", HelpTopic::Why),
    ("show me how", HelpTopic::ShowMe),
    ("how do i do that", HelpTopic::ShowMe),
    ("do calculations for me", HelpTopic::Sums),
    ("do calculations", HelpTopic::Sums),
    ("show me calculations", HelpTopic::Sums),
    ("show calculations", HelpTopic::Sums),
    ("plot points", HelpTopic::Plot),
    ("show me plot", HelpTopic::Plot),
    ("show plot", HelpTopic::Plot),
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
    ("second filter chart", Field::SecondFilterChart),
    ("third filter chart", Field::ThirdFilterChart),
    ("second filter change", Field::SecondFilterChange),
    ("third filter change", Field::ThirdFilterChange),
    ("filters held", Field::FiltersHeld),
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
    ("control chart point", Field::HistoryPoint),
    ("history point", Field::HistoryPoint),
    ("point control chart", Field::HistoryPoint),
    ("control chart reading", Field::HistoryReading),
    ("remarks", Field::Remarks),
    ("remark", Field::Remarks),
    ("calibrator serial number", Field::CalibratorSerial),
    ("certificate serial number", Field::CertificateSerial),
    ("date certificate", Field::CertificateDate),
    ("barometer", Field::Pressure),
    ("air pressure", Field::Pressure),
    ("barometric pressure", Field::Pressure),
    ("thermometer", Field::Temperature),
    ("temp", Field::Temperature),
    ("air temp", Field::Temperature),
    ("slope line", Field::Slope),
    ("line slope", Field::Slope),
    ("intercept line", Field::Intercept),
    ("line intercept", Field::Intercept),
    ("run volume", Field::Volume),
    ("elapsed time meter before", Field::MeterBefore),
    ("elapsed time meter before run", Field::MeterBefore),
    ("meter before run", Field::MeterBefore),
    ("elapsed time meter after", Field::MeterAfter),
    ("elapsed time meter after run", Field::MeterAfter),
    ("meter after run", Field::MeterAfter),
    ("mean chart reading", Field::MeanChart),
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
    ("left", Field::Up),
    ("left leg", Field::Up),
    ("left side", Field::Up),
    ("left limb", Field::Up),
    ("right", Field::Down),
    ("right leg", Field::Down),
    ("right side", Field::Down),
    ("right limb", Field::Down),
    ("total", Field::DeltaH),
    ("chart reading", Field::Chart),
    ("pen reading", Field::Chart),
    ("recorder", Field::Chart),
];

/// Fields of a part of a run.
pub(crate) const PART_FIELDS: Names<PointField> =
    &[("chart", Field::PartChart), ("minutes", Field::PartMinutes)];

/// Fields of a reading of a flow check.
pub(crate) const CHECK_FIELDS: Names<PointField> = &[
    ("up", Field::CheckUp),
    ("down", Field::CheckDown),
    ("chart", Field::CheckChart),
    ("left", Field::CheckUp),
    ("left leg", Field::CheckUp),
    ("left side", Field::CheckUp),
    ("right", Field::CheckDown),
    ("right leg", Field::CheckDown),
    ("right side", Field::CheckDown),
    ("pen", Field::CheckChart),
    ("chart reading", Field::CheckChart),
    ("pen reading", Field::CheckChart),
];

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
    ("mon", 0),
    ("tue", 1),
    ("wed", 2),
    ("thu", 3),
    ("fri", 4),
    ("sat", 5),
    ("sun", 6),
];
