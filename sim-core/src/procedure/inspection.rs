//! Whether a report is based on something seen, heard or handled, or is a guess.

use crate::procedure::evidence::{At, Evidence};
use crate::session::action::{Action, FaultPlace, Sight};
use crate::session::ground_truth::EventRecord;

/// Whether the place of a report was looked at, listened to or handled before it.
///
/// Naming a fault without having been near it is a guess, even if it is right: nobody can act on it,
/// and the next guess may take a sound instrument out of service.
pub(crate) fn looked_before(evidence: &Evidence<'_>, place: FaultPlace, at: At<'_>) -> bool {
    evidence.moments.iter().take(at.index).any(|moment| shows(moment, place))
}

/// Whether an action reveals something about a place.
fn shows(moment: &EventRecord, place: FaultPlace) -> bool {
    match &moment.action {
        Action::Look { at, .. } => looks_at(*at, place),
        action => handles(action, place) || heard(moment, place),
    }
}

/// Whether a sight reveals something about a place.
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
        // A weak or unsteady blower also shows on the manometer and the pen.
        FaultPlace::Blower => {
            matches!(sight, Sight::Blower | Sight::Plugs | Sight::Pen | Sight::LeftLeg)
        }
        FaultPlace::FlowController => matches!(sight, Sight::Controller | Sight::Plugs),
        FaultPlace::Recorder => matches!(sight, Sight::Recorder | Sight::Pen),
        FaultPlace::Barometer => matches!(sight, Sight::Barometer),
        FaultPlace::Thermometer => matches!(sight, Sight::Thermometer),
        // Gusts are visible where they move the water, a front on thermometer and barometer.
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

/// Whether an action handles a place.
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
