//! Whether a report stands on something seen, heard or handled, or is a guess.

use crate::procedure::evidence::{At, Evidence};
use crate::session::action::{Action, FaultPlace, Sight};
use crate::session::ground_truth::EventRecord;

/// Whether the place of a report was looked at, listened to, or had under the hand before it.
///
/// Who names a fault without having been near it has guessed, even when the guess is right: nobody
/// can act on it, and the next guess may take a sound instrument out of service.
pub(crate) fn looked_before(evidence: &Evidence<'_>, place: FaultPlace, at: At<'_>) -> bool {
    evidence.moments.iter().take(at.index).any(|moment| shows(moment, place))
}

/// Whether an action shows something of a place.
fn shows(moment: &EventRecord, place: FaultPlace) -> bool {
    match &moment.action {
        Action::Look { at, .. } => looks_at(*at, place),
        action => handles(action, place) || heard(moment, place),
    }
}

/// Whether a sight shows something of a place.
const fn looks_at(sight: Sight, place: FaultPlace) -> bool {
    match place {
        FaultPlace::Manometer => {
            matches!(sight, Sight::Manometer | Sight::LeftLeg | Sight::RightLeg)
        }
        FaultPlace::Tube => matches!(sight, Sight::Tube | Sight::Manometer),
        FaultPlace::Calibrator => matches!(sight, Sight::Calibrator),
        FaultPlace::Certificate => matches!(sight, Sight::Certificate(_)),
        FaultPlace::Mounting => {
            matches!(sight, Sight::Holder | Sight::Calibrator | Sight::Blower)
        }
        // A weak or wandering blower shows in both columns as well.
        FaultPlace::Blower => {
            matches!(sight, Sight::Blower | Sight::Plugs | Sight::Pen | Sight::LeftLeg)
        }
        FaultPlace::FlowController => matches!(sight, Sight::Controller | Sight::Plugs),
        FaultPlace::Recorder => matches!(sight, Sight::Recorder | Sight::Pen),
        FaultPlace::Barometer => matches!(sight, Sight::Barometer),
        FaultPlace::Thermometer => matches!(sight, Sight::Thermometer),
        // Gusts are seen where they move the water, a front on thermometer and barometer.
        FaultPlace::Weather => matches!(
            sight,
            Sight::Sky
                | Sight::Station
                | Sight::RoofEdge
                | Sight::LeftLeg
                | Sight::RightLeg
                | Sight::Thermometer
                | Sight::Barometer
        ),
        FaultPlace::Filter => matches!(sight, Sight::Filter | Sight::Holder),
        FaultPlace::Timer => matches!(sight, Sight::Timer | Sight::Plugs),
    }
}

/// Whether hands are laid on a place.
const fn handles(action: &Action, place: FaultPlace) -> bool {
    match place {
        FaultPlace::Manometer => matches!(
            action,
            Action::TurnValve { .. }
                | Action::SlideScale { .. }
                | Action::SwingManometer { .. }
                | Action::BlowThrough
        ),
        FaultPlace::Tube => matches!(
            action,
            Action::ConnectTube
                | Action::DisconnectTube
                | Action::StraightenTube
                | Action::DrainTube
                | Action::BlowThrough
        ),
        FaultPlace::Mounting => matches!(
            action,
            Action::TurnNut { .. } | Action::SetWasher { .. } | Action::FitGasket { .. }
        ),
        FaultPlace::Recorder => matches!(
            action,
            Action::OpenDoor | Action::Tap | Action::SetPenZero { .. } | Action::FitChart
        ),
        FaultPlace::FlowController => matches!(action, Action::TurnTrim { .. }),
        FaultPlace::Barometer => matches!(action, Action::SetBarometer { .. }),
        FaultPlace::Thermometer => matches!(action, Action::PlaceThermometer { .. }),
        FaultPlace::Timer => matches!(
            action,
            Action::SwitchTimer { .. }
                | Action::SetTripper { .. }
                | Action::FastenTripper { .. }
                | Action::SetDial { .. }
        ),
        FaultPlace::Filter => super::filter::handles_filter(action),
        FaultPlace::Calibrator
        | FaultPlace::Certificate
        | FaultPlace::Blower
        | FaultPlace::Weather => false,
    }
}

/// Whether something of a place is heard at a moment: thunder, a blower that runs, a hiss.
fn heard(moment: &EventRecord, place: FaultPlace) -> bool {
    match place {
        // Only a blower that draws makes a leak hiss.
        FaultPlace::Mounting => moment.before.powered && matches!(moment.action, Action::Listen),
        // A blower that runs is heard by everybody on the roof.
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
