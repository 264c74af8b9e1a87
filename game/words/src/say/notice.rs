//! What a person notices when something has changed: rough, as out of the corner of the eye.

use sim_core::rig::manometer::IceLook;
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::{Leg, RigPart};
use sim_core::session::view::{DisplayView, View};

use super::scale::{rough_inches, steps};
use super::{air, calibrator, manometer, mounting, power, recorder};
use crate::names::name;
use crate::parse::vocabulary::PARTS;
use crate::printable::printable;
use crate::prose::sentence;

/// Change of pitch that is heard, as a share: about a third of a semitone.
const HEARD_PITCH: f64 = 0.02;
/// Level below the fill mark that strikes the eye, mm.
const LOW_MM: f64 = 4.0;
/// Seconds left at which a sitter is told.
const WARNED_AT_S: f64 = 300.0;

/// What is noticed between two moments, a sentence each, in the order ears, hands, eyes.
pub fn notice(before: &View, after: &View) -> Vec<String> {
    let mut said = Vec::new();
    heard(before, after, &mut said);
    mounted(before, after, &mut said);
    powered(before, after, &mut said);
    water(before, after, &mut said);
    pen(before, after, &mut said);
    around(before, after, &mut said);
    said.extend(super::run::notice(before, after));
    said.iter().map(|text| sentence(text)).collect()
}

/// Adds a sentence about something that is now otherwise.
fn changed<T: PartialEq>(
    before: T,
    after: T,
    said: &mut Vec<String>,
    say: impl FnOnce(T) -> String,
) {
    if before != after {
        said.push(say(after));
    }
}

/// Adds a sentence about something that is now so and was not.
fn began(before: bool, after: bool, said: &mut Vec<String>, text: &str) {
    if after && !before {
        said.push(text.to_owned());
    }
}

/// Blower and thunder. A hiss is drowned by the whine: only listening close by finds it.
fn heard(before: &View, after: &View, said: &mut Vec<String>) {
    let (was, is) = (&before.blower, &after.blower);
    let runs = |loudness: f64| loudness >= power::HEARD;
    match (runs(was.loudness), runs(is.loudness)) {
        (false, true) => said.push("the blower runs up to speed".to_owned()),
        (true, false) => said.push("the blower stops".to_owned()),
        (true, true) if is.pitch_hz > was.pitch_hz * (1.0 + HEARD_PITCH) => {
            said.push("the pitch of the blower rises".to_owned());
        }
        (true, true) if is.pitch_hz < was.pitch_hz * (1.0 - HEARD_PITCH) => {
            said.push("the pitch of the blower falls".to_owned());
        }
        _ => {}
    }
    began(was.wavering, is.wavering, said, "the sound of the blower starts to waver");
    began(was.hot_smell, is.hot_smell, said, power::HOT);
    let thunder = |view: &View| view.sky.thunder_since_s.is_some();
    began(thunder(before), thunder(after), said, "you hear thunder");
}

/// Lid, hand, nuts, gaskets.
fn mounted(before: &View, after: &View, said: &mut Vec<String>) {
    let (was, is) = (&before.mounting, &after.mounting);
    changed(was.lid_open, is.lid_open, said, |open| mounting::lid(open).to_owned());
    for part in RigPart::ALL {
        changed(was.place(part), is.place(part), said, |place| {
            format!("the {} {}", name(PARTS, &part), mounting::part_lies(part, place))
        });
    }
    for (at, (was, is)) in was.nuts.iter().zip(&is.nuts).enumerate() {
        if was != is {
            said.push(mounting::nut(after, at));
        }
    }
    for (was, is, place) in [
        (was.holder_gasket, is.holder_gasket, "on the holder"),
        (was.calibrator_gasket, is.calibrator_gasket, "under the calibrator"),
    ] {
        match is {
            Some(false) if was != is => said.push(format!("there is no gasket {place}")),
            Some(true) if was != is => said.push(format!("there is a gasket {place}")),
            _ => {}
        }
    }
}

/// Cords, plugs, switches, lamp.
fn powered(before: &View, after: &View, said: &mut Vec<String>) {
    let (was, is) = (&before.power, &after.power);
    changed(was.sampler_cord_in, is.sampler_cord_in, said, |x| power::sampler_cord(x).to_owned());
    changed(was.blower_plug, is.blower_plug, said, |x| power::blower_plug(x).to_owned());
    changed(was.line_switch, is.line_switch, said, |x| power::line(x).to_owned());
    changed(was.timer_switch, is.timer_switch, said, |x| power::timer_switch(x).to_owned());
    changed(was.controller_lamp, is.controller_lamp, said, |lit| {
        format!("the controller's lamp {}", if lit { "comes on" } else { "goes out" })
    });
    changed(steps(was.trim_turns, 0.25), steps(is.trim_turns, 0.25), said, |_| {
        "the trim screw has been turned".to_owned()
    });
}

/// Valves, tube, knob, and the water.
fn water(before: &View, after: &View, said: &mut Vec<String>) {
    let (was, is) = (&before.manometer, &after.manometer);
    for leg in [Leg::Left, Leg::Right] {
        changed(was.leg(leg).valve_quarters, is.leg(leg).valve_quarters, said, |_| {
            manometer::valve(after, leg)
        });
    }
    changed(before.tube.on_tap, after.tube.on_tap, said, |on| calibrator::on_tap(on).to_owned());
    changed(before.manometer.ice, after.manometer.ice, said, |ice| {
        match ice {
            IceLook::None => "the ice in the manometer has melted",
            IceLook::Slush => "there is ice at the glass of the manometer: the water is slush",
            IceLook::Solid => "the water in the manometer is frozen through",
        }
        .to_owned()
    });
    let low = |view: &View| view.manometer.below_mark_mm > LOW_MM;
    changed(low(before), low(after), said, |low| {
        if low {
            "the water in the manometer stands far below its fill mark"
        } else {
            "the manometer is filled to its mark"
        }
        .to_owned()
    });
    changed(before.tube.kinked, after.tube.kinked, said, |kinked| {
        if kinked { "the tube is kinked" } else { "the tube is straight again" }.to_owned()
    });
    began(before.tube.drops, after.tube.drops, said, "there are drops of water in the tube");
    changed(steps(before.calibrator.knob, 0.05), steps(after.calibrator.knob, 0.05), said, |_| {
        calibrator::knob(after.calibrator.knob)
    });
    let plate = |view: &View| view.calibrator.plates.map(|plates| plates.inserted);
    changed(plate(before), plate(after), said, |inserted| match inserted.flatten() {
        Some(plate) => format!("the plate with {} holes is in the calibrator", plate.holes()),
        None => "no plate is in the calibrator".to_owned(),
    });
    changed(before.calibrator.blocked, after.calibrator.blocked, said, |blocked| {
        if blocked { "the openings are covered" } else { "the openings are uncovered" }.to_owned()
    });
    changed(steps(was.scale_in, 0.05), steps(is.scale_in, 0.05), said, |_| {
        "the scale has moved".to_owned()
    });
    shown(was.display, is.display, said);
    let rise = is.left.meniscus_in - was.left.meniscus_in;
    if steps(rise, 0.1) != 0 {
        let way = if rise > 0.0 { "risen" } else { "fallen" };
        let motion = if is.moving { " and is still swinging" } else { "" };
        let by = rough_inches(rise);
        said.push(format!("the water in the left leg has {way} {by}{motion}"));
    } else if was.moving && !is.moving {
        said.push("the water has come to rest".to_owned());
    } else {
        began(was.moving, is.moving, said, "the water is swinging");
    }
    began(was.bubble, is.bubble, said, "a bubble is visible in the bend");
}

/// The display of an electronic manometer: that it comes on or goes dark, and its battery sign.
fn shown(was: Option<DisplayView>, is: Option<DisplayView>, said: &mut Vec<String>) {
    let (Some(was), Some(is)) = (was, is) else { return };
    changed(was.shows == Shown::Nothing, is.shows == Shown::Nothing, said, |dark| {
        if dark { "the display goes dark" } else { "the display comes on" }.to_owned()
    });
    began(
        was.shows == Shown::OverRange,
        is.shows == Shown::OverRange,
        said,
        "the display shows the over-range sign",
    );
    began(was.battery_low, is.battery_low, said, "the low-battery sign comes on");
}

/// The recorder.
fn pen(before: &View, after: &View, said: &mut Vec<String>) {
    let (was, is) = (&before.recorder, &after.recorder);
    changed(was.door_open, is.door_open, said, |open| recorder::door(open).to_owned());
    changed(was.capped, is.capped, said, |x| format!("the pen is {}", recorder::cap(x)));
    changed(was.on_paper, is.on_paper, said, |x| format!("the pen is {}", recorder::paper(x)));
    if is.marks.len() > was.marks.len()
        && let Some((_, label)) = is.marks.last()
    {
        said.push(format!("\"{}\" is marked beside the trace", printable(label)));
    }
    let moved = was.pen.zip(is.pen).map_or(0.0, |(was, is)| is - was);
    let motion = if is.moving { " and is still moving" } else { "" };
    match (steps(moved, 1.0).unsigned_abs(), moved > 0.0) {
        (0, _) if was.moving && !is.moving => said.push("the pen has come to rest".to_owned()),
        (0, up) if steps(moved, 0.2) != 0 => {
            said.push(format!("the pen goes {} a little{motion}", if up { "up" } else { "down" }));
        }
        (0, _) => {}
        (divisions, up) => {
            let way = if up { "up" } else { "down" };
            let plural = if divisions == 1 { "division" } else { "divisions" };
            said.push(format!("the pen goes {way} about {divisions} {plural}{motion}"));
        }
    }
}

/// Thermometer, sun, time.
fn around(before: &View, after: &View, said: &mut Vec<String>) {
    changed(before.thermometer.exposure, after.thermometer.exposure, said, |place| {
        format!("the thermometer is {}", air::exposure(place))
    });
    changed(before.sky.sunny, after.sky.sunny, said, |sunny| {
        if sunny { "the sun comes out" } else { "the sun goes behind a cloud" }.to_owned()
    });
    let late = |view: &View| view.seconds_left.is_some_and(|left| left <= WARNED_AT_S);
    began(late(before), late(after), said, "five minutes are left");
}
