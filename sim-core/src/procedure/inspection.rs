//! Whether a report is based on something seen, heard or handled, or is a guess.

use crate::procedure::evidence::{At, Evidence};
#[cfg(test)]
use crate::session::action::Sight;
use crate::session::action::{Action, FaultPlace};
use crate::session::ground_truth::EventRecord;

/// Whether the place of a report was looked at, listened to or handled before it.
///
/// Naming a fault without having been near it is a guess, even if it is right: nobody can act on it,
/// and the next guess may take a sound instrument out of service.
pub(crate) fn looked_before(evidence: &Evidence<'_>, place: FaultPlace, at: At<'_>) -> bool {
    evidence.events.iter().take(at.index).any(|moment| shows(moment, place))
}

/// Whether an action reveals something about a place.
fn shows(moment: &EventRecord, place: FaultPlace) -> bool {
    moment.action.traits().shows.contains(&place) || heard(moment, place)
}

/// Whether something at a place is heard at a moment: thunder, a running blower, a hiss.
fn heard(moment: &EventRecord, place: FaultPlace) -> bool {
    match place {
        // A leak hisses only while the blower draws.
        FaultPlace::Mounting => moment.before.powered && matches!(moment.action, Action::Listen),
        // A running blower is heard everywhere on the roof.
        FaultPlace::Blower => moment.before.powered,
        FaultPlace::Weather => moment.before.thunder_since_s.is_some(),
        _ => false,
    }
}

/// The sight that shows a place best.
#[cfg(test)]
pub(crate) const fn best_sight(place: FaultPlace) -> Sight {
    match place {
        FaultPlace::Manometer => Sight::Manometer,
        FaultPlace::Tube => Sight::Tube,
        FaultPlace::Calibrator => Sight::Calibrator,
        FaultPlace::Certificate => Sight::Certificate(0),
        FaultPlace::Mounting => Sight::Holder,
        FaultPlace::Blower => Sight::Blower,
        FaultPlace::FlowController => Sight::Controller,
        FaultPlace::Recorder => Sight::Recorder,
        FaultPlace::Barometer => Sight::Barometer,
        FaultPlace::Thermometer => Sight::Thermometer,
        FaultPlace::Weather => Sight::Sky,
        FaultPlace::Filter => Sight::Filter,
        FaultPlace::Timer => Sight::Timer,
    }
}
