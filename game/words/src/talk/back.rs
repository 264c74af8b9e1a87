//! What is said to somebody who comes back to a session.

use sessions::LiveSession;
use sim_core::rig::parts::{PartPlace, RigPart};

use crate::printable::printable;
use crate::say::say_action;

/// Actions that are told.
const TOLD: usize = 3;

/// Whether nobody has done anything yet: in a lesson, nothing since it began.
pub(super) fn is_fresh(session: &dyn LiveSession) -> bool {
    let before = session.lesson_began().map_or(0, |began| began.events);
    session.done().nth(before).is_none()
}

/// Time, the last actions, and what is mounted; nothing in a session where nothing was done yet.
pub(super) fn welcome_back(session: &dyn LiveSession) -> Option<String> {
    if is_fresh(session) {
        return None;
    }
    let mut done: Vec<String> =
        session.done().rev().take(TOLD).map(|(_, action)| printable(&say_action(action))).collect();
    if done.is_empty() {
        return None;
    }
    done.reverse();
    let view = session.view();
    let mounted: Vec<&str> = [
        (RigPart::Frame, "the hold-down frame"),
        (RigPart::Filter, "the filter"),
        (RigPart::Adapter, "the adapter plate"),
        (RigPart::Calibrator, "the calibrator"),
        (RigPart::Manometer, "the manometer"),
    ]
    .into_iter()
    .filter(|&(part, _)| {
        matches!(
            view.mounting.place(part),
            PartPlace::Holder | PartPlace::Adapter | PartPlace::Hook
        )
    })
    .map(|(_, name)| name)
    .collect();
    let mounted = if mounted.is_empty() { "nothing".to_owned() } else { mounted.join(", ") };
    let (time, done) = (view.time, done.join("; "));
    Some(format!("You are back: it is {time}.\nYour last actions: {done}.\nMounted: {mounted}."))
}
