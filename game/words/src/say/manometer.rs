//! The manometer as seen.

use sim_core::rig::manometer::IceLook;
use sim_core::rig::parts::{GaugeFluid, Leg, PartPlace, RigPart};
use sim_core::session::view::View;

use super::scale::{inches_from_zero, rough_inches, steps};
use crate::names::name;
use crate::parse::vocabulary::LEGS;
use crate::prose::sentences;

/// The whole of it: hook, plumb, valves, scale, water. Its legs are read one by one.
pub(super) fn whole(view: &View) -> String {
    let seen = &view.manometer;
    if let Some(away) = away(view) {
        return away;
    }
    let mut said = vec![
        format!("the manometer hangs on its hook, {}", plumb(seen.tilt_deg)),
        format!("{}; {}", valve(view, Leg::Left), valve(view, Leg::Right)),
        scale(seen.scale_in),
        water(view),
    ];
    if seen.bubble {
        said.push("there is a bubble in the bend".to_owned());
    }
    said.extend(filling(view));
    said.push(
        if view.tube.on_tap {
            "the tube runs from the left leg to the calibrator's pressure tap"
        } else {
            "the tube hangs from the left leg and is not connected"
        }
        .to_owned(),
    );
    sentences(&said)
}

/// One leg, for reading: the lowest edge and the upper rim of the water, as the eye has them.
pub(super) fn leg(view: &View, leg: Leg) -> String {
    if let Some(away) = away(view) {
        return away;
    }
    if view.manometer.display.is_some() {
        return "An electronic manometer has no legs: read its display.".to_owned();
    }
    let seen = view.manometer.leg(leg);
    let motion = if view.manometer.moving {
        "the water is still moving, and this is where it is at the moment"
    } else {
        "the water is at rest"
    };
    let mut said = vec![
        format!(
            "{} leg: the bottom of the meniscus is {}, its upper rim {}",
            name(LEGS, &leg),
            inches_from_zero(seen.meniscus_in),
            inches_from_zero(seen.rim_in),
        ),
        "read the bottom of the meniscus".to_owned(),
        eye(view.eye_mm),
        motion.to_owned(),
    ];
    said.extend(in_the_glass(view));
    sentences(&said)
}

/// What it is filled with, if not with water, and how far.
fn filling(view: &View) -> Vec<String> {
    let seen = &view.manometer;
    let mut said = Vec::new();
    if seen.fluid != GaugeFluid::Water {
        said.push(format!(
            "its label says that it is filled with {}, relative density {:.2}",
            seen.fluid.words(),
            seen.fluid.relative_density()
        ));
    }
    match steps(seen.below_mark_mm, 1.0) {
        -2..=2 => {}
        low if low > 0 => said.push(format!("the level is {low} mm below the fill mark")),
        high => said.push(format!("the level is {} mm above the fill mark", high.unsigned_abs())),
    }
    said.extend(in_the_glass(view));
    said
}

/// Ice and dirt in the glass.
fn in_the_glass(view: &View) -> Vec<String> {
    let seen = &view.manometer;
    let mut said = Vec::new();
    match seen.ice {
        IceLook::None => {}
        IceLook::Slush => said.push("there is ice at the glass, and the water is slush".to_owned()),
        IceLook::Solid => said.push("it is white and cracked: frozen through".to_owned()),
    }
    if seen.dirty {
        said.push("the water is cloudy, and drops cling to the glass above it".to_owned());
    }
    said
}

/// How a valve stands, by quarter turns.
pub(super) fn valve(view: &View, leg: Leg) -> String {
    let leg_name = name(LEGS, &leg);
    let stands = match view.manometer.leg(leg).valve_quarters {
        0 => "shut",
        1 => "open by a quarter turn",
        2 => "open by half a turn",
        3 => "open by three quarters of a turn",
        _ => "fully open",
    };
    format!("the {leg_name} valve is {stands}")
}

/// Where the eye is.
pub(super) fn eye(eye_mm: f64) -> String {
    match steps(eye_mm, 1.0) {
        0 => "your eye is level with it".to_owned(),
        height if height > 0 => format!("your eye is {height} mm above it"),
        height => format!("your eye is {} mm below it", height.unsigned_abs()),
    }
}

/// How it hangs against the plumb line, to half a degree.
fn plumb(tilt_deg: f64) -> String {
    let side = if tilt_deg > 0.0 { "right" } else { "left" };
    match steps(tilt_deg, 0.5).unsigned_abs() {
        0 => "plumb".to_owned(),
        1 => format!("half a degree out of plumb to the {side}"),
        halves if halves % 2 == 0 => {
            format!("out of plumb to the {side} by about {} degrees", halves / 2)
        }
        halves => format!("out of plumb to the {side} by about {}.5 degrees", halves / 2),
    }
}

/// How far the scale was moved.
fn scale(scale_in: f64) -> String {
    match steps(scale_in, 0.05) {
        0 => "the scale has not been moved".to_owned(),
        _ => {
            let side = if scale_in > 0.0 { "up" } else { "down" };
            format!("the scale has been moved {side} by {} inches", super::scale::tenths(scale_in))
        }
    }
}

/// The water seen from a distance: no reading.
fn water(view: &View) -> String {
    let seen = &view.manometer;
    let difference = seen.left.meniscus_in - seen.right.meniscus_in;
    let stands = if steps(difference, 0.5) == 0 {
        "the water is about level in both legs".to_owned()
    } else {
        let higher = if difference > 0.0 { "left" } else { "right" };
        format!("the water is higher in the {higher} leg by {}", rough_inches(difference))
    };
    if seen.moving {
        format!("{stands}, and is moving")
    } else {
        format!("{stands}, and is at rest")
    }
}

/// What is said while it is not on its hook.
pub(super) fn away(view: &View) -> Option<String> {
    match view.mounting.place(RigPart::Manometer) {
        PartPlace::Hook => None,
        place => {
            let lies = super::mounting::lies(place);
            let mut said = vec![format!("the manometer {lies}; hang it on its hook to read it")];
            said.extend(in_the_glass(view));
            Some(sentences(&said))
        }
    }
}
