//! What is said to somebody who comes back to a session.

use sessions::LiveSession;
use sim_core::rig::parts::{Part, Place};

use crate::say_action;

/// Actions that are told.
const TOLD: usize = 3;

/// Time, the last actions, and what is mounted; nothing in a session where nothing was done yet.
pub(super) fn welcome_back(session: &dyn LiveSession) -> Option<String> {
    let mut done: Vec<String> =
        session.done().rev().take(TOLD).map(|(_, action)| say_action(action)).collect();
    if done.is_empty() {
        return None;
    }
    done.reverse();
    let view = session.view();
    let mounted: Vec<&str> = [
        (Part::Frame, "the filter frame"),
        (Part::Filter, "the filter"),
        (Part::Adapter, "the adapter plate"),
        (Part::Calibrator, "the calibrator"),
        (Part::Manometer, "the manometer"),
    ]
    .into_iter()
    .filter(|&(part, _)| {
        matches!(view.mounting.place(part), Place::Holder | Place::Adapter | Place::Hook)
    })
    .map(|(_, name)| name)
    .collect();
    let mounted = if mounted.is_empty() { "nothing".to_owned() } else { mounted.join(", ") };
    let (time, done) = (view.time, done.join("; "));
    Some(format!("You are back: it is {time}.\nThe last you did: {done}.\nMounted: {mounted}."))
}
