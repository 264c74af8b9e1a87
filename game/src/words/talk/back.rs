//! What is said to somebody who comes back to a session.

use sim_core::rig::parts::{PartPlace, RigPart};
use sim_core::session::Session;

use crate::words::say_action;

/// Actions that are told.
const TOLD: usize = 3;

/// Time, the last actions, and what is mounted; nothing in a session where nothing was done yet.
pub(super) fn welcome_back(session: &Session) -> Option<String> {
    let mut done: Vec<String> =
        session.done().rev().take(TOLD).map(|(_, action)| say_action(action)).collect();
    if done.is_empty() {
        return None;
    }
    done.reverse();
    let view = session.view();
    let mounted: Vec<&str> = [
        (RigPart::Frame, "the filter frame"),
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
    Some(format!("You are back: it is {time}.\nThe last you did: {done}.\nMounted: {mounted}."))
}
