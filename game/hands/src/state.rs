//! The state of a thing in a few words, for the hand card and the screen reader. Nothing here gives
//! away what has to be read from a scale: reading it is the work.

use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{BlowerPlug, Leg, PartPlace, RigPart, TimerSwitch};
use sim_core::session::action::{Exposure, OnOff, WasherSeat};
use sim_core::session::view::{Hiss, NutFeel, View};

use super::away::day_and_time;
use super::carried::{part_name, part_of};
use super::run_state;
use super::spot::Spot;

/// The state of a thing now.
pub fn state_of(view: &View, spot: Spot) -> String {
    if let Some(part) = part_of(spot) {
        return part_state(view, part);
    }
    match spot {
        Spot::Sky => sky(view),
        Spot::RoofEdge => "stay away from it".to_owned(),
        Spot::Dial | Spot::Tripper(_) | Spot::KeptChart | Spot::WeatherSheet => {
            run_state::state(view, spot)
        }
        Spot::WorkOrder => "on its nail on the post".to_owned(),
        Spot::Certificates => "beside the case".to_owned(),
        Spot::Thermometer => match view.thermometer.exposure {
            Exposure::Shade => "in its shaded screen",
            Exposure::Sun => "in the open",
        }
        .to_owned(),
        Spot::Barometer => "on the post".to_owned(),
        Spot::Lid => if view.mounting.lid_open { "open" } else { "closed" }.to_owned(),
        Spot::Nut(nut) => view.mounting.nuts.get(nut.index()).map_or_else(String::new, |nut| {
            let feel = match nut.feel {
                NutFeel::Off => "off, with its bolt swung aside",
                NutFeel::Free => "turns freely",
                NutFeel::Snug => "hand-tight",
                NutFeel::Hard => "very tight",
            };
            let washer = match nut.washer {
                WasherSeat::Above => "washer above",
                WasherSeat::Below => "washer below",
            };
            format!("{feel}, {washer}")
        }),
        Spot::Holder => holder(view),
        Spot::Case | Spot::Ground => lying(view, spot),
        Spot::Plates => plates(view),
        Spot::Knob if view.calibrator.plates.is_some() => "it has none".to_owned(),
        Spot::Knob => knob(view.calibrator.knob).to_owned(),
        Spot::Openings => if view.calibrator.blocked { "covered" } else { "uncovered" }.to_owned(),
        Spot::Display => display(view).to_owned(),
        Spot::Valve(_) | Spot::Leg(_) | Spot::Scale if view.manometer.display.is_some() => {
            "it has none".to_owned()
        }
        Spot::Valve(leg) => valve(view, leg),
        Spot::Leg(_) | Spot::Scale => water(view).to_owned(),
        Spot::Tube => tube(view),
        Spot::Cord => if view.power.sampler_cord_in {
            "in the mains outlet"
        } else {
            "unplugged, on the roof"
        }
        .to_owned(),
        Spot::BlowerPlug => match view.power.blower_plug {
            BlowerPlug::Controller => "in the flow controller's socket",
            BlowerPlug::LineOutlet => "in the switched mains outlet",
            BlowerPlug::Loose => "not plugged in",
        }
        .to_owned(),
        Spot::LineOutlet => match view.power.line_switch {
            OnOff::On => "switched on",
            OnOff::Off => "switched off",
        }
        .to_owned(),
        Spot::Timer => match view.power.timer_switch {
            TimerSwitch::On => "on",
            TimerSwitch::Off => "off",
            TimerSwitch::Auto => "on auto",
        }
        .to_owned(),
        Spot::Controller => {
            if view.power.controller_lamp { "its lamp is on" } else { "its lamp is off" }.to_owned()
        }
        Spot::Blower => blower(view),
        Spot::Recorder | Spot::Door => {
            if view.recorder.door_open { "door open" } else { "door closed" }.to_owned()
        }
        Spot::Pen | Spot::ZeroScrew => pen(view),
        Spot::Cap => {
            if view.recorder.capped { "on the pen" } else { "in its corner of the recorder's case" }
                .to_owned()
        }
        Spot::Chart => match view.recorder.marks.len() {
            0 => "no marks on it".to_owned(),
            1 => "one mark on it".to_owned(),
            marks => format!("{marks} marks on it"),
        },
        _ => String::new(),
    }
}

/// What you would notice of the site from a distance: no scale can be read from there.
pub fn seen_from_afar(view: &View) -> String {
    format!(
        "{}: the sky is {}, the blower {}, the pen is {}.",
        day_and_time(view),
        sky(view),
        blower(view),
        pen(view)
    )
}

fn sky(view: &View) -> String {
    match view.sky.thunder_since_s {
        Some(seconds) => {
            format!("stormy, with thunder heard {:.0} min ago", (seconds / 60.0).floor())
        }
        None if view.sky.sunny => "sunny".to_owned(),
        None => "overcast".to_owned(),
    }
}

fn part_state(view: &View, part: RigPart) -> String {
    let place = match view.mounting.place(part) {
        PartPlace::Case if part == RigPart::Filter => "in its envelope",
        PartPlace::Case => "in the carrying case",
        PartPlace::Ground => "on the roof beside the stand",
        PartPlace::Hand => "in your hand",
        PartPlace::Holder => "on the filter holder",
        PartPlace::Adapter => "on the adapter plate",
        PartPlace::Hook => "on its hook",
    };
    let tilts = view.manometer.display.is_none();
    if part == RigPart::Manometer && tilts && view.mounting.place(part) == PartPlace::Hook {
        let tilt = view.manometer.tilt_deg;
        let hangs = if tilt.abs() < 0.25 {
            "plumb"
        } else if tilt > 0.0 {
            "tilted to the right of the plumb line"
        } else {
            "tilted to the left of the plumb line"
        };
        return format!("{place}, {hangs}");
    }
    if part == RigPart::Filter
        && let Some(run) = &view.run
    {
        return run_state::filter_state(run, place);
    }
    place.to_owned()
}

fn holder(view: &View) -> String {
    let on: Vec<&str> = [RigPart::Filter, RigPart::Frame, RigPart::Adapter]
        .into_iter()
        .filter(|&part| view.mounting.place(part) == PartPlace::Holder)
        .map(part_name)
        .collect();
    let lies = if on.is_empty() {
        "bare".to_owned()
    } else {
        format!("under the {}", on.join(" and the "))
    };
    match view.mounting.holder_gasket {
        Some(true) => format!("{lies}, its gasket in place"),
        Some(false) => format!("{lies}, no gasket on it"),
        None => lies,
    }
}

fn lying(view: &View, spot: Spot) -> String {
    let place = if spot == Spot::Case { PartPlace::Case } else { PartPlace::Ground };
    let names: Vec<&str> = RigPart::ALL
        .into_iter()
        .filter(|&part| view.mounting.place(part) == place)
        .map(part_name)
        .collect();
    if names.is_empty() { "nothing there".to_owned() } else { names.join(", ") }
}

/// Which plate is in, which anybody sees.
fn plates(view: &View) -> String {
    match view.calibrator.plates {
        None => "it has none".to_owned(),
        Some(plates) => match plates.inserted {
            Some(plate) => format!("the one with {} holes is in the calibrator", plate.holes()),
            None => "all five in their box".to_owned(),
        },
    }
}

const fn knob(opening: f64) -> &'static str {
    if opening >= 0.995 {
        "fully open"
    } else if opening <= 0.005 {
        "fully closed"
    } else {
        "partly closed"
    }
}

/// Whether the display can be read, without its reading.
const fn display(view: &View) -> &'static str {
    match view.manometer.display {
        None => "it has none",
        Some(display) => match (display.shows, display.battery_low) {
            (Shown::Nothing, _) => "dark",
            (Shown::SelfTest, _) => "testing itself",
            (_, true) => "on, with the low-battery sign",
            (Shown::OverRange, false) => "on, over its range",
            (Shown::Reading(_), false) => "on",
        },
    }
}

fn valve(view: &View, leg: Leg) -> String {
    match view.manometer.leg(leg).valve_quarters {
        0 => "closed".to_owned(),
        1 => "a quarter turn open".to_owned(),
        2 => "half a turn open".to_owned(),
        3 => "three quarters of a turn open".to_owned(),
        _ => "fully open".to_owned(),
    }
}

const fn water(view: &View) -> &'static str {
    if view.manometer.moving { "the water is moving" } else { "the water is still" }
}

fn tube(view: &View) -> String {
    let mut said =
        vec![if view.tube.on_tap { "on the pressure tap" } else { "off the pressure tap" }];
    if view.tube.kinked {
        said.push("kinked");
    }
    if view.tube.drops {
        said.push("drops of water in it");
    }
    if view.tube.crack == Some(true) {
        said.push("a crack in its wall");
    }
    said.join(", ")
}

fn blower(view: &View) -> String {
    let seen = &view.blower;
    let mut said = vec![match seen.loudness {
        loudness if loudness < 0.02 => "is not running".to_owned(),
        loudness if loudness < 0.6 => "hums".to_owned(),
        loudness if loudness < 0.87 => "whines".to_owned(),
        _ => "whines loudly".to_owned(),
    }];
    if seen.wavering {
        said.push("the sound wavers".to_owned());
    }
    match seen.hiss {
        Some(Hiss::UnderCalibrator) => said.push("air hisses in under the calibrator".to_owned()),
        Some(Hiss::PlateEdge) => said.push("air hisses in along the plate's edge".to_owned()),
        Some(Hiss::AtNut(nut)) => said.push(format!("air hisses in at nut {nut}")),
        None => {}
    }
    if seen.hot_smell {
        said.push("it smells hot".to_owned());
    }
    said.join(", ")
}

fn pen(view: &View) -> String {
    let seen = &view.recorder;
    let cap = if seen.capped { "capped" } else { "uncapped" };
    let paper = if seen.on_paper { "on the paper" } else { "off the paper" };
    let motion = if seen.moving { ", moving" } else { "" };
    format!("{cap}, {paper}{motion}")
}
