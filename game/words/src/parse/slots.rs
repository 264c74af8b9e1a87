//! What a slot of a pattern can catch by name.

use super::catch::Value;
use super::checklist::CHECKLIST_ITEMS;
use super::sentence::Sentence;
use super::sights::SIGHTS;
use super::vocabulary::{
    ASKS, CHECK_FIELDS, EXPOSURES, FAULT_PLACES, FIELDS, FLUIDS, GASKETS, GRIPS, LEGS, ON_OFF,
    PART_FIELDS, PARTS, PLACES, PLUGS, POINT_FIELDS, REFERENCES, RESPONSES, SEATS, SIDES, TIMER,
    WEEKDAYS,
};
use crate::names::Names;
use crate::topic::Topic;

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
        "fluid" => from(FLUIDS, Value::Fluid, sentence, at),
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
        "checklist-item" => from(CHECKLIST_ITEMS, Value::ChecklistItem, sentence, at),
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
    ("musts", Topic::Musts),
    ("must", Topic::Musts),
    ("mandatory steps", Topic::Musts),
    ("deciding", Topic::Deciding),
    ("decisions", Topic::Deciding),
    ("checklist", Topic::Checklist),
    ("all", Topic::All),
    ("everything", Topic::All),
];
