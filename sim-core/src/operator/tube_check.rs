//! The tube looked over: kinks, drops, cracks.

use super::mind::Mind;
use super::{Practice, Scene};
use crate::session::action::{Action, FaultPlace, Response};

/// What was done with the tube, which must be in focus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Tube {
    /// Nothing: it is sound.
    Sound,
    /// It was put right.
    Mended,
    /// It cannot be used.
    Unfit,
}

/// Looks the tube over and puts right what can be.
pub(super) fn look_over(scene: &Scene<'_>, mind: &mut Mind) -> Tube {
    let tube = &scene.view.tube;
    if mind.habits.tube_check == Practice::Skipped {
        return Tube::Sound;
    }
    if tube.crack == Some(true) {
        mind.rejects(FaultPlace::Tube, "the tube is cracked");
        return Tube::Unfit;
    }
    let loose = tube.loose == Some(true);
    if !tube.kinked && !tube.drops && !loose {
        return Tube::Sound;
    }
    if tube.kinked {
        mind.does(Action::StraightenTube);
        mind.reports(FaultPlace::Tube, Response::Repaired, "the tube was kinked; straightened");
    }
    if loose {
        mind.does(Action::DisconnectTube);
        mind.does(Action::ConnectTube);
        mind.reports(
            FaultPlace::Tube,
            Response::Repaired,
            "the tube sat half on the tap; pushed home",
        );
    }
    if tube.drops {
        if tube.on_tap {
            mind.does(Action::DisconnectTube);
        }
        mind.does(Action::DrainTube);
        if tube.on_tap {
            mind.does(Action::ConnectTube);
        }
        mind.reports(FaultPlace::Tube, Response::Repaired, "water stood in the tube; shaken out");
    }
    Tube::Mended
}
