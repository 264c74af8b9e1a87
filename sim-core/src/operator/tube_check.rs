//! The inspection of the tubing: kinks, drops of water, cracks.

use super::memory::Memory;
use super::{Observation, Practice, filling};
use crate::rig::parts::{PartPlace, RigPart};
use crate::session::action::{Action, FaultKind, Response};

/// Result of the inspection of the tubing, which must be in focus.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum TubeCondition {
    /// The tubing is sound.
    Sound,
    /// A fault was repaired.
    Mended,
    /// The tubing cannot be used.
    Unfit,
}

/// Inspects the tubing and repairs what can be repaired.
pub(super) fn look_over(observed: &Observation<'_>, memory: &mut Memory) -> TubeCondition {
    let tube = &observed.view.tube;
    if memory.habits.tube_check == Practice::Skipped {
        return TubeCondition::Sound;
    }
    let loose = tube.loose == Some(true);
    let signs = [
        (tube.crack == Some(true), "a crack"),
        (tube.kinked, "a kink"),
        (loose, "an end that is only half on the tap"),
        (tube.drops, "drops of water"),
    ];
    let seen: Vec<&str> = signs.into_iter().filter(|(is, _)| *is).map(|(_, what)| what).collect();
    memory.thinks(match seen.as_slice() {
        [] => {
            "The tubing shows no kink, no drops and no crack: it carries the pressure.".to_owned()
        }
        seen => format!("The tubing shows {}.", seen.join(" and ")),
    });
    if tube.crack == Some(true) {
        memory.rejects(FaultKind::TubeCracked, "the tube is cracked");
        return TubeCondition::Unfit;
    }
    if !tube.kinked && !tube.drops && !loose {
        return TubeCondition::Sound;
    }
    if tube.kinked {
        memory.does(Action::StraightenTube);
        memory.reports(
            FaultKind::TubeKinked,
            Response::Repaired,
            "the tube was kinked; straightened",
        );
    }
    if loose {
        memory.does(Action::DisconnectTube);
        memory.does(Action::ConnectTube);
        memory.reports(
            FaultKind::TubeLoose,
            Response::Repaired,
            "the tube sat half on the tap; pushed home",
        );
    }
    if tube.drops {
        if tube.on_tap {
            memory.does(Action::DisconnectTube);
        }
        memory.does(Action::DrainTube);
        // What lies in the tube may be missing in the legs.
        let hangs = observed.view.mounting.place(RigPart::Manometer) == PartPlace::Hook;
        if hangs && tube.on_tap {
            filling::tops_up(observed, memory);
        }
        if tube.on_tap {
            memory.does(Action::ConnectTube);
        }
        memory.reports(
            FaultKind::TubeWet,
            Response::Repaired,
            "water stood in the tube; shaken out",
        );
    }
    TubeCondition::Mended
}
