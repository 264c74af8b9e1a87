//! Names of things, the first for each being the one that is said back. Articles are left out.

use sim_core::field_book::Field;
use sim_core::rig::parts::{
    BlowerPlug, FilterSide, Gasket, Grip, Leg, PartPlace, RigPart, TimerSwitch, Trip,
};
use sim_core::session::action::{
    BarometerReference, Exposure, FaultPlace, HelpTopic, OnOff, Response, WasherSeat,
};

use super::catch::{PointField, Value};
use super::sentence::Sentence;
use super::sights::SIGHTS;
use crate::words::help::Topic;

/// Names and what they name.
pub(in crate::words) type Names<T> = &'static [(&'static str, T)];

pub(in crate::words) const LEGS: Names<Leg> = &[("left", Leg::Left), ("right", Leg::Right)];

pub(in crate::words) const PARTS: Names<RigPart> = &[
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

pub(in crate::words) const PLACES: Names<PartPlace> = &[
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
    ("line outlet", BlowerPlug::LineOutlet),
    ("line", BlowerPlug::LineOutlet),
    ("outlet", BlowerPlug::LineOutlet),
    ("mains", BlowerPlug::LineOutlet),
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
    ("for sums", HelpTopic::Sums),
    ("sums", HelpTopic::Sums),
    ("for plot", HelpTopic::Plot),
    ("plot", HelpTopic::Plot),
];

pub(in crate::words) const FAULT_PLACES: Names<FaultPlace> = &[
    ("manometer", FaultPlace::Manometer),
    ("tube", FaultPlace::Tube),
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
    ("check line flow", Field::CheckLineFlow),
    ("check difference", Field::CheckDifference),
    ("check outcome", Field::CheckOutcome),
    ("filter number", Field::FilterNumber),
    ("meter before", Field::MeterBefore),
    ("start chart", Field::StartChart),
    ("end chart", Field::EndChart),
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

/// Directions that mean more of the slot's quantity, and less of it.
const UP_DOWN: Names<f64> = &[("up", 1.0), ("upwards", 1.0), ("down", -1.0), ("downwards", -1.0)];
const LEFT_RIGHT: Names<f64> = &[("right", 1.0), ("left", -1.0)];
const ON_BACK: Names<f64> = &[
    ("forward", 1.0),
    ("forwards", 1.0),
    ("ahead", 1.0),
    ("back", -1.0),
    ("backward", -1.0),
    ("backwards", -1.0),
];
const CLOCKWISE: Names<f64> = &[
    ("clockwise", 1.0),
    ("right", 1.0),
    ("up", 1.0),
    ("counterclockwise", -1.0),
    ("anticlockwise", -1.0),
    ("counter-clockwise", -1.0),
    ("anti-clockwise", -1.0),
    ("back", -1.0),
    ("left", -1.0),
    ("down", -1.0),
];
const ABOVE_BELOW: Names<f64> = &[("above", 1.0), ("below", -1.0)];

const TOPICS: Names<Topic> = &[
    ("looking", Topic::Looking),
    ("air", Topic::Air),
    ("mounting", Topic::Mounting),
    ("manometer", Topic::Manometer),
    ("power", Topic::Power),
    ("flow", Topic::Flow),
    ("recorder", Topic::Recorder),
    ("run", Topic::Run),
    ("filter", Topic::Run),
    ("timer", Topic::Run),
    ("writing", Topic::Writing),
    ("reporting", Topic::Reporting),
    ("report", Topic::Reporting),
    ("reports", Topic::Reporting),
    ("asking", Topic::Asking),
    ("ask", Topic::Asking),
    ("look", Topic::Looking),
    ("write", Topic::Writing),
    ("book", Topic::Writing),
    ("pen", Topic::Recorder),
    ("chart", Topic::Recorder),
    ("knob", Topic::Flow),
    ("valves", Topic::Manometer),
    ("nuts", Topic::Mounting),
    ("all", Topic::All),
    ("everything", Topic::All),
];

/// The things of a slot's kind that are named at a place.
pub(super) fn named(slot: &str, sentence: &Sentence, at: usize) -> Vec<(usize, Value)> {
    match slot {
        "leg" => from(LEGS, Value::Leg, sentence, at),
        "part" => from(PARTS, Value::Part, sentence, at),
        "place" => from(PLACES, Value::Place, sentence, at),
        "gasket" => from(GASKETS, Value::Gasket, sentence, at),
        "seat" => from(SEATS, Value::Seat, sentence, at),
        "sight" => from(SIGHTS, Value::Sight, sentence, at),
        "on-off" => from(ON_OFF, Value::OnOff, sentence, at),
        "timer" => from(TIMER, Value::Timer, sentence, at),
        "plug" => from(PLUGS, Value::Plug, sentence, at),
        "exposure" => from(EXPOSURES, Value::Exposure, sentence, at),
        "reference" => from(REFERENCES, Value::Reference, sentence, at),
        "ask" => from(ASKS, Value::Ask, sentence, at),
        "fault-place" => from(FAULT_PLACES, Value::FaultPlace, sentence, at),
        "response" => from(RESPONSES, Value::Response, sentence, at),
        "field" => from(FIELDS, Value::Field, sentence, at),
        "part-field" => from(PART_FIELDS, Value::PointField, sentence, at),
        "check-field" => from(CHECK_FIELDS, Value::PointField, sentence, at),
        "grip" => from(GRIPS, Value::Grip, sentence, at),
        "side" => from(SIDES, Value::Side, sentence, at),
        "weekday" => from(WEEKDAYS, Value::Weekday, sentence, at),
        "point-field" => from(POINT_FIELDS, Value::PointField, sentence, at),
        "up-down" => from(UP_DOWN, Value::Sense, sentence, at),
        "left-right" => from(LEFT_RIGHT, Value::Sense, sentence, at),
        "on-back" => from(ON_BACK, Value::Sense, sentence, at),
        "clockwise" => from(CLOCKWISE, Value::Sense, sentence, at),
        "above-below" => from(ABOVE_BELOW, Value::Sense, sentence, at),
        "topic" => from(TOPICS, Value::Topic, sentence, at),
        _ => Vec::new(),
    }
}

/// Every name of the table that stands at a place, the longest first.
fn from<T: Copy>(
    names: Names<T>,
    wrap: fn(T) -> Value,
    sentence: &Sentence,
    at: usize,
) -> Vec<(usize, Value)> {
    let mut found: Vec<(usize, Value)> = names
        .iter()
        .filter_map(|&(name, value)| Some((sentence.phrase_at(at, name)?, wrap(value))))
        .collect();
    found.sort_by_key(|&(count, _)| std::cmp::Reverse(count));
    found
}

/// The name by which a thing is said.
pub(in crate::words) fn name<T: PartialEq>(names: Names<T>, value: &T) -> &'static str {
    names.iter().find(|(_, named)| named == value).map_or("it", |&(name, _)| name)
}
