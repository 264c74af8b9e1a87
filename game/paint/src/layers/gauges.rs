//! Recorder, barometer, thermometer and manometer, with what the program draws between the drawings.

use resvg::tiny_skia::Transform;
use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::action::{BarometerReference, Exposure};
use sim_core::session::view::View;

use super::super::live_parts;
use super::super::scene::{anchor, number};
use super::list::{Layer, SceneList, about, bring};
use crate::chart;

/// Steps in which the chart's paper is seen to turn, degrees: a tenth of a unit at its edge.
const PAPER_STEP_DEG: f64 = 0.05;

/// How far a bent arm leads past its pivot, of its length.
const BENT: f32 = 0.07;

pub(super) fn set(list: &mut SceneList, view: &View) {
    recorder(list, view);
    barometer(list, view);
    thermometer(list, view);
    manometer(list, view);
}

fn recorder(list: &mut SceneList, view: &View) {
    let (layer, seen) = (Layer::Recorder, &view.recorder);
    // Turned in steps too small to be seen, so that its picture can be kept for some seconds.
    let steps = (seen.chart_hour * chart::DEG_PER_HOUR / PAPER_STEP_DEG).round();
    let turned = (steps * PAPER_STEP_DEG) as f32;
    let ruling = chart::Ruling::of(seen);
    list.moved(layer, ruling.drawing(), about(anchor("chart", "hub"), turned));
    list.live(layer, ("trace", 41.5), Transform::identity(), live_parts::trace);
    list.piece(layer, "chart_hub");
    let radius = seen.pen.map_or(chart::PARKED_RADIUS, |pen| ruling.radius(pen));
    let turned = chart::arm_deg(radius) as f32 - number("pen_arm", "drawn_at_deg");
    let rise = if seen.on_paper { 0.0 } else { -number("pen_arm", "lifted_rise") };
    let by =
        Transform::from_translate(0.0, rise).pre_concat(about(anchor("pen_arm", "pivot"), turned));
    // A bent arm still has its tip where it reads, but no longer points at its pivot.
    let tip = anchor("pen_arm", "tip");
    let bend = if seen.arm_bent { BENT } else { 0.0 };
    let bent = Transform::from_row(1.0, bend, 0.0, 1.0, 0.0, -bend * tip.0);
    list.moved(layer, "pen_arm", by.pre_concat(bent));
    if seen.capped {
        list.moved(layer, "pen_cap", by);
    } else {
        // It waits in a corner of the case.
        list.moved(layer, "pen_cap", bring(anchor("pen_cap", "mouth"), anchor("recorder", "cap")));
    }
    let door = if seen.door_open { "recorder_door_open" } else { "recorder_door_closed" };
    list.piece(layer, door);
}

fn barometer(list: &mut SceneList, view: &View) {
    let straight = number("barometer", "mmhg_straight_up");
    let off = view.barometer.pointer_mmhg as f32 - straight;
    let turned = off * number("barometer", "degrees_per_mmhg");
    list.moved(Layer::Barometer, "barometer_pointer", about(anchor("barometer", "pivot"), turned));
    let index = match view.barometer.set_to {
        Some(BarometerReference::Station) => Some("index_station"),
        Some(BarometerReference::SeaLevel) => Some("index_sea_level"),
        None => None,
    };
    if let Some(index) = index {
        let by = bring(anchor("barometer_index", "point"), anchor("barometer", index));
        list.moved(Layer::Barometer, "barometer_index", by);
    }
    list.piece(Layer::Barometer, "barometer_glass");
}

fn thermometer(list: &mut SceneList, view: &View) {
    let by = match view.thermometer.exposure {
        Exposure::Shade => Transform::identity(),
        Exposure::Sun => {
            bring(anchor("thermometer_screen", "shade"), anchor("thermometer_screen", "sun"))
        }
    };
    list.moved(Layer::Thermometer, "thermometer", by);
    list.live(Layer::Thermometer, ("column", 40.5), by, live_parts::column);
}

/// The manometer turns about its eye; its plumb hangs straight below its pin.
fn manometer(list: &mut SceneList, view: &View) {
    let electronic = view.manometer.display.is_some();
    match view.mounting.place(RigPart::Manometer) {
        PartPlace::Case if electronic => return list.piece(Layer::Still, "case_electronic"),
        PartPlace::Case => return list.piece(Layer::Still, "case_manometer"),
        PartPlace::Hand => return,
        _ => {}
    }
    let by = live_parts::manometer_at(view);
    list.moved(Layer::Manometer, live_parts::manometer_piece(view), by);
    if electronic {
        list.live(Layer::Water, ("digits", 51.0), by, live_parts::display);
        list.live(Layer::Tube, ("tube", 57.0), Transform::identity(), live_parts::tube);
        return;
    }
    list.live(Layer::Water, ("water", 51.0), by, live_parts::water);
    let layer = Layer::ManometerFront;
    let per_in = number("manometer_scale", "units_per_in");
    let slid = -(view.manometer.scale_in as f32) * per_in;
    list.moved(layer, "manometer_scale", by.pre_translate(0.0, slid));
    let right = bring(anchor("manometer", "valve_left"), anchor("manometer", "valve_right"));
    for (which, (leg, home)) in
        [(&view.manometer.left, Transform::identity()), (&view.manometer.right, right)]
            .into_iter()
            .enumerate()
    {
        list.which = which;
        let lift = number("manometer", "valve_lift_per_quarter") * f32::from(leg.valve_quarters);
        let name = if leg.valve_quarters % 2 == 1 { "valve_edge" } else { "valve" };
        list.moved(layer, name, by.pre_concat(home).pre_translate(0.0, -lift));
    }
    list.which = 0;
    list.moved(layer, "manometer_glass", by);
    let pin = anchor("manometer", "plumb");
    let hung = live_parts::moved(by, pin);
    list.moved(layer, "plumb_bob", bring(anchor("plumb_bob", "pin"), hung));
    list.live(Layer::Tube, ("tube", 57.0), Transform::identity(), live_parts::tube);
}
