//! The electronic manometer: switched on, with a sound battery, zeroed with its port open, and joined;
//! then read at every point.

use content::advice::Deed;
use sim_core::field_book::{Field, PointNumber};
use sim_core::rig::manometer::electronic::Shown;
use sim_core::rig::parts::OnOff;
use sim_core::session::action::{Action, Sight};
use sim_core::session::view::DisplayView;

use super::goal::Goal;
use super::next::{Advice, act, acts, next, wait};
use super::scene::Scene;
use crate::moves::look_at;

/// A zero that is left alone, inches of water: two of the last digit.
const ZEROED_IN: f64 = 0.02;

/// The next step until it is zeroed and its tube on the tap.
pub(super) fn ready(scene: &Scene<'_>, display: DisplayView) -> Option<Advice> {
    let tube = &scene.view.tube;
    if let Some(step) = powered(display) {
        return Some(step);
    }
    if tube.kinked {
        return act("tube-clear", Goal::AsDone, Action::StraightenTube);
    }
    if tube.on_tap {
        return None;
    }
    if tube.drops {
        return act("tube-clear", Goal::AsDone, Action::DrainTube);
    }
    let off_in = match display.shows {
        Shown::Reading(reading_in) => reading_in,
        _ => return wait("display-zeroed", Goal::DisplayZeroed, 5.0),
    };
    if scene.view.manometer.moving {
        return wait("display-zeroed", Goal::DisplayZeroed, 10.0);
    }
    if !scene.history.zero_seen() || scene.view.focus != Sight::Display {
        return acts("display-zeroed", Goal::DisplayZeroed, vec![look_at(Sight::Display)]);
    }
    if off_in.abs() > ZEROED_IN {
        return act("display-zeroed", Goal::DisplayZeroed, Action::ZeroManometer);
    }
    act("display-zeroed", Goal::Joined, Action::ConnectTube)
}

/// The next step until it is on, and its battery sound.
pub(super) fn powered(display: DisplayView) -> Option<Advice> {
    if display.battery_low {
        return act("display-battery", Goal::AsDone, Action::ChangeBattery);
    }
    if display.shows == Shown::Nothing {
        let on = Action::SwitchManometer { to: OnOff::On };
        return act("display-zeroed", Goal::AsDone, on);
    }
    None
}

/// Display and pen, read afresh, and then both written.
pub(super) fn read(scene: &Scene<'_>, point: PointNumber) -> Option<Advice> {
    let goal = Goal::DisplayRead(point);
    let reads = scene.reading(&[Sight::Display, Sight::Pen]);
    if !reads.is_empty() {
        let taps = reads.first() == Some(&Action::Tap);
        return acts(if taps { "pen-tapped" } else { "looked-before-writing" }, goal, reads);
    }
    next("values-as-seen", goal, [Field::DeltaH(point), Field::Chart(point)].map(Deed::Write))
}

/// What is still to be written of a point.
pub(super) fn left_over(scene: &Scene<'_>, point: PointNumber) -> Option<Advice> {
    let fields = [(Field::DeltaH(point), Sight::Display), (Field::Chart(point), Sight::Pen)];
    let (field, at) = fields.into_iter().find(|(field, _)| !scene.has(*field))?;
    let looks = scene.reading(&[at]).into_iter().map(Deed::Do);
    next("looked-before-writing", Goal::PointCompleted(field), looks.chain([Deed::Write(field)]))
}
