//! Recorder, barometer, thermometer and manometer, with what the program inks between the drawings.

use super::{BarometerReference, Exposure, Group, Part, Place, Stage, Transform, View};
use super::{about, anchor, bring, number};
use crate::chart;
use crate::ink;

/// Steps in which the chart's paper is seen to turn, degrees: a tenth of a unit at its edge.
const PAPER_STEP_DEG: f64 = 0.05;

pub(super) fn set(stage: &mut Stage, view: &View) {
    recorder(stage, view);
    barometer(stage, view);
    thermometer(stage, view);
    manometer(stage, view);
}

fn recorder(stage: &mut Stage, view: &View) {
    let (group, seen) = (Group::Recorder, &view.recorder);
    // Turned in steps too small to be seen, so that its picture can be kept for some seconds.
    let steps = (seen.chart_hour * chart::DEG_PER_HOUR / PAPER_STEP_DEG).round();
    let turned = (steps * PAPER_STEP_DEG) as f32;
    let ruling = chart::Ruling::of(seen);
    stage.moved(group, ruling.drawing(), about(anchor("chart", "hub"), turned));
    stage.inked(group, 41.5, Transform::identity(), ink::trace);
    stage.piece(group, "chart_hub");
    let radius = seen.pen.map_or(chart::PARKED_RADIUS, |pen| ruling.radius(pen));
    let turned = chart::arm_deg(radius) as f32 - number("pen_arm", "drawn_at_deg");
    let rise = if seen.on_paper { 0.0 } else { -number("pen_arm", "lifted_rise") };
    let by =
        Transform::from_translate(0.0, rise).pre_concat(about(anchor("pen_arm", "pivot"), turned));
    stage.moved(group, "pen_arm", by);
    if seen.capped {
        stage.moved(group, "pen_cap", by);
    } else {
        // It waits in a corner of the case.
        stage.moved(group, "pen_cap", bring(anchor("pen_cap", "mouth"), anchor("recorder", "cap")));
    }
    let door = if seen.door_open { "recorder_door_open" } else { "recorder_door_closed" };
    stage.piece(group, door);
}

fn barometer(stage: &mut Stage, view: &View) {
    let straight = number("barometer", "mmhg_straight_up");
    let off = view.barometer.pointer_mmhg as f32 - straight;
    let turned = off * number("barometer", "degrees_per_mmhg");
    stage.moved(Group::Barometer, "barometer_pointer", about(anchor("barometer", "pivot"), turned));
    let index = match view.barometer.set_to {
        Some(BarometerReference::Station) => Some("index_station"),
        Some(BarometerReference::SeaLevel) => Some("index_sea_level"),
        None => None,
    };
    if let Some(index) = index {
        let by = bring(anchor("barometer_index", "point"), anchor("barometer", index));
        stage.moved(Group::Barometer, "barometer_index", by);
    }
    stage.piece(Group::Barometer, "barometer_glass");
}

fn thermometer(stage: &mut Stage, view: &View) {
    let by = match view.thermometer.exposure {
        Exposure::Shade => Transform::identity(),
        Exposure::Sun => {
            bring(anchor("thermometer_screen", "shade"), anchor("thermometer_screen", "sun"))
        }
    };
    stage.moved(Group::Thermometer, "thermometer", by);
    stage.inked(Group::Thermometer, 40.5, by, ink::column);
}

/// The manometer turns about its eye; its plumb hangs straight below its pin.
fn manometer(stage: &mut Stage, view: &View) {
    match view.mounting.place(Part::Manometer) {
        Place::Case => return stage.piece(Group::Still, "case_manometer"),
        Place::Hand => return,
        _ => {}
    }
    let by = ink::manometer_at(view);
    stage.moved(Group::Manometer, "manometer", by);
    stage.inked(Group::Water, 51.0, by, ink::water);
    let group = Group::ManometerFront;
    let per_in = number("manometer_scale", "units_per_in");
    let slid = -(view.manometer.scale_in as f32) * per_in;
    stage.moved(group, "manometer_scale", by.pre_translate(0.0, slid));
    let right = bring(anchor("manometer", "valve_left"), anchor("manometer", "valve_right"));
    for (leg, home) in
        [(&view.manometer.left, Transform::identity()), (&view.manometer.right, right)]
    {
        let lift = number("manometer", "valve_lift_per_quarter") * f32::from(leg.valve_quarters);
        let name = if leg.valve_quarters % 2 == 1 { "valve_edge" } else { "valve" };
        stage.moved(group, name, by.pre_concat(home).pre_translate(0.0, -lift));
    }
    stage.moved(group, "manometer_glass", by);
    let pin = anchor("manometer", "plumb");
    let hung = ink::moved(by, pin);
    stage.moved(group, "plumb_bob", bring(anchor("plumb_bob", "pin"), hung));
    stage.inked(Group::Tube, 57.0, Transform::identity(), ink::tube);
}
