//! To which thing each drawing of the station belongs, as it stands now. No window in here.

use hands::{Spot, part_of};
use sim_core::rig::parts::{Leg, Nut, PartPlace, RigPart, Trip};
use sim_core::session::view::View;

/// What a drawing is to a hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Owner {
    /// It belongs to a thing.
    Thing(Spot),
    /// It can neither be looked at nor handled, but covers what is behind it.
    Nothing,
    /// The hand goes through it: moving air, and water behind its glass.
    Clear,
}

/// Whether a thing can be looked at or handled now: it is in sight, or it is to be felt where it is.
pub fn is_there(view: &View, spot: Spot) -> bool {
    let mounting = &view.mounting;
    let hangs = mounting.place(RigPart::Manometer) == PartPlace::Hook;
    let mounted = mounting.place(RigPart::Calibrator) == PartPlace::Adapter;
    let electronic = view.manometer.display.is_some();
    if let Some(part) = part_of(spot) {
        return mounting.place(part) != PartPlace::Holder || mounting.lid_open;
    }
    match spot {
        Spot::Dial | Spot::Tripper(_) | Spot::WeatherSheet => view.run.is_some(),
        Spot::KeptChart => view.run.as_ref().is_some_and(|run| run.kept_chart.is_some()),
        Spot::Nut(_) => mounting.lid_open,
        Spot::Knob => mounted && view.calibrator.plates.is_none(),
        Spot::Plates => view.calibrator.plates.is_some(),
        Spot::Openings => mounted,
        Spot::Valve(_) | Spot::Scale | Spot::Leg(_) => hangs && !electronic,
        Spot::Display => hangs && electronic,
        Spot::Tube => hangs || view.tube.on_tap,
        _ => true,
    }
}

/// Whose a drawing or a part of one is.
pub fn owner(view: &View, name: &str, which: usize) -> Owner {
    let Some(spot) = named(name, which) else {
        return match name {
            "air" | "water" | "digits" | "column" | "trace" => Owner::Clear,
            _ => Owner::Nothing,
        };
    };
    if is_there(view, spot) {
        return Owner::Thing(spot);
    }
    // What is not to be handled by itself belongs to that of which it is a part.
    match spot {
        Spot::Knob | Spot::Openings | Spot::Plates => Owner::Thing(Spot::Calibrator),
        Spot::Valve(_) | Spot::Scale | Spot::Leg(_) | Spot::Display | Spot::Tube => {
            Owner::Thing(Spot::Manometer)
        }
        Spot::Dial | Spot::Tripper(_) => Owner::Thing(Spot::Timer),
        // Under the closed lid, which is cut away in front of them.
        Spot::Nut(_) | Spot::Frame | Spot::Filter | Spot::Adapter => Owner::Thing(Spot::Lid),
        _ => Owner::Nothing,
    }
}

/// The thing that a drawing shows.
fn named(name: &str, which: usize) -> Option<Spot> {
    let leg = if which == 0 { Leg::Left } else { Leg::Right };
    Some(match name {
        "sky" | "sun" | "storm" => Spot::Sky,
        "roof" => Spot::Ground,
        "roof_edge" => Spot::RoofEdge,
        "work_order" => Spot::WorkOrder,
        "certificate" => Spot::Certificates,
        "thermometer_screen" | "thermometer" => Spot::Thermometer,
        "barometer" | "barometer_pointer" | "barometer_index" | "barometer_glass" => {
            Spot::Barometer
        }
        "plug_sampler" | "sampler's cord" | "cut in the cord" => Spot::Cord,
        "timer" | "timer_meter" | "timer_switch" => Spot::Timer,
        "timer_dial" => Spot::Dial,
        "timer_tripper_on" => Spot::Tripper(Trip::On),
        "timer_tripper_off" => Spot::Tripper(Trip::Off),
        "lid_open" | "lid_closed" | "in the inlet" => Spot::Lid,
        "nut" | "nut_edge" | "nut_half" | "bolt" | "washer" => {
            Spot::Nut(Nut::ALL.into_iter().find(|nut| nut.index() == which)?)
        }
        "frame" => Spot::Frame,
        "filter" | "case_filter" => Spot::Filter,
        "filter_holder" | "holder_gasket" | "calibrator_gasket" => Spot::Holder,
        "carrying_case" | "case_front" | "case_folder" => Spot::Case,
        "adapter" | "case_adapter" => Spot::Adapter,
        "calibrator" | "calibrator_plates" | "case_calibrator" => Spot::Calibrator,
        "calibrator_knob" => Spot::Knob,
        "openings" | "calibrator_shutter" | "calibrator_cover" => Spot::Openings,
        "plate" | "plate_box" | "plate_on_edge" => Spot::Plates,
        "manometer"
        | "manometer_glass"
        | "plumb_bob"
        | "case_manometer"
        | "electronic_manometer"
        | "case_electronic" => Spot::Manometer,
        "display" => Spot::Display,
        "valve" | "valve_edge" => Spot::Valve(leg),
        "manometer_scale" => Spot::Scale,
        "left leg" => Spot::Leg(Leg::Left),
        "right leg" => Spot::Leg(Leg::Right),
        "tube" => Spot::Tube,
        "plug_blower" | "blower's cord" => Spot::BlowerPlug,
        "mains_outlet" | "line_switch" | "reset button" => Spot::LineOutlet,
        "flow_controller" | "flow_controller_lamp" | "trim_screw" => Spot::Controller,
        "blower" | "rotor" | "in the exhaust" => Spot::Blower,
        "recorder" | "recorder's tubing" | "case behind the door" => Spot::Recorder,
        "recorder_door_closed" | "recorder_door_open" => Spot::Door,
        "pen_arm" => Spot::Pen,
        "pen_cap" => Spot::Cap,
        "chart" | "chart_even" | "chart_hub" => Spot::Chart,
        "zero screw" => Spot::ZeroScrew,
        "kept_chart" => Spot::KeptChart,
        "logger" | "logger_sheet" => Spot::WeatherSheet,
        _ => return None,
    })
}

/// The drawing by which a part is shown in the hand, and its height, scene units.
pub const fn in_hand(part: RigPart) -> (&'static str, f32) {
    match part {
        RigPart::Frame => ("frame", 30.0),
        RigPart::Filter => ("case_filter", 48.0),
        RigPart::Adapter => ("adapter", 30.0),
        RigPart::Calibrator => ("calibrator", 110.0),
        RigPart::Manometer => ("manometer", 240.0),
    }
}

/// The thing that a part is.
pub fn spot_of_part(part: RigPart) -> Option<Spot> {
    Spot::all().into_iter().find(|&spot| part_of(spot) == Some(part))
}
