//! Cords, plugs, switches, controller, and the blower as heard.

use sim_core::rig::parts::{BlowerPlug, TimerSwitch};
use sim_core::session::action::OnOff;
use sim_core::session::view::{Hiss, View};

use super::mounting::exhaust;
use super::scale::steps;
use crate::prose::{sentence, sentences};

/// Loudness below which the blower is not heard, of that at full speed. The rules take the rotor for
/// standing from a twentieth of its speed: until then it is heard.
pub(crate) const HEARD: f64 = 0.02;

/// Loudness below which it hums, and above which it whines.
const HUMS: f64 = 0.6;

/// What is said of a winding that smells, and what to do at once.
pub(super) const HOT: &str =
    "there is a hot smell: uncover the openings, or stop the blower and let it cool";

/// The flow controller.
pub(super) fn controller(view: &View) -> String {
    let seen = &view.power;
    let lamp = if seen.controller_lamp { "on" } else { "off" };
    // The screw's slot is seen to an eighth of a turn at best.
    let quarters = steps(seen.trim_turns, 0.25);
    let turns = format!("{}.{:02}", quarters / 4, quarters.unsigned_abs() % 4 * 25);
    let plugged = blower_plug(seen.blower_plug);
    sentences(&[
        format!("the controller's lamp is {lamp}"),
        format!("its trim screw is about {turns} turns from its lower stop"),
        plugged.to_owned(),
    ])
}

/// The timer.
pub(super) fn timer(view: &View) -> String {
    let mut said = vec![timer_switch(view.power.timer_switch).to_owned()];
    if let Some(run) = &view.run {
        said.extend(super::run::timer(run));
    }
    sentences(&said)
}

/// Cords and plugs.
pub(super) fn plugs(view: &View) -> String {
    let seen = &view.power;
    let mut said = [
        sampler_cord(seen.sampler_cord_in),
        blower_plug(seen.blower_plug),
        line(seen.line_switch),
        timer_switch(seen.timer_switch),
    ]
    .map(sentence)
    .to_vec();
    said.extend(outlet(view).into_iter().map(sentence));
    said.extend(exhaust(view).as_deref().map(sentence));
    said.join(" ")
}

/// What is wrong with the outlet and its cord.
pub(super) fn outlet(view: &View) -> Vec<&'static str> {
    let seen = &view.power;
    let tripped =
        "the reset button of the outlet stands out: its ground-fault protection has tripped";
    let cut = "the sheath of the extension cord is cut";
    [(seen.outlet_tripped, tripped), (seen.cord_damaged, cut)]
        .into_iter()
        .filter_map(|(so, what)| so.then_some(what))
        .collect()
}

/// The blower as it is heard and smelt from beside it.
pub(super) fn blower(view: &View) -> String {
    let seen = &view.blower;
    let mut said = vec![loudness(seen.loudness).to_owned()];
    if seen.turning == Some(true) && seen.loudness < HUMS {
        said.push("its shaft still turns: keep your hands away until it stands".to_owned());
    }
    if seen.wavering {
        said.push("its sound wavers".to_owned());
    }
    if seen.hot_smell {
        said.push(HOT.to_owned());
    }
    said.extend(exhaust(view));
    sentences(&said)
}

/// What you hear when you listen to the blower and close by around the holder.
pub(super) fn heard(view: &View) -> String {
    let seen = &view.blower;
    if seen.loudness < HEARD {
        return "Nothing is running: it is quiet.".to_owned();
    }
    let blower = loudness(seen.loudness);
    let wavers = if seen.wavering { " and its sound wavers" } else { "" };
    let hiss = match seen.hiss {
        Some(hiss) => format!("air hisses in {}", hissing(hiss)),
        None => "you hear no hiss".to_owned(),
    };
    sentence(&format!("{blower}{wavers}; {hiss}"))
}

/// How loud it is.
fn loudness(loudness: f64) -> &'static str {
    if loudness < HEARD {
        "the blower is stopped"
    } else if loudness < 0.17 {
        "the blower is turning slowly: you hear a low hum"
    } else if loudness < HUMS {
        "the blower hums"
    } else if loudness < 0.87 {
        "the blower whines"
    } else {
        "the blower whines loudly"
    }
}

/// Where it hisses.
fn hissing(hiss: Hiss) -> String {
    match hiss {
        Hiss::UnderCalibrator => "between the adapter plate and the calibrator".to_owned(),
        Hiss::PlateEdge => "along the edge of the plate".to_owned(),
        Hiss::AtNut(number) => format!("at nut {number}"),
    }
}

/// Where the sampler's cord is.
pub(super) const fn sampler_cord(cord_in: bool) -> &'static str {
    if cord_in {
        "the sampler is plugged into the mains outlet"
    } else {
        "the sampler is unplugged from the mains outlet"
    }
}

/// Where the blower's plug is.
pub(super) const fn blower_plug(plug: BlowerPlug) -> &'static str {
    match plug {
        BlowerPlug::Controller => "the blower is plugged into the flow controller",
        BlowerPlug::LineOutlet => "the blower is plugged into the switched mains outlet",
        BlowerPlug::Loose => "the blower is not plugged in",
    }
}

/// The switch of the switched mains outlet.
pub(super) const fn line(switch: OnOff) -> &'static str {
    match switch {
        OnOff::On => "the switched mains outlet is on",
        OnOff::Off => "the switched mains outlet is off",
    }
}

/// The timer's switch.
pub(super) const fn timer_switch(switch: TimerSwitch) -> &'static str {
    match switch {
        TimerSwitch::On => "the timer's switch is on",
        TimerSwitch::Off => "the timer's switch is off",
        TimerSwitch::Auto => "the timer's switch is set to auto",
    }
}
